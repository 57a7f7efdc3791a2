/**
 * Straight cuts, in order, that separate a sheet into its pieces. They are found from the placements alone: any line
 * that no piece crosses may be cut first, since a cut never makes a later one impossible.
 */

export type CutRectangle = {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
};

/** One cut from edge to edge of a part of the sheet; `part` is that part before the cut. */
export type Cut = {
  readonly direction: "across" | "upward";
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
};

/**
 * The cuts in cutting order, each in the middle of the free space between pieces; null if straight cuts cannot separate
 * some pieces. `sheet` is the part to begin with.
 */
export function cutsInOrder(pieces: readonly CutRectangle[], sheet: CutRectangle): readonly Cut[] | null {
  if (pieces.length <= 1) return [];
  for (const upward of [true, false]) {
    const low = (piece: CutRectangle) => (upward ? piece.x : piece.y);
    const high = (piece: CutRectangle) => (upward ? piece.x + piece.width : piece.y + piece.height);
    const sorted = [...pieces].sort((a, b) => low(a) - low(b));
    let reach = Number.NEGATIVE_INFINITY;
    for (let at = 0; at < sorted.length; at++) {
      const piece = sorted[at];
      if (!piece) continue;
      if (at > 0 && low(piece) >= reach) {
        const line = (reach + low(piece)) / 2;
        const [before, after] = part(sheet, line, upward);
        const first = cutsInOrder(sorted.slice(0, at), before);
        const second = cutsInOrder(sorted.slice(at), after);
        if (first === null || second === null) return null;
        const cut: Cut = upward
          ? { direction: "upward", from: { x: line, y: sheet.y }, to: { x: line, y: sheet.y + sheet.height } }
          : { direction: "across", from: { x: sheet.x, y: line }, to: { x: sheet.x + sheet.width, y: line } };
        return [cut, ...first, ...second];
      }
      reach = Math.max(reach, high(piece));
    }
  }
  return null;
}

function part(sheet: CutRectangle, line: number, upward: boolean): readonly [CutRectangle, CutRectangle] {
  if (upward) {
    return [
      { ...sheet, width: line - sheet.x },
      { ...sheet, x: line, width: sheet.x + sheet.width - line },
    ];
  }
  return [
    { ...sheet, height: line - sheet.y },
    { ...sheet, y: line, height: sheet.y + sheet.height - line },
  ];
}
