/** The bundles that save the customer the most, found exactly, and what each line of an order costs less by them. */
import { sharedOut } from "../../model/basics/shared-out.ts";
import type { Bundle } from "../../model/menu/bundles.ts";
import type { BundleUse, Line } from "../state/shapes/line.ts";

type Priced = Pick<Line, "offer" | "each" | "quantity" | "extra" | "own" | "lowered">;

/** The bundles used, in the menu's order, and by how much each line is cheaper, in minor units. */
export type Bundled = { readonly uses: readonly BundleUse[]; readonly offs: readonly number[] };

/** One garment that may be part of a bundle: its line, and its price without surcharges. */
type Unit = { readonly line: number; readonly price: number };

/**
 * Garments that fit the same places of the same bundles, dearest first. A bundle has one price, so it saves most with
 * the dearest garments: those used are always the first ones of the list.
 */
type Kind = { readonly units: readonly Unit[]; readonly sums: readonly number[]; readonly key: string };

/** How many garments of each kind one use of a bundle takes. */
type Use = { readonly bundle: number; readonly taken: readonly number[] };

type Best = { readonly saving: number; readonly use: Use | null; readonly next: string };

/**
 * The greatest saving, by trying every sequence of bundle uses. The best for each remaining number of garments of each
 * kind is computed once. A use that saves nothing is never included.
 */
export function bundled(bundles: readonly Bundle[], lines: readonly Priced[]): Bundled {
  const offered = bundles.filter(({ offered: on }) => on);
  const kinds = kindsOf(offered, lines);
  const none: Bundled = { uses: [], offs: lines.map(() => 0) };
  if (kinds.length === 0) return none;
  const known = new Map<string, Best>();
  const best = (from: number, used: readonly number[]): number => {
    if (from >= offered.length) return 0;
    const key = keyOf(from, used);
    const before = known.get(key);
    if (before !== undefined) return before.saving;
    let found: Best = { saving: best(from + 1, used), use: null, next: keyOf(from + 1, used) };
    for (const taken of waysOf(offered, from, kinds, used)) {
      const after = used.map((many, at) => many + (taken[at] ?? 0));
      const gain = priceOf(kinds, after) - priceOf(kinds, used) - (offered[from]?.price ?? 0);
      if (gain <= 0) continue;
      const saving = gain + best(from, after);
      if (saving > found.saving) found = { saving, use: { bundle: from, taken }, next: keyOf(from, after) };
    }
    known.set(key, found);
    return found.saving;
  };
  const start = kinds.map(() => 0);
  if (best(0, start) === 0) return none;
  const uses: Use[] = [];
  for (let at = known.get(keyOf(0, start)); at !== undefined; at = known.get(at.next))
    if (at.use !== null) uses.push(at.use);
  return explained(offered, kinds, uses, lines.length);
}

const keyOf = (from: number, used: readonly number[]): string => `${from}|${used.join()}`;

/** The price of the first `used` garments of each kind. */
const priceOf = (kinds: readonly Kind[], used: readonly number[]): number =>
  kinds.reduce((sum, { sums }, at) => sum + (sums[used[at] ?? 0] ?? 0), 0);

function kindsOf(bundles: readonly Bundle[], lines: readonly Priced[]): readonly Kind[] {
  const byKey = new Map<string, Unit[]>();
  for (const [at, { offer, each, quantity, extra = 0, own, lowered }] of lines.entries()) {
    // A customer's own garment, and one with a reduced price, is never part of a bundle.
    if (own === true || lowered !== undefined) continue;
    const places = bundles.map(({ takes }) =>
      takes.map(({ offers }) => Number(offers.includes(offer))).join(""),
    );
    const key = places.join("/");
    if (!key.includes("1")) continue;
    const units = byKey.get(key) ?? [];
    for (let n = 0; n < quantity; n++) units.push({ line: at, price: each - extra });
    byKey.set(key, units);
  }
  return [...byKey].map(([key, all]): Kind => {
    const units = all.toSorted((one, other) => other.price - one.price || one.line - other.line);
    const sums = [0];
    for (const { price } of units) sums.push((sums.at(-1) ?? 0) + price);
    return { units, sums, key };
  });
}

/** Every way in which one use of a bundle can take its garments from the kinds, as many of each. */
function waysOf(
  bundles: readonly Bundle[],
  at: number,
  kinds: readonly Kind[],
  used: readonly number[],
): readonly (readonly number[])[] {
  const ways = new Map<string, readonly number[]>();
  const places = bundles[at]?.takes ?? [];
  const fill = (place: number, kind: number, left: number, taken: readonly number[]): void => {
    if (left === 0) {
      const next = places[place + 1];
      if (next === undefined) ways.set(taken.join(), taken);
      else fill(place + 1, 0, next.quantity, taken);
      return;
    }
    const here = kinds[kind];
    if (here === undefined) return;
    const accepts = here.key.split("/")[at]?.[place] === "1";
    const most = accepts ? Math.min(left, here.units.length - (used[kind] ?? 0) - (taken[kind] ?? 0)) : 0;
    for (let many = most; many >= 0; many--)
      fill(
        place,
        kind + 1,
        left - many,
        taken.map((before, index) => (index === kind ? before + many : before)),
      );
  };
  const [first] = places;
  if (first !== undefined)
    fill(
      0,
      0,
      first.quantity,
      kinds.map(() => 0),
    );
  return [...ways.values()];
}

/** Which bundles were used how often, and the saving of each shared out over its garments by their prices. */
function explained(
  bundles: readonly Bundle[],
  kinds: readonly Kind[],
  uses: readonly Use[],
  lines: number,
): Bundled {
  const offs = Array.from({ length: lines }, () => 0);
  const next = kinds.map(() => 0);
  const told = new Map<number, { times: number; saving: number }>();
  for (const { bundle, taken } of uses) {
    const units = kinds.flatMap(({ units: all }, at) => {
      const from = next[at] ?? 0;
      next[at] = from + (taken[at] ?? 0);
      return all.slice(from, next[at]);
    });
    const prices = units.map(({ price }) => price);
    const saving = prices.reduce((sum, price) => sum + price, 0) - (bundles[bundle]?.price ?? 0);
    for (const [at, off] of sharedOut(saving, prices).entries()) {
      const line = units[at]?.line ?? 0;
      offs[line] = (offs[line] ?? 0) + off;
    }
    const before = told.get(bundle) ?? { times: 0, saving: 0 };
    told.set(bundle, { times: before.times + 1, saving: before.saving + saving });
  }
  const list = bundles.flatMap(({ id }, at): BundleUse[] => {
    const use = told.get(at);
    return use === undefined ? [] : [{ bundle: id, ...use }];
  });
  return { uses: list, offs };
}
