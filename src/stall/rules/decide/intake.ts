/** Whether the stall takes an order now, and why not: stopped, closed, too many, sold out, or the web's share is used up. */

import type { Menu } from "../../../model/menu/catalogue.ts";
import type { Refusal } from "../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { quoteMinutes } from "../../line/quote.ts";
import { isBlank, NOTHING_COUNTED, needed, onHand, piecesOf } from "../../state/counts.ts";
import { openingAt } from "../../state/opening.ts";
import { garmentsOf, isLike } from "../../state/orders.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { Hold, TakenBy } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { FairStop, StallState } from "../../state/state.ts";
import { leftOf, offerParts, offSale } from "../../stock/offers.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";
import { TURNS_PER_ORDER } from "./numbering.ts";

/** The organiser's stop of all orders, as the refusal of one more garment to anybody, the crew included. */
export const fairStopRefusal = ({ status: { fairStop } }: StallState): Refusal | undefined =>
  fairStop ? { code: "fair-stopped", reason: fairStop.reason } : undefined;

/** Why a customer cannot order just now: outside the hours, paused, or no time left to press it. */
export function intakeRefusal(
  state: StallState,
  menu: Menu,
  lines: readonly Line[],
  now: Instant,
): Refusal | undefined {
  const opening = openingAt(state, now);
  if (!opening.open) return { code: "not-open", opens: opening.opens };
  const stop = fairStopRefusal(state);
  if (stop !== undefined) return stop;
  if (state.status.paused !== null) return { code: "paused", reason: state.status.paused.reason };
  if (state.status.keptOpen === opening.closes) return undefined;
  const minutes = quoteMinutes(state, menu, lines, now);
  if (now + (minutes + menu.rules.closingMarginMinutes) * MINUTE > opening.closes) {
    return { code: "line-too-long", closes: opening.closes, minutes };
  }
  return undefined;
}

/** Keeps intake open until closing time however long the line, or lets it close automatically again. */
export function keepOpen(state: StallState, { open }: Of<"keep-open">, now: Instant): Decision {
  const opening = openingAt(state, now);
  if (!opening.open) return refuse({ code: "not-open", opens: opening.opens });
  const closes = open ? opening.closes : null;
  return closes === state.status.keptOpen ? accept() : accept({ type: "kept-open", closes });
}
/** Blanks of every kind that are not pressed yet. */
function blanksOnHand({ counts }: StallState): number {
  let blanks = 0;
  for (const piece of counts.keys())
    if (isBlank(piece)) blanks += onHand(counts.get(piece) ?? NOTHING_COUNTED);
  return blanks;
}
/**
 * Whether unclaimed web customers would hold more than their share of all blanks, or of one piece beyond its first.
 * Anybody can invent web customers: without a limit a few pranks would empty the stall.
 */

export function overWebShare(
  state: StallState,
  menu: Menu,
  lines: readonly Line[],
  hold: Hold | undefined,
): boolean {
  const { promises, webPromises } = state.orderIndex;
  const mostOf = (open: number): number => Math.max(1, Math.floor((open * menu.rules.webHoldPercent) / 100));
  const openBlanks = blanksOnHand(state) - (promises.blanks - webPromises.blanks);
  const otherBlanks = webPromises.blanks - garmentsOf(hold?.lines ?? []);
  if (otherBlanks + garmentsOf(lines) > mostOf(openBlanks)) return true;
  const held = needed(hold?.lines ?? []);
  return [...needed(lines)].some(([piece, pieces]) => {
    const others = webPromises.of(piece) - (held.get(piece) ?? 0);
    const open = onHand(state.count(piece)) - (promises.of(piece) - webPromises.of(piece));
    return others + pieces > mostOf(open) && others > 0;
  });
}
/** Until when the crew lets web orders in without limit; null if they are limited now. */

export function liftedUntil({ status }: StallState, now: Instant): Instant | null {
  const until = status.claimsLiftedUntil ?? 0;
  return until > now ? until : null;
}
/**
 * The first line that lacks stock, counting the customer's own hold as free. Off-menu pieces are limited to the hold,
 * except for orders taken on paper before.
 */
function uncovered(
  state: StallState,
  lines: readonly Line[],
  hold: Hold | undefined,
  takenBy: TakenBy,
): Line | undefined {
  const held = needed(hold?.lines ?? []);
  const wanted = needed(lines);
  const free = (piece: PieceKey): number =>
    takenBy !== "paper" && state.status.offMenu.includes(piece) ? 0 : state.free(piece);
  return lines.find((line) =>
    piecesOf(line).some((piece) => (wanted.get(piece) ?? 0) > free(piece) + (held.get(piece) ?? 0)),
  );
}
const isHeld = (line: Line, hold: Hold | undefined): boolean =>
  hold?.lines.some((other) => isLike(other, line)) === true;
/**
 * The organiser's stop, if it concerns an order taken then. Orders on paper from before the stop, and a counter's
 * orders without signal, have already happened.
 */
export const stopFor = (
  { status: { fairStop = null } }: StallState,
  takenAt: Instant,
  late = false,
): FairStop | null => (fairStop === null || late || takenAt < fairStop.since ? null : fairStop);
export const TRUSTED: ReadonlySet<TakenBy> = new Set(["counter", "paper"]);
/** Why an order or a hold is refused; undefined if it is not. */
export function obstacle(
  state: StallState,
  menu: Menu,
  lines: readonly Line[],
  takenBy: TakenBy,
  hold: Hold | undefined,
  now: Instant,
  stop: FairStop | null,
  late = false,
): Refusal | undefined {
  const { rules } = menu;
  // The stop also holds for customers who were asked to confirm before it, and for those at the counter.
  if (stop !== null) return { code: "fair-stopped", reason: stop.reason };
  if (!TRUSTED.has(takenBy)) {
    // Somebody who was asked to confirm before closing time may still say yes.
    const closed = hold === undefined ? intakeRefusal(state, menu, lines, now) : undefined;
    if (closed !== undefined) return closed;
    if (lines.some((line) => line.quantity > rules.garmentsPerLine)) {
      return { code: "too-many", most: rules.garmentsPerLine, of: "line" };
    }
    if (garmentsOf(lines) > rules.garmentsPerOrder)
      return { code: "too-many", most: rules.garmentsPerOrder, of: "order" };
  } else if (garmentsOf(lines) >= TURNS_PER_ORDER) {
    return { code: "too-many", most: TURNS_PER_ORDER - 1, of: "order" };
  }
  if (late) return undefined;
  // Garments asked for on paper, or held earlier, were still on sale then.
  const gone =
    takenBy === "paper"
      ? undefined
      : lines.find((line) => line.rack === undefined && offSale(menu, line) && !isHeld(line, hold));
  const short = gone ?? uncovered(state, lines, hold, takenBy);
  if (short !== undefined) {
    const choice = offerParts(menu, short.offer);
    const left = choice === undefined ? [] : leftOf(state, choice);
    return { code: "sold-out", offer: short.offer, colour: short.colour, size: short.size, left };
  }
  if (takenBy !== "web") return undefined;
  if (!rules.webOrders || !state.status.webOrders) return { code: "web-off" };
  if (liftedUntil(state, now) === null && overWebShare(state, menu, lines, hold))
    return { code: "web-share", left: [] };
  return undefined;
}
