/** The slip: the lines so far, what they come to, and the paper number where it was written on paper. Pure. */
import type { OfferId } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { type OrderPrice, priced } from "../../../../stall/stock/pricing.ts";
import type { SlipLine, Taken } from "../../crew/offline.ts";
import { moneyWords } from "../../crew/words/money.ts";
import type { Wanted } from "../acts.ts";
import type { Paying } from "../cash.ts";
import { nextPaperNumber, paperFrom } from "./paper.ts";

/** More garments than the stall accepts in one order. */
const TOO_MANY = 64;

export type Slip = {
  readonly lines: readonly SlipLine[];
  /** As typed. */
  readonly name: string;
  readonly given: string;
  readonly tip: string;
  readonly paper: { readonly open: boolean; readonly number: string; readonly time: string };
  /** Why it was not taken. */
  readonly missing: string;
};

export const EMPTY_SLIP: Slip = {
  lines: [],
  name: "",
  given: "",
  tip: "",
  paper: { open: false, number: "", time: "" },
  missing: "",
};

/** What a line is, but for how many: lines that are alike are one line. */
export const lineKey = ({ offer, colour, size, wishes = [], note, rack }: SlipLine): string =>
  JSON.stringify([offer, colour, size, wishes, note, rack]);

const same = (one: SlipLine, other: SlipLine): boolean => lineKey(one) === lineKey(other);

export function withLine(slip: Slip, line: SlipLine): Slip {
  const before = slip.lines.find((other) => same(line, other));
  const more = (other: SlipLine): SlipLine =>
    other === before ? { ...before, quantity: before.quantity + line.quantity } : other;
  return { ...slip, missing: "", lines: before === undefined ? [...slip.lines, line] : slip.lines.map(more) };
}

export const withoutLine = (slip: Slip, line: SlipLine): Slip => ({
  ...slip,
  lines: slip.lines.filter((other) => !same(line, other)),
});

/** An empty slip once one was taken, with the next paper number ready where that was a paper one. */
export const nextSlip = (paper: number | null): Slip => ({
  ...EMPTY_SLIP,
  paper: { open: paper !== null, number: paper === null ? "" : nextPaperNumber(paper), time: "" },
});

/** What the lines cost, bundles and tax worked out as the stall does. */
function priceOf({ lines }: Pick<Slip, "lines">, menu: Menu): OrderPrice<object> {
  const known = lines.map(({ offer, each, quantity, wishes = [], asSecond = 0 }) => {
    const isOwn = menu.wishes?.some(({ id, ownGarment }) => ownGarment && wishes.includes(id)) === true;
    const found = menu.offers.find(({ id }) => id === offer);
    // A line of an offer that has left the menu is in no bundle.
    const extra = found === undefined ? 0 : each + asSecond - found.price;
    return { offer: found?.id ?? NO_OFFER, each, quantity, extra, ...(isOwn ? { own: true as const } : {}) };
  });
  return priced(menu, known);
}
const NO_OFFER = "" as OfferId; // a brand for what no menu has

export const totalOf = (slip: Slip, menu: Menu): number => priceOf(slip, menu).total;

/** What the lines come to, row by row; the total among them. */
export function sumsOf(slip: Slip, menu: Menu): readonly (readonly [string, string])[] {
  const { tax, total, bundles = [] } = priceOf(slip, menu);
  const { taxPartsPerMillion, taxInPrice } = menu.rules;
  const money = (amount: number): string => moneyWords(amount, menu.currency);
  const saved = bundles.map(({ bundle, saving }): readonly [string, string] => [
    menu.bundles?.find(({ id }) => id === bundle)?.name ?? bundle,
    `${money(saving)} off`,
  ]);
  const less = slip.lines.reduce((sum, { asSecond = 0, quantity }) => sum + asSecond * quantity, 0);
  const off = [...saved, ...(less === 0 ? [] : [["Seconds", `${money(less)} off`] as const])];
  const rate = `${taxPartsPerMillion / 10_000} %`;
  const sum = ["Total", money(total)] as const;
  if (taxPartsPerMillion === 0) return [...off, sum];
  return taxInPrice
    ? [...off, sum, [`Includes ${rate} sales tax`, money(tax)]]
    : [...off, ["Garments", money(total - tax)], [`Sales tax ${rate}`, money(tax)], sum];
}

/** The order that the slip asks for, or what is wrong with it. */
export function orderOf(
  { lines, name, paper }: Slip,
  menu: Menu | null,
  how: Paying | null,
  by: string | null,
  now: Date,
): { readonly wanted: Wanted; readonly taken: Taken } | string {
  if (menu === null) return "This tablet has not seen the menu yet. It needs a signal first.";
  if (lines.length === 0) return "Add a garment first.";
  if (lines.reduce((sum, { quantity }) => sum + quantity, 0) >= TOO_MANY)
    return `At most ${TOO_MANY - 1} garments in an order. Make two of it.`;
  if (how === null && menu.rules.payment === "before-pressing" && lines.some(({ rack }) => rack))
    return "Take the money first: a garment from the rack is handed over at once.";
  const written = paper.open ? paperFrom(paper.number, paper.time, now) : null;
  if (typeof written === "string") return written;
  const who = name.trim();
  const { total, tax } = priceOf({ lines }, menu);
  const payment = how === null ? { tender: null, by: null } : { ...how, by };
  return {
    wanted: {
      lines: lines.map(({ offer, colour, size, quantity, wishes, note, rack }) => ({
        offer,
        colour,
        size,
        quantity,
        ...(wishes === undefined ? {} : { wishes }),
        ...(note === undefined ? {} : { note }),
        ...(rack === undefined ? {} : { rack }),
      })),
      ...(who === "" ? {} : { name: who }),
      ...(written === null ? {} : { paper: written }),
    },
    taken: { lines, name: who || null, total, tax, ...payment },
  };
}
