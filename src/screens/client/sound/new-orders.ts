/** Rings for an order that has just joined the line: paid, if the stall takes payment first. */
import type { QueueView } from "../../../model/orders/queue.ts";
import { byId } from "../kit/dom.ts";
import { chimeOn } from "./chime.ts";

type Newest = QueueView["newest"];

/**
 * The latest sequence that was seen, and whether it is news. What was there at the first look is none (`before`
 * undefined), nor is an older order that is the newest again since the one after it has left the line.
 */
export function joined(
  before: number | undefined,
  newest: Newest,
): { readonly last: number; readonly isNew: boolean } {
  const sequence = newest?.sequence ?? 0;
  return { last: Math.max(before ?? 0, sequence), isNew: before !== undefined && sequence > before };
}

/** Rings at each look that brings a new order, once the menu's switch is on; `own` are orders taken on this tablet. */
export function newOrderChime(own: (number: number) => boolean): (newest: Newest) => void {
  const button = byId("chime");
  const ring = chimeOn(button, (on) => button.setAttribute("aria-pressed", String(on)));
  let before: number | undefined;
  return (newest) => {
    const { last, isNew } = joined(before, newest);
    before = last;
    if (isNew && newest != null && !own(newest.number)) ring();
  };
}
