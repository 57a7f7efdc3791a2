/** A cost below which no plan can come, from the room that transfers take and the prices of whole orders. */

import type { Work } from "../../../maths/work.ts";
import { loadOf } from "../../packing/bounds.ts";
import { pairsUnder } from "./few.ts";
import type { GangProblem } from "./problem.ts";
import { countsFor, slotsOf } from "./slots.ts";

/** With more sheet sizes than this every sheet is taken at its best price instead. */
const MOST_SIZES = 3;

/** Plans of one layout, of two, and of more are bounded apart; `known` is the cost of some plan. */
export function* floorOf(problem: GangProblem, known: number): Work<number> {
  const extra = problem.extraLayoutPrice;
  const bar = known + extra;
  const one =
    slotsOf(problem, problem.wanted, bar).find(({ size, copies }) =>
      size.single.mightFit(countsFor(problem.wanted, copies)),
    )?.cost ?? bar;
  const sheets = cheapestSheets(problem, known);
  if (sheets + extra >= known || one - extra <= sheets + extra)
    return Math.min(one - extra, sheets + extra, known);
  const two = (yield* pairsUnder(problem, problem.wanted, bar))[0]?.cost ?? bar;
  return Math.max(
    sheets,
    Math.min(one - extra, Math.max(sheets + extra, two - extra), sheets + 2 * extra, known),
  );
}

/** The cheapest whole sheets with room enough by the best of all lists of weights, extra layouts apart. */
function cheapestSheets(problem: GangProblem, known: number): number {
  const lists = problem.sizes.flatMap(({ single }) => single.weights);
  let floor = 0;
  for (const weights of lists) {
    const need = loadOf(weights, problem.wanted) - 1e-7;
    const rooms = problem.sizes.map((size) => mostOn(size.single.weights, weights));
    floor = Math.max(floor, cheapestRoom(problem, rooms, need, known));
  }
  return floor;
}

/** The most that a sheet holds of `weights`, since it holds at most 1 of any of its own lists. */
function mostOn(own: readonly (readonly number[])[], weights: readonly number[]): number {
  const ratios = own.map((list) =>
    weights.reduce(
      (most, weight, at) => (weight === 0 ? most : Math.max(most, weight / (list[at] || 1e-12))),
      0,
    ),
  );
  return Math.min(...ratios);
}

function cheapestRoom(problem: GangProblem, rooms: readonly number[], need: number, known: number): number {
  const rates = problem.sizes.map((size, at) => {
    const most = Math.max(1, Math.ceil(need / Math.max(1e-9, rooms[at] ?? 1)));
    return (
      Math.min(...[1, most].map((copies) => size.prices.atLeast(copies).price / copies), size.prices.least) /
      (rooms[at] ?? 1)
    );
  });
  if (problem.sizes.length > MOST_SIZES) return Math.min(...rates) * need;
  let best = known;
  const buy = (at: number, left: number, cost: number): void => {
    const size = problem.sizes[at];
    if (left <= 1e-9) {
      best = Math.min(best, cost);
      return;
    }
    if (!size) return;
    const room = rooms[at] ?? 1;
    const all = Math.ceil(left / room - 1e-9);
    const last = at === problem.sizes.length - 1;
    for (let copies = last ? all : 0; copies <= all; copies++) {
      const next = cost + (copies === 0 ? 0 : size.prices.atLeast(copies).price);
      if (next >= best) break;
      buy(at + 1, left - copies * room, next);
    }
  };
  buy(0, need, 0);
  return best;
}
