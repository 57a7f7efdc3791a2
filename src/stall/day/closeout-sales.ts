/** The sales side of a day's account: by offer, colour, size, hour and tender. */

import type { Closeout } from "../../model/accounts/closeout.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { type DayChoice, type DayRows, NO_TAKINGS, type PaidBy } from "../state/day-rows.ts";
import { nameIn } from "./names.ts";

type Sales = Closeout["sales"];

const TENDERS: readonly PaidBy[] = ["cash", "card", "other", "not-noted"];

/** The displayed names of an offer, colour and size; ids for what has left the menu. */
export function namedChoice(menu: Menu, { offer, blank, colour, size }: DayChoice) {
  const made = menu.blanks.find(({ id }) => id === blank);
  return {
    offer,
    name: nameIn(menu.offers, offer),
    colour,
    colourName: nameIn(made?.colours, colour),
    size,
    sizeName: nameIn(made?.sizes, size),
  };
}

type Sold = Pick<Sales["choices"][number], "garments" | "amount" | "returned">;
type Named<K extends string> = Sold & { readonly name: string } & Readonly<Record<K, string>>;

/** The choices summed by one of their parts, in menu order. */
function by<K extends "offer" | "colour" | "size">(choices: Sales["choices"], part: K): Named<K>[] {
  const nameOf = { offer: "name", colour: "colourName", size: "sizeName" } as const;
  const sums = new Map<string, Named<K>>();
  for (const choice of choices) {
    // A price lowered on a later day than the payment leaves an amount without a garment.
    if (choice.garments === 0 && choice.returned === 0 && choice.amount === 0) continue;
    const id: string = choice[part];
    const before = sums.get(id);
    const sum = {
      [part]: id,
      name: choice[nameOf[part]],
      garments: (before?.garments ?? 0) + choice.garments,
      amount: (before?.amount ?? 0) + choice.amount,
      returned: (before?.returned ?? 0) + choice.returned,
    };
    sums.set(id, sum as Named<K>); // the part is named by its own key
  }
  return [...sums.values()];
}

/** A choice's position on the menu; what has left the menu comes last. */
function place(menu: Menu, { offer, colour, size, blank }: DayChoice): number {
  const made = menu.blanks.find(({ id }) => id === blank);
  const at = (list: readonly { readonly id: string }[] | undefined, id: string): number => {
    const index = list?.findIndex((entry) => entry.id === id) ?? -1;
    return index < 0 ? 99 : index;
  };
  return at(menu.offers, offer) * 10_000 + at(made?.colours, colour) * 100 + at(made?.sizes, size);
}

export const inMenuOrder = (menu: Menu, choices: readonly DayChoice[]): readonly DayChoice[] =>
  [...choices].sort((one, other) => place(menu, one) - place(menu, other));

export function salesOf(menu: Menu, { totals, choices: rows }: DayRows): Sales {
  const choices = inMenuOrder(menu, rows).map((row) => ({
    ...namedChoice(menu, row),
    garments: row.garments,
    amount: row.amount,
    returned: row.returned,
    asked: row.asked,
    unmet: Object.values(row.unmet).reduce((sum, garments) => sum + garments, 0),
  }));
  return {
    choices,
    offers: by(choices, "offer") as Sales["offers"], // ids of the very choices
    colours: by(choices, "colour") as Sales["colours"],
    sizes: by(choices, "size") as Sales["sizes"],
    hours: Object.entries(totals.hours)
      .filter(([, { orders, garments, amount }]) => orders !== 0 || garments !== 0 || amount !== 0)
      .map(([from, { orders, garments, amount }]) => ({ from, orders, garments, amount }))
      .sort((one, other) => (one.from < other.from ? -1 : 1)),
    tenders: TENDERS.flatMap((tender) => {
      const takings = totals.takings[tender];
      // A payment that was taken back leaves a row of zeros: leave it out.
      const { payments, amount, returns, givenBack } = takings ?? NO_TAKINGS;
      const isNothing = payments === 0 && amount === 0 && returns === 0 && givenBack === 0;
      return isNothing ? [] : [{ tender, payments, amount, returns, givenBack }];
    }),
  };
}
