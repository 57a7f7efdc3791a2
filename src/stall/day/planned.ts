/** Compares the plan that the stall was filled from with a day, or with all days of the fair, each pair of figures on one basis. */
import type { Closeout } from "../../model/accounts/closeout.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import { spoiledOf } from "../state/day-rows.ts";
import { goneOf, type PricedPiece } from "./closeout-stock.ts";

type Planned = NonNullable<Closeout["planned"]>;

export type DayNow = {
  readonly sales: Closeout["sales"];
  /** From the account; null until the costs are known. */
  readonly profit: number | null;
  readonly blanks: readonly PricedPiece[];
  readonly transfers: readonly PricedPiece[];
  readonly waitMinutes: number | null;
  /** Garments printed ahead that are still on the rack. */
  readonly readyLeft: number;
};

export function plannedDay(plan: KeptPlan, menu: Menu, now: DayNow): Planned {
  const { blanks, transfers, sales, readyLeft } = now;
  const worthLeft = readyLeft * (plan.ready?.worth ?? 0);
  const left = (pieces: readonly PricedPiece[]): number => pieces.reduce((sum, piece) => sum + piece.left, 0);
  const names = namesOf(menu);
  return {
    name: plan.name,
    day: plan.day,
    ...(plan.days === undefined ? {} : { days: plan.days }),
    profit: {
      ...plan.profit,
      actual:
        now.profit === null
          ? null
          : now.profit - lostInWorth([...blanks, ...transfers], plan.owned) + worthLeft,
    },
    garments: { ...plan.garments, actual: soldOf(sales.offers) },
    waitMinutes: { planned: plan.waitMinutes.median, actual: now.waitMinutes },
    spoiled: { planned: plan.spoiled, actual: blanks.reduce((sum, { row }) => sum + spoiledOf(row), 0) },
    blanksLeft: { planned: plan.left.blanks, actual: left(blanks) },
    transfersLeft: { planned: plan.left.transfers, actual: left(transfers) },
    ...(plan.ready === undefined ? {} : { readyLeft: { planned: plan.ready.left, actual: readyLeft } }),
    offers: sideBySide("offer", plan, sales.offers, names),
    colours: sideBySide("colour", plan, sales.colours, names),
    sizes: sideBySide("size", plan, sales.sizes, names),
  };
}

/**
 * The loss in worth of bought stock beyond the pieces that the account counts as used. A plan charges every bought
 * piece's loss of worth, and the remaining worth only when a piece is used. So a piece paid for on an earlier day costs
 * no more than its worth.
 */
const lostInWorth = (pieces: readonly PricedPiece[], owned: KeptPlan["owned"]): number =>
  Math.round(
    pieces.reduce((sum, piece) => {
      const { key, price, opening, row } = piece;
      if (price === null) return sum;
      const before = owned[key.slice(key.indexOf(":") + 1)] ?? 0;
      const bought = Math.max(0, opening + row.delivered - before);
      return sum + ((bought - goneOf(piece)) * price.cost * (100 - price.worthPercent)) / 100;
    }, 0),
  );

type Part = "offer" | "colour" | "size";
type Sold<K extends Part> = {
  readonly name: string;
  readonly garments: number;
  readonly returned: number;
} & Readonly<Record<K, string>>;

const kept = ({ garments, returned }: { readonly garments: number; readonly returned: number }): number =>
  garments - returned;
const soldOf = (lines: readonly { readonly garments: number; readonly returned: number }[]): number =>
  lines.reduce((sum, line) => sum + kept(line), 0);

const namesOf = ({ offers, blanks }: Menu): ReadonlyMap<string, string> =>
  new Map(
    [
      ...offers.map(({ id, name }) => ["offer", id, name] as const),
      ...blanks.flatMap(({ colours, sizes }) => [
        ...colours.map(({ id, name }) => ["colour", id, name] as const),
        ...sizes.map(({ id, name }) => ["size", id, name] as const),
      ]),
    ].map(([part, id, name]) => [`${part} ${id}`, name]),
  );

/** Every offer, colour or size that was planned or sold, the most planned first. */
function sideBySide<K extends Part>(
  part: K,
  plan: KeptPlan,
  sold: readonly Sold<K>[],
  names: ReadonlyMap<string, string>,
): (Record<K, never> & { name: string; planned: number; sold: number })[] {
  const planned = new Map<string, number>();
  for (const sale of plan.sold) planned.set(sale[part], (planned.get(sale[part]) ?? 0) + sale.garments);
  const ids = [
    ...[...planned.keys()].sort((one, other) => (planned.get(other) ?? 0) - (planned.get(one) ?? 0)),
  ];
  for (const line of sold) if (!planned.has(line[part])) ids.push(line[part]);
  return ids.map((id) => {
    const line = sold.find((one) => one[part] === id);
    return {
      [part]: id,
      name: names.get(`${part} ${id}`) ?? line?.name ?? id,
      planned: Math.round(10 * (planned.get(id) ?? 0)) / 10,
      sold: line === undefined ? 0 : kept(line),
    } as Record<K, never> & { name: string; planned: number; sold: number }; // the part is named by its own key, with ids of the plan and the sales
  });
}
