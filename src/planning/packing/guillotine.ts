/**
 * Straight cuts from edge to edge, decided exactly for few pieces: every group of pieces has a frontier of
 * boxes (width, height) it can be cut from, and a group's boxes are two smaller groups' boxes side by side or
 * one above the other. All groups of up to a sheetful share one table, so a whole plan asks only once.
 */
import { type PackPiece, type PackSteps, type Placement, type Sheet, waysToLie } from "./shapes.ts";

/** A box a group of pieces can be cut from: one piece, or two boxes parted by one cut. */
type Box = { readonly width: number; readonly height: number } & (
  | { readonly kind: number; readonly turned: boolean }
  | { readonly first: Box; readonly second: Box; readonly parted: "across" | "upward" }
);

export type Boxes = {
  /**
   * Places `counts[k]` pieces of each kind by straight cuts, or says that it cannot be done; null when the
   * steps ran out first. `piece` in the placements is the kind.
   */
  readonly place: (counts: readonly number[], steps: PackSteps) => readonly Placement[] | "no" | null;
};

/** The shared table for these kinds on this sheet; one step for every pair of boxes joined. */
export function guillotineBoxes(kinds: readonly PackPiece[], sheet: Sheet): Boxes {
  const known = new Map<string, readonly Box[]>();

  const frontier = (counts: readonly number[], steps: PackSteps): readonly Box[] | null => {
    const key = counts.join();
    const found = known.get(key);
    if (found) return found;
    const pieces = counts.reduce((sum, count) => sum + count, 0);
    const best: Box[] = [];
    if (pieces === 1) {
      const kind = counts.indexOf(1);
      const piece = kinds[kind];
      for (const way of piece ? waysToLie(piece, sheet) : []) keep(best, { ...way, kind });
    } else {
      for (const [one, other] of halves(counts)) {
        const firsts = frontier(one, steps);
        const seconds = frontier(other, steps);
        if (firsts === null || seconds === null) return null;
        for (const first of firsts) {
          for (const second of seconds) {
            steps.left -= 1;
            const width = first.width + second.width;
            const height = first.height + second.height;
            const wider = Math.max(first.width, second.width);
            const higher = Math.max(first.height, second.height);
            if (width <= sheet.width) keep(best, { width, height: higher, first, second, parted: "across" });
            if (height <= sheet.height) keep(best, { width: wider, height, first, second, parted: "upward" });
          }
        }
        if (steps.left < 0) return null;
      }
    }
    known.set(key, best);
    return best;
  };

  return {
    place: (counts, steps) => {
      if (counts.every((count) => count === 0)) return [];
      const boxes = frontier(counts, steps);
      if (boxes === null) return null;
      const box = boxes[0];
      if (!box) return "no";
      const placed: Placement[] = [];
      lay(box, 0, 0, placed);
      return placed;
    },
  };
}

/** Adds a box to the frontier unless another is no larger both ways; drops those it makes needless. */
function keep(boxes: Box[], box: Box): void {
  for (const other of boxes) if (other.width <= box.width && other.height <= box.height) return;
  let kept = 0;
  for (const other of boxes) {
    if (other.width < box.width || other.height < box.height) boxes[kept++] = other;
  }
  boxes.length = kept;
  boxes.push(box);
}

/** Every way to part a group in two groups that are not empty, each pair once. */
function* halves(counts: readonly number[]): Generator<readonly [number[], number[]]> {
  const one = counts.map(() => 0);
  for (;;) {
    let at = 0;
    while (at < one.length && one[at] === counts[at]) one[at++] = 0;
    if (at === one.length) return;
    one[at] = (one[at] ?? 0) + 1;
    const other = counts.map((count, index) => count - (one[index] ?? 0));
    if (other.every((count) => count === 0) || later(one, other)) continue;
    yield [[...one], other];
  }
}

function later(one: readonly number[], other: readonly number[]): boolean {
  for (let at = one.length - 1; at >= 0; at--) {
    const difference = (one[at] ?? 0) - (other[at] ?? 0);
    if (difference !== 0) return difference > 0;
  }
  return false;
}

function lay(box: Box, x: number, y: number, placed: Placement[]): void {
  if ("kind" in box) {
    const { kind, width, height, turned } = box;
    placed.push({ piece: kind, x, y, width, height, turned });
    return;
  }
  lay(box.first, x, y, placed);
  if (box.parted === "across") lay(box.second, x + box.first.width, y, placed);
  else lay(box.second, x, y + box.first.height, placed);
}
