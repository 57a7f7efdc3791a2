import type { PlacedPiece, Rectangle, Side } from "../../model/planning/pitch.ts";
import { back, right } from "./floor.ts";

export type Ground = {
  /** The crew's floor: the pitch without the public's part. */
  readonly crew: Rectangle;
  readonly exitSide: Side;
  /** The way must be this wide all along, in millimetres. */
  readonly wayWidth: number;
};

export type Point = { readonly x: number; readonly y: number };

/**
 * The ways from every standing place to the exit, each at least `wayWidth` wide: the middle of the way stays
 * half of that from everything that stands there and from every border but the exit. Null when some standing
 * place has none; else the longest of the ways, from its standing place to the outside.
 *
 * Exact for ways that run square to the borders: between two neighbouring edges of what is in the way nothing
 * changes, so it is enough to look at the edges and at the middles between them.
 */
export function wayOut(placed: readonly PlacedPiece[], ground: Ground): readonly Point[] | null {
  const { crew, exitSide, wayWidth } = ground;
  const half = wayWidth / 2;
  const edge = (side: Side): number => (side === exitSide ? 0 : half);
  const left = crew.x + edge("left");
  const front = crew.y + edge("front");
  const width = right(crew) - edge("right") - left;
  const depth = back(crew) - edge("back") - front;
  if (width < 0 || depth < 0) return null;
  const floor: Rectangle = { x: left, y: front, width, depth };
  const xs = samples(
    floor.x,
    right(floor),
    placed.flatMap(({ swept }) => [swept.x - half, right(swept) + half]),
  );
  const ys = samples(
    floor.y,
    back(floor),
    placed.flatMap(({ swept }) => [swept.y - half, back(swept) + half]),
  );
  const columns = xs.length;
  const blocked = new Uint8Array(columns * ys.length);
  for (const { swept } of placed)
    for (let row = 0; row < ys.length; row++) {
      const y = ys[row] ?? 0;
      if (y <= swept.y - half || y >= back(swept) + half) continue;
      for (let column = 0; column < columns; column++) {
        const x = xs[column] ?? 0;
        if (x > swept.x - half && x < right(swept) + half) blocked[row * columns + column] = 1;
      }
    }

  const { from, reached } = spread(blocked, columns, ys.length, exitSide);
  const pointOf = (cell: number): Point => ({
    x: xs[cell % columns] ?? 0,
    y: ys[Math.floor(cell / columns)] ?? 0,
  });
  let longest: Point[] = [];
  for (const { standing } of placed) {
    if (standing === null) continue;
    const start = reached.find((cell) => within(pointOf(cell), standing));
    if (start === undefined) return null;
    const way = [pointOf(start)];
    for (let cell = start; from[cell] !== cell; ) {
      cell = from[cell] ?? cell;
      way.push(pointOf(cell));
    }
    if (way.length > longest.length) longest = way;
  }
  return corners(longest);
}

/** Both ends, the edges between them and the middles of all the gaps, rising. */
function samples(low: number, high: number, edges: readonly number[]): number[] {
  const sorted = [...new Set([low, high, ...edges.filter((edge) => edge > low && edge < high)])].sort(
    (a, b) => a - b,
  );
  return sorted.flatMap((edge, at) => {
    const next = sorted[at + 1];
    return next === undefined ? [edge] : [edge, (edge + next) / 2];
  });
}

/** Everywhere that can be reached from the exit side, breadth first, with the step each place is reached from. */
function spread(
  blocked: Uint8Array,
  columns: number,
  rows: number,
  side: Side,
): { from: Int32Array; reached: number[] } {
  const from = new Int32Array(blocked.length).fill(-1);
  const reached: number[] = [];
  const reach = (cell: number, by: number): void => {
    if (blocked[cell] === 1 || from[cell] !== -1) return;
    from[cell] = by;
    reached.push(cell);
  };
  for (let cell = 0; cell < blocked.length; cell++) if (onEdge(cell, side, columns, rows)) reach(cell, cell);
  for (const cell of reached) {
    const column = cell % columns;
    if (column > 0) reach(cell - 1, cell);
    if (column < columns - 1) reach(cell + 1, cell);
    if (cell >= columns) reach(cell - columns, cell);
    if (cell < columns * (rows - 1)) reach(cell + columns, cell);
  }
  return { from, reached };
}

const within = ({ x, y }: Point, area: Rectangle): boolean =>
  x >= area.x && x <= right(area) && y >= area.y && y <= back(area);

function onEdge(cell: number, side: Side, columns: number, rows: number): boolean {
  const column = cell % columns;
  const row = Math.floor(cell / columns);
  switch (side) {
    case "left":
      return column === 0;
    case "right":
      return column === columns - 1;
    case "front":
      return row === 0;
    case "back":
      return row === rows - 1;
  }
}

/** Keeps only the points where the way turns. */
function corners(way: readonly Point[]): Point[] {
  return way.filter((point, at) => {
    const before = way[at - 1];
    const after = way[at + 1];
    if (before === undefined || after === undefined) return true;
    const straight =
      (before.x === point.x && point.x === after.x) || (before.y === point.y && point.y === after.y);
    return !straight;
  });
}
