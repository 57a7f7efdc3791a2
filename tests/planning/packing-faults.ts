/**
 * An independent check of a packing: every piece once, inside, without overlap, true to size, and separable by cuts if
 * asked.
 */
import type { PackPiece, Placement, Sheet } from "../../src/planning/packing/shapes.ts";

export function packingFaults(
  { pieces, sheet }: { readonly pieces: readonly PackPiece[]; readonly sheet: Sheet },
  sheets: readonly (readonly Placement[])[],
  cuts: "free" | "guillotine",
): string[] {
  const faults: string[] = [];
  const seen = sheets
    .flat()
    .map(({ piece }) => piece)
    .sort((a, b) => a - b);
  if (seen.join() !== pieces.map((_, at) => at).join()) faults.push(`pieces placed: ${seen.join()}`);
  sheets.forEach((placed, at) => {
    if (placed.length === 0) faults.push(`sheet ${at} is empty`);
    placed.forEach((one, index) => {
      const piece = pieces[one.piece];
      const [width, height] = one.turned ? [piece?.height, piece?.width] : [piece?.width, piece?.height];
      if (one.width !== width || one.height !== height)
        faults.push(`piece ${one.piece} has changed its size`);
      if (one.turned && !piece?.mayTurn) faults.push(`piece ${one.piece} may not turn`);
      if (one.x < 0 || one.y < 0 || one.x + one.width > sheet.width || one.y + one.height > sheet.height) {
        faults.push(`piece ${one.piece} hangs over`);
      }
      for (const other of placed.slice(index + 1)) {
        const apart =
          one.x + one.width <= other.x ||
          other.x + other.width <= one.x ||
          one.y + one.height <= other.y ||
          other.y + other.height <= one.y;
        if (!apart) faults.push(`pieces ${one.piece} and ${other.piece} overlap`);
      }
    });
    if (cuts === "guillotine" && !partable(placed))
      faults.push(`sheet ${at} cannot be parted by straight cuts`);
  });
  return faults;
}

/** By definition: one piece, or some straight line parts them into two lots that can be parted. */
function partable(placed: readonly Placement[]): boolean {
  if (placed.length <= 1) return true;
  return placed.some(({ x, y }) =>
    [
      [placed.filter((one) => one.x + one.width <= x), placed.filter((one) => one.x >= x)],
      [placed.filter((one) => one.y + one.height <= y), placed.filter((one) => one.y >= y)],
    ].some(
      ([before = [], after = []]) =>
        before.length > 0 &&
        after.length > 0 &&
        before.length + after.length === placed.length &&
        partable(before) &&
        partable(after),
    ),
  );
}
