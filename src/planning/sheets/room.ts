/**
 * Uses for the free room on a layout: for each small place on a garment, the largest size of every design that fits the
 * place and the room, in proportion.
 */
import type { SheetRoom } from "../../model/planning/sheets.ts";
import type { Placement, Sheet } from "../packing/shapes.ts";
import { type DesignSize, type Layout, UNITS_PER_INCH } from "./search/problem.ts";

/** Largest art for each place, in inches: common practice, no source. */
const USES = [
  { use: "cap-front", width: 5, height: 2.5 },
  { use: "pocket", width: 4, height: 4 },
] as const;

/** Art whose longer side is under this many inches is too small to be worth pressing: common practice, no source. */
const LEAST_LONGER_SIDE = 2;
const MOST_A_USE = 3;

type Empty = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** Suggestions for one layout, largest first; `designs` with their own sizes in inches. */
export function roomLeft(
  layout: Layout,
  size: DesignSize,
  designs: readonly {
    readonly id: string;
    readonly width: number;
    readonly height: number;
    readonly mayTurn: boolean;
  }[],
): SheetRoom[] {
  const empties = emptyRectangles(layout.placed, size.sheet);
  const inches = (units: number) => units / UNITS_PER_INCH;
  return USES.flatMap(({ use, width, height }) => {
    const found = designs.flatMap((design): SheetRoom[] => {
      const fitting = empties.flatMap((empty) =>
        (design.mayTurn ? [false, true] : [false]).map((turned): SheetRoom => {
          const wide = turned ? design.height : design.width;
          const high = turned ? design.width : design.height;
          const across = inches(empty.width - size.gap);
          const upward = inches(empty.height - size.gap);
          const own = Math.min(1, width / design.width, height / design.height, across / wide, upward / high);
          // A hundredth of an inch is as fine as art is sized; downwards, so that it still fits.
          const shownWidth = Math.floor(own * wide * 100 + 1e-6) / 100;
          const scale = Math.max(0, shownWidth / wide);
          return {
            design: design.id,
            use,
            width: shownWidth,
            height: Math.floor(scale * high * 1000 + 1e-6) / 1000,
            x: inches(empty.x + size.margin),
            y: inches(empty.y + size.margin),
            turned,
            scale,
          };
        }),
      );
      const best = fitting.reduce<SheetRoom | null>(
        (a, b) => (a === null || b.scale > a.scale ? b : a),
        null,
      );
      return best && Math.max(best.width, best.height) >= LEAST_LONGER_SIDE ? [best] : [];
    });
    return found.sort((a, b) => b.width * b.height - a.width * a.height).slice(0, MOST_A_USE);
  });
}

/** Every largest empty rectangle of a sheet. */
function emptyRectangles(placed: readonly Placement[], sheet: Sheet): Empty[] {
  let empties: Empty[] = [{ x: 0, y: 0, ...sheet }];
  for (const piece of placed) {
    const cut = empties.flatMap((empty) => without(empty, piece));
    empties = cut.filter(
      (one, at) => !cut.some((other, index) => index !== at && holds(other, one, index < at)),
    );
  }
  return empties;
}

function without(empty: Empty, piece: Empty): Empty[] {
  const right = empty.x + empty.width;
  const top = empty.y + empty.height;
  const pieceRight = piece.x + piece.width;
  const pieceTop = piece.y + piece.height;
  if (piece.x >= right || pieceRight <= empty.x || piece.y >= top || pieceTop <= empty.y) return [empty];
  return [
    { ...empty, width: piece.x - empty.x },
    { ...empty, x: pieceRight, width: right - pieceRight },
    { ...empty, height: piece.y - empty.y },
    { ...empty, y: pieceTop, height: top - pieceTop },
  ].filter(({ width, height }) => width > 0 && height > 0);
}

function holds(outer: Empty, inner: Empty, evenEqual: boolean): boolean {
  const inside =
    outer.x <= inner.x &&
    outer.y <= inner.y &&
    outer.x + outer.width >= inner.x + inner.width &&
    outer.y + outer.height >= inner.y + inner.height;
  if (!inside) return false;
  const equal = outer.width === inner.width && outer.height === inner.height;
  return equal ? evenEqual : true;
}
