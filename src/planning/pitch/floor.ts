import type { Rectangle, Side } from "../../model/planning/pitch.ts";

/** Rectangles on the floor of a pitch: x to the right, y from the front edge to the back. */

/** Lengths closer than this, in millimetres, are equal. */
const HAIR = 1e-6;

export const right = (rectangle: Rectangle): number => rectangle.x + rectangle.width;
export const back = (rectangle: Rectangle): number => rectangle.y + rectangle.depth;

export const overlaps = (a: Rectangle, b: Rectangle): boolean =>
  a.x < right(b) - HAIR && b.x < right(a) - HAIR && a.y < back(b) - HAIR && b.y < back(a) - HAIR;

export const inside = (inner: Rectangle, outer: Rectangle): boolean =>
  inner.x >= outer.x - HAIR &&
  inner.y >= outer.y - HAIR &&
  right(inner) <= right(outer) + HAIR &&
  back(inner) <= back(outer) + HAIR;

/** The rectangle extended by `by` on each side. */
export const grown = (rectangle: Rectangle, by: number): Rectangle => ({
  x: rectangle.x - by,
  y: rectangle.y - by,
  width: rectangle.width + 2 * by,
  depth: rectangle.depth + 2 * by,
});

/** Grown by `by` on one side only. */
export function grownTo(rectangle: Rectangle, side: Side, by: number): Rectangle {
  const { x, y, width, depth } = rectangle;
  switch (side) {
    case "left":
      return { x: x - by, y, width: width + by, depth };
    case "right":
      return { x, y, width: width + by, depth };
    case "front":
      return { x, y: y - by, width, depth: depth + by };
    case "back":
      return { x, y, width, depth: depth + by };
  }
}

/** The strip of `depth` just outside one side. */
export function stripAt(rectangle: Rectangle, side: Side, depth: number): Rectangle {
  const { x, y, width } = rectangle;
  switch (side) {
    case "left":
      return { x: x - depth, y, width: depth, depth: rectangle.depth };
    case "right":
      return { x: right(rectangle), y, width: depth, depth: rectangle.depth };
    case "front":
      return { x, y: y - depth, width, depth };
    case "back":
      return { x, y: back(rectangle), width, depth };
  }
}

/** The shortest straight line between two rectangles; 0 when they touch. */
export function distanceBetween(a: Rectangle, b: Rectangle): number {
  const across = Math.max(0, a.x - right(b), b.x - right(a));
  const along = Math.max(0, a.y - back(b), b.y - back(a));
  return Math.hypot(across, along);
}

export const areaOf = ({ width, depth }: Rectangle): number => width * depth;

const TURNED: Readonly<Record<Side, Readonly<Record<"behind" | "left" | "right", Side>>>> = {
  front: { behind: "back", left: "left", right: "right" },
  back: { behind: "front", left: "right", right: "left" },
  left: { behind: "right", left: "back", right: "front" },
  right: { behind: "left", left: "front", right: "back" },
};

/** A side of a piece, seen by somebody on its `facing` side, as a side of the pitch. */
export const seenFrom = (facing: Side, side: "behind" | "left" | "right"): Side => TURNED[facing][side];
