/**
 * Two-dimensional bin-packing instances drawn by the published class definitions.
 * Classes 1-6: Berkey and Wang 1987, Two-Dimensional Finite Bin-Packing Algorithms, Journal of the Operational
 * Research Society 38, 423-429. Classes 7-10: Martello and Vigo 1998, Exact Solution of the Two-Dimensional
 * Finite Bin Packing Problem, Management Science 44, 388-399. The definitions are written down from memory; the
 * random numbers are our own, so these are instances of the classes, not the published files.
 */
import { type Random, seededRandom } from "../../src/maths/random.ts";
import type { PackPiece, Sheet } from "../../src/planning/packing/shapes.ts";

export type Instance = { readonly pieces: readonly PackPiece[]; readonly sheet: Sheet };

/** Side of the square sheet and largest side of a piece, classes 1 to 6. */
const SQUARES = [
  [10, 10],
  [30, 10],
  [40, 35],
  [100, 35],
  [100, 100],
  [300, 100],
] as const;

/** Width and height ranges of the four kinds of pieces of classes 7 to 10, on a sheet of 100 x 100. */
const KINDS = [
  [67, 100, 1, 50],
  [1, 50, 67, 100],
  [50, 100, 50, 100],
  [1, 50, 1, 50],
] as const;

export function drawn(klass: number, count: number, seed: number, mayTurn: boolean): Instance {
  const random = seededRandom(seed * 1000 + klass);
  const square = SQUARES[klass - 1];
  const side = square?.[0] ?? 100;
  const pieces = Array.from({ length: count }, (): PackPiece => {
    if (square)
      return { width: between(random, 1, square[1]), height: between(random, 1, square[1]), mayTurn };
    // Seven in ten are of the class's own kind, one in ten of each other kind.
    const own = klass - 7;
    const other = [0, 1, 2, 3].filter((kind) => kind !== own);
    const kind = KINDS[random.chance(0.7) ? own : random.pick(other)];
    if (!kind) throw new Error(`there is no class ${klass}`);
    return { width: between(random, kind[0], kind[1]), height: between(random, kind[2], kind[3]), mayTurn };
  });
  return { pieces, sheet: { width: side, height: side } };
}

function between(random: Random, least: number, most: number): number {
  return least + random.below(most - least + 1);
}
