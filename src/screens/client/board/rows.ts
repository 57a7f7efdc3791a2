/** The board's one list: every number once, in number order, with its state. */
import type { BoardView } from "../../../model/orders/order.ts";

export type State = "ready" | "pressing" | "waiting";
export type Row = { readonly number: number; readonly state: State };

export const STATE_WORDS: Readonly<Record<State, string>> = {
  ready: "ready",
  pressing: "on the press",
  waiting: "in line",
};

export function rowsOf({ ready, pressing, waiting }: BoardView): readonly Row[] {
  const row =
    (state: State) =>
    (number: number): Row => ({ number, state });
  return [...ready.map(row("ready")), ...pressing.map(row("pressing")), ...waiting.map(row("waiting"))].sort(
    (one, other) => one.number - other.number,
  );
}

/** The numbers that have become ready since the last look. */
export function newlyReady(before: readonly number[], now: readonly number[]): readonly number[] {
  const known = new Set(before);
  return now.filter((number) => !known.has(number));
}

/**
 * The greatest whole number of pixels from `least` to `most` for which everything fits, `least` if none
 * does. What fits at one size fits at every smaller one, so halving the range finds it.
 */
export function greatestFitting(least: number, most: number, fits: (pixels: number) => boolean): number {
  let low = least;
  let high = most;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}
