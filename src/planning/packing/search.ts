/**
 * Packs pieces onto a given number of sheets by repeatedly emptying a few sheets: their pieces and all unplaced pieces
 * are packed again in orders that change gradually, and a result is kept if no more is left over than before.
 */
import type { Random } from "../../maths/random.ts";
import { nicheFiller } from "./niches.ts";
import {
  areaOf,
  type Filling,
  type Orientations,
  type PackSteps,
  type Placement,
  type Sheet,
} from "./shapes.ts";
import { spreadOver } from "./skylines.ts";
import { sliceOver } from "./slices.ts";

/** Turns one order into a packing: returns the unplaced area, and the placements if wanted. */
type Decoder = (order: readonly number[], count: number, mostLeft: number, steps: PackSteps) => number;

export type Decoders = readonly { readonly decode: Decoder; readonly filling: () => Filling }[];

/** The decoders for free placement, or those whose packings straight cuts can part. */
export function decodersFor(orientations: Orientations, sheet: Sheet, cuts: "free" | "guillotine"): Decoders {
  const remembering = (pack: (order: readonly number[], count: number, steps: PackSteps) => Filling) => {
    let last: Filling = { sheets: [], left: [] };
    return {
      decode: (order: readonly number[], count: number, _mostLeft: number, steps: PackSteps) => {
        last = pack(order, count, steps);
        return areaOf(orientations, last.left);
      },
      filling: () => last,
    };
  };
  if (cuts === "guillotine") {
    return (["shorter", "longer"] as const).map((rule) =>
      remembering((order, count, steps) => sliceOver(orientations, order, sheet, count, rule, steps)),
    );
  }
  const niches = nicheFiller(orientations, sheet);
  const whole = sheet.width * sheet.height;
  return [
    {
      // More lost than this and too much will be left over, whatever comes after.
      decode: (order, count, mostLeft, steps) =>
        niches.fill(order, count, mostLeft + count * whole - areaOf(orientations, order), steps),
      filling: niches.filling,
    },
    remembering((order, count, steps) => spreadOver(orientations, order, sheet, count, steps)),
  ];
}

/** Few pieces are tried in few orders before other sheets get their turn; many need patience. */
const triesFor = (pieces: number): number => (pieces <= 15 ? 2 * pieces : 25 * pieces);

/** The cost of a try apart from the places it considers, so that a step means about the same work everywhere. */
const STEPS_A_TRY = 100;

/**
 * Packs all pieces onto `count` sheets, starting from a packing that may leave some over; null when the
 * steps end first.
 */
export function packInto(
  orientations: Orientations,
  sheet: Sheet,
  count: number,
  start: Filling,
  decoders: Decoders,
  random: Random,
  steps: PackSteps,
): readonly (readonly Placement[])[] | null {
  const sheets: (readonly Placement[])[] = Array.from({ length: count }, (_, at) => start.sheets[at] ?? []);
  let left = [...start.left, ...start.sheets.slice(count).flatMap((list) => list.map(({ piece }) => piece))];
  const slack = 0.005 * sheet.width * sheet.height;
  while (left.length > 0 && steps.left > 0) {
    const chosen = choose(count, Math.min(count, 1 + random.below(3)), random);
    const pieces = [...left, ...chosen.flatMap((at) => (sheets[at] ?? []).map(({ piece }) => piece))];
    const leftBefore = areaOf(orientations, left);
    const decoder = random.chance(0.75) ? decoders[0] : decoders[1];
    if (!decoder) throw new Error("packInto: two decoders are needed");
    const tolerance = random.chance(0.5) ? slack : 0;

    let order = bigFirst(orientations, pieces, random);
    let now = decoder.decode(order, chosen.length, Number.POSITIVE_INFINITY, steps);
    let best = now;
    let bestFilling = decoder.filling();
    for (let tries = triesFor(pieces.length); tries > 0 && best > 0 && steps.left > 0; tries--) {
      steps.left -= STEPS_A_TRY + pieces.length;
      const next = drift(order, random);
      const limit = now + tolerance * random.next();
      const result = decoder.decode(next, chosen.length, limit, steps);
      if (result > limit) continue;
      order = next;
      now = result;
      if (result <= best) {
        best = result;
        bestFilling = decoder.filling();
      }
    }
    if (best <= leftBefore + tolerance * random.next() * random.next()) {
      left = [...bestFilling.left];
      chosen.forEach((at, index) => {
        sheets[at] = bestFilling.sheets[index] ?? [];
      });
    }
  }
  return left.length === 0 ? sheets : null;
}

/** `many` different numbers below `count`. */
function choose(count: number, many: number, random: Random): number[] {
  const all = Array.from({ length: count }, (_, index) => index);
  for (let at = 0; at < many; at++) swap(all, at, at + random.below(count - at));
  return all.slice(0, many);
}

function bigFirst(orientations: Orientations, pieces: readonly number[], random: Random): number[] {
  const noise = 2 * random.next();
  const keyed = pieces.map((piece) => ({
    piece,
    key: (orientations.areas[piece] ?? 0) * (1 + noise * random.next()),
  }));
  return keyed.sort((a, b) => b.key - a.key).map(({ piece }) => piece);
}

/** The order with two pieces swapped, or one moved elsewhere. */
function drift(order: readonly number[], random: Random): number[] {
  const next = [...order];
  const from = random.below(next.length);
  const to = random.below(next.length);
  if (random.chance(0.5)) swap(next, from, to);
  else next.splice(to, 0, ...next.splice(from, 1));
  return next;
}

function swap(list: number[], one: number, other: number): void {
  const kept = list[one] ?? 0;
  list[one] = list[other] ?? 0;
  list[other] = kept;
}
