/**
 * Decides exactly whether pieces fit on ONE sheet. Pieces are placed in turn with their lower-left corner in a corner
 * of the staircase over the placed ones; every packing pushed left and down can be built that way (Martello and Vigo
 * 1998, Management Science 44, 388-399; the order exists because left-or-below relations of rectangles in the plane
 * have no circles).
 */
import { type PackPiece, type PackSteps, type Placement, type Sheet, waysToLie } from "./shapes.ts";

export type Verdict =
  | { readonly fits: "yes"; readonly placed: readonly Placement[] }
  | { readonly fits: "no" }
  | { readonly fits: "unknown" };

/** Equal pieces are one kind, so that swapping them is never tried. */
type Kind = {
  readonly pieces: readonly number[];
  left: number;
  readonly ways: ReturnType<typeof waysToLie>;
  readonly area: number;
};

/** From `x` on, until the next corner's x, everything under `y` is taken or lost. x grows, y falls. */
type Corner = { readonly x: number; readonly y: number };

const MOST_REMEMBERED = 100_000;

/** Decides whether all `pieces` fit together; one step for every corner tried, "unknown" when they run out. */
export function fitsExactly(pieces: readonly PackPiece[], sheet: Sheet, steps: PackSteps): Verdict {
  const kinds = group(pieces, sheet);
  if (kinds.some((kind) => kind.ways.length === 0)) return { fits: "no" };
  let areaLeft = kinds.reduce((sum, kind) => sum + kind.area * kind.left, 0);
  const placed: Placement[] = [];
  const dead = new Set<string>();
  let ranOut = false;

  const search = (
    corners: readonly Corner[],
    last: { readonly x: number; readonly before: readonly Corner[] } | null,
  ): boolean => {
    if (placed.length === pieces.length) return true;
    if (areaLeft > roomBeyond(corners, sheet, kinds)) return false;
    const state = `${kinds.map((kind) => kind.left).join()} ${corners.map(({ x, y }) => `${x},${y}`).join()}`;
    if (dead.has(state)) return false;
    let skipped = false;
    for (const corner of corners) {
      const stoodBefore = last !== null && corner.x < last.x && last.before.includes(corner);
      for (const kind of kinds) {
        if (kind.left === 0) continue;
        for (const { width, height } of kind.ways) {
          if (corner.x + width > sheet.width || corner.y + height > sheet.height) continue;
          // Of two pieces that do not lean on each other the left one is placed first, never second.
          if (stoodBefore && corner.x + width <= last.x) {
            skipped = true;
            continue;
          }
          // By mirroring, the middle of a largest piece without a twin may be taken to lie lower left.
          const mirrored = 2 * corner.x > sheet.width - width || 2 * corner.y > sheet.height - height;
          if (mirrored && kind === kinds[0] && kind.pieces.length === 1) continue;
          steps.left -= 1;
          if (steps.left < 0) {
            ranOut = true;
            return false;
          }
          kind.left -= 1;
          areaLeft -= kind.area;
          const piece = kind.pieces[kind.left] ?? 0;
          placed.push({
            piece,
            x: corner.x,
            y: corner.y,
            width,
            height,
            turned: width !== pieces[piece]?.width,
          });
          if (search(staircase(corners, corner, width, height, sheet), { x: corner.x, before: corners }))
            return true;
          if (ranOut) return false;
          placed.pop();
          kind.left += 1;
          areaLeft += kind.area;
        }
      }
    }
    // Where an order was skipped the state may still be reached, and finished, by the other order.
    if (!skipped && dead.size < MOST_REMEMBERED) dead.add(state);
    return false;
  };

  if (search([{ x: 0, y: 0 }], null)) return { fits: "yes", placed };
  return { fits: ranOut ? "unknown" : "no" };
}

function group(pieces: readonly PackPiece[], sheet: Sheet): Kind[] {
  const members = new Map<string, number[]>();
  pieces.forEach(({ width, height, mayTurn }, index) => {
    const key = mayTurn ? `${Math.min(width, height)} ${Math.max(width, height)}` : `${width}x${height}`;
    const twins = members.get(key);
    if (twins) twins.push(index);
    else members.set(key, [index]);
  });
  const kinds = [...members.values()].flatMap((list): Kind[] => {
    const piece = pieces[list[0] ?? 0];
    if (!piece) return [];
    const area = piece.width * piece.height;
    return [{ pieces: list, left: list.length, ways: waysToLie(piece, sheet), area }];
  });
  return kinds.sort((a, b) => b.area - a.area);
}

/** Area that remaining pieces can still reach: above and right of corners that take the narrowest and lowest. */
function roomBeyond(corners: readonly Corner[], sheet: Sheet, kinds: readonly Kind[]): number {
  let narrowest = Number.POSITIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  for (const kind of kinds) {
    if (kind.left === 0) continue;
    for (const way of kind.ways) {
      if (way.width < narrowest) narrowest = way.width;
      if (way.height < lowest) lowest = way.height;
    }
  }
  let room = 0;
  let open: Corner | null = null;
  for (const corner of corners) {
    if (corner.x + narrowest > sheet.width || corner.y + lowest > sheet.height) continue;
    if (open) room += (corner.x - open.x) * (sheet.height - open.y);
    open = corner;
  }
  return open ? room + (sheet.width - open.x) * (sheet.height - open.y) : room;
}

/** The staircase with a piece in `corner`; the area to the lower left of the piece is lost to later ones. */
function staircase(
  corners: readonly Corner[],
  corner: Corner,
  width: number,
  height: number,
  sheet: Sheet,
): Corner[] {
  const right = corner.x + width;
  const top = corner.y + height;
  const next: Corner[] = [];
  let step: Corner | null = null;
  let floor = 0;
  for (const old of corners) {
    if (old.x <= right) floor = old.y;
    if (old.y > top) next.push(old);
    else step ??= { x: old.x, y: top };
  }
  if (step && top < sheet.height) next.push(step);
  if (right < sheet.width) next.push({ x: right, y: floor });
  for (const old of corners) if (old.x > right) next.push(old);
  return next;
}
