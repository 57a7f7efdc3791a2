/** The stock that lies on the presses. */
import { piecesOf } from "../state/counts.ts";
import { jobIn } from "../state/orders.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";

/** Pieces that lie on a press now: they are not pressed yet, so a count must hold them. */
export function onPresses(state: StallState): ReadonlyMap<PieceKey, number> {
  const pieces = new Map<PieceKey, number>();
  for (const { number, n } of state.orderIndex.onPress.values()) {
    const order = state.order(number);
    const job = jobIn(order, n);
    const line = job === undefined ? undefined : order?.lines[job.line];
    for (const piece of line === undefined ? [] : piecesOf(line))
      pieces.set(piece, (pieces.get(piece) ?? 0) + 1);
  }
  return pieces;
}
