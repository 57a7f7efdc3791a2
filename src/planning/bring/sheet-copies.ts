/** One copy of a layout more or fewer: what that changes, by the worth of each transfer on it and the price of a copy. */
import type { SheetRequest } from "../../model/planning/sheets.ts";
import { pricesOf } from "../sheets/search/prices.ts";
import type { Tried } from "./ahead.ts";
import { BEND } from "./search/local-search.ts";

/** Transfers by design. */
export type Counts = ReadonlyMap<string, number>;

type CopyMove = {
  readonly key: string;
  readonly by: 1 | -1;
  readonly counts: Counts;
  readonly designs: readonly string[];
  /** The expected change of the profit, from the worth of each transfer on the sheet and the price of a copy. */
  readonly gain: number;
};

/** One copy more and one fewer of each layout, the most hopeful first. */
export function copyMoves(wanted: SheetRequest, { sheets, prepared, brought }: Tried): CopyMove[] {
  const { slopes } = brought.best;
  return (sheets?.layouts ?? [])
    .flatMap(({ layout, sheet, copies, price, pieces }) =>
      ([1, -1] as const).flatMap((by): CopyMove[] => {
        const size = wanted.sheets.find(({ id }) => id === sheet);
        const then = copies + by === 0 ? 0 : size && pricesOf(size).exactly(copies + by)?.price;
        if (then === undefined) return [];
        const counts = new Map((sheets?.transfers ?? []).map(({ design, made }) => [design, made]));
        let gain = price - then;
        prepared.stocks.forEach(({ id, bySheet }, at) => {
          const each = pieces.filter(({ design }) => design === id).length;
          if (!bySheet || each === 0) return;
          const [more, fewer] = [slopes.more[at] ?? 0, slopes.fewer[at] ?? 0];
          const bend = BEND * Math.max(0, -fewer - more);
          gain += each * (by > 0 ? more : fewer) - (bend * each * (each - 1)) / 2;
          counts.set(id, Math.max(0, (counts.get(id) ?? 0) + by * each));
        });
        const designs = [...new Set(pieces.map(({ design }) => design))];
        return [{ key: `${layout} ${by}`, by, counts, designs, gain }];
      }),
    )
    .sort((a, b) => b.gain - a.gain);
}

/** By design: the change of the expected profit from one sheet more and one fewer of those that carry it. */
export function sheetChanges(tried: Tried): Map<string, { oneMore: number; oneFewer: number }> {
  const wanted = tried.prepared.request.parts?.sheets;
  if (wanted === undefined || tried.sheets === null) return new Map();
  const moves = copyMoves(wanted, tried);
  const ids = tried.prepared.stocks.flatMap(({ id, bySheet }) => (bySheet ? [id] : []));
  const best = (id: string, by: number) =>
    moves.find((move) => move.by === by && move.designs.includes(id))?.gain;
  return new Map(
    ids.flatMap((id) => {
      const [more, fewer] = [best(id, 1), best(id, -1)];
      if (more === undefined && fewer === undefined) return [];
      return [[id, { oneMore: Math.round(more ?? 0), oneFewer: Math.min(0, Math.round(fewer ?? 0)) }]];
    }),
  );
}
