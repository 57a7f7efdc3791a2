/** Holding stock for a customer and placing an order: all of its lines or none. */

import { PressId } from "../../../model/basics/ids.ts";
import { ok, type Result } from "../../../model/basics/result.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { WantedLine } from "../../../model/orders/order.ts";
import { type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { quoteMinutes } from "../../line/quote.ts";
import { areThere, isBlank, NOTHING_COUNTED, needed, onHand, piecesOf } from "../../state/counts.ts";
import { garmentsOf, isLike } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { Hold, Order, TakenBy } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { FairStop, StallState } from "../../state/state.ts";
import { leftOf, lineFor, offerParts, offSale } from "../../stock/offers.ts";
import { priced } from "../../stock/pricing.ts";
import { asItHangs, onRack } from "../../stock/rack.ts";
import {
  type AskMark,
  accept,
  askMarks,
  type Decision,
  type Of,
  type PaymentGiven,
  refuse,
} from "../commands.ts";
import { intakeRefusal } from "./intake.ts";
import { numberedFor, sameOrder } from "./numbering.ts";

/** Turn numbers reserved for each command, so that an order's garments have turns of their own. */
export const TURNS_PER_ORDER = 64;

/** A turn ahead of every garment now in line. */
export const headTurn = ({ version }: StallState, n: number): number => -(version + 1) * TURNS_PER_ORDER + n;

/** The lines of an order at today's prices, or the first that cannot be. */
function linesFor(menu: Menu, wanted: readonly WantedLine[]): Result<readonly Line[], Refusal> {
  const lines: Line[] = [];
  for (const [index, wish] of wanted.entries()) {
    const line = lineFor(menu, wish, index);
    if (!line.ok) return line;
    lines.push(line.value);
  }
  return ok(lines);
}

/** Prices lines by the customer's hold, if it has the same garment. */
export function heldPrices(lines: readonly Line[], hold: Hold | undefined): readonly Line[] {
  return lines.map((line) => {
    const held = hold?.lines.find((other) => isLike(other, line));
    if (held === undefined) return line;
    const { extra: _, ...plain } = line;
    return { ...plain, each: held.each, ...(held.extra === undefined ? {} : { extra: held.extra }) };
  });
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

/** Blanks of every kind that are not pressed yet. */
function blanksOnHand({ counts }: StallState): number {
  let blanks = 0;
  for (const piece of counts.keys())
    if (isBlank(piece)) blanks += onHand(counts.get(piece) ?? NOTHING_COUNTED);
  return blanks;
}

/** Until when the crew lets web orders in without limit; null if they are limited now. */
export function liftedUntil({ status }: StallState, now: Instant): Instant | null {
  const until = status.claimsLiftedUntil ?? 0;
  return until > now ? until : null;
}

/** Whether a web order must be claimed before it joins the line, because its address has enough garments there. */
const isToClaim = (state: StallState, menu: Menu, command: Of<"place">, now: Instant): boolean =>
  command.takenBy === "web" &&
  liftedUntil(state, now) === null &&
  (command.unclaimedAtAddress ?? 0) + garmentsOf(command.lines) > menu.rules.unclaimedGarments;

const isHeld = (line: Line, hold: Hold | undefined): boolean =>
  hold?.lines.some((other) => isLike(other, line)) === true;

/**
 * The organiser's stop, if it concerns an order taken then. Orders on paper from before the stop, and a counter's
 * orders without signal, have already happened.
 */
const stopFor = (
  { status: { fairStop = null } }: StallState,
  takenAt: Instant,
  late = false,
): FairStop | null => (fairStop === null || late || takenAt < fairStop.since ? null : fairStop);

const takenAtOf = ({ paper }: Of<"place">, now: Instant): Instant => Math.min(paper?.takenAt ?? now, now);

const TRUSTED: ReadonlySet<TakenBy> = new Set(["counter", "paper"]);

/** Why an order or a hold is refused; undefined if it is not. */
function obstacle(
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

/** The requests in some lines, met or not; each is counted once, when it is new. */
function asks(
  lines: readonly Line[],
  counted: readonly number[],
  refusal: Refusal | undefined,
  wish: AskMark | undefined,
): readonly StallEvent[] {
  const reason =
    refusal?.code === "sold-out"
      ? "sold-out"
      : refusal?.code === "not-open" || refusal?.code === "paused" || refusal?.code === "fair-stopped"
        ? "closed"
        : refusal?.code === "line-too-long"
          ? "too-long"
          : null;
  if (refusal !== undefined && reason === null) return [];
  const wanted = lines.filter(({ offer, colour, size }, index) => {
    if (!counted.includes(index)) return false;
    return (
      refusal?.code !== "sold-out" ||
      (refusal.offer === offer && refusal.colour === colour && refusal.size === size)
    );
  });
  return wanted.map(({ offer, colour, size, quantity: garments }, n) => ({
    type: "asked",
    offer,
    colour,
    size,
    garments,
    unmet: reason,
    ...askMarks(wish, n),
  }));
}

export function hold(state: StallState, menu: Menu, command: Of<"hold">, now: Instant): Decision {
  const before = state.hold(command.customer);
  const found = linesFor(menu, command.lines);
  if (!found.ok) return refuse(found.refusal);
  const lines = heldPrices(found.value, before);
  const refusal = obstacle(state, menu, lines, command.takenBy, before, now, stopFor(state, now));
  const asked = asks(lines, command.asks, refusal, command.wish);
  if (refusal !== undefined) return refuse(refusal, ...asked);
  const expiresAt = now + menu.rules.holdMinutes * MINUTE;
  return accept(...asked, {
    type: "held",
    hold: { customer: command.customer, takenBy: command.takenBy, lines, expiresAt },
  });
}

export function release(state: StallState, command: Of<"release">): Decision {
  if (state.hold(command.customer) === undefined) return refuse({ code: "nothing-held" });
  return accept({ type: "released", customer: command.customer, reason: "dropped" });
}

export function place(state: StallState, menu: Menu, command: Of<"place">, now: Instant): Decision {
  // The answer was lost so long ago that the idempotency key is forgotten.
  if (sameOrder(state, command) !== undefined) return accept();
  const before = state.hold(command.customer);
  const found = linesFor(menu, command.lines);
  if (!found.ok) return refuse(found.refusal);
  const wanted = found.value.map((line) => asItHangs(state, menu, line));
  const { lines, ...sums } = priced(menu, heldPrices(wanted, before));
  const { rules } = menu;
  const { paper } = command;
  if (paper !== undefined && state.anyOrder(paper.number) !== undefined) {
    return refuse({ code: "number-taken", number: paper.number });
  }
  if (
    !TRUSTED.has(command.takenBy) &&
    state.orderIndex.ordersOf(command.customer).length >= rules.openOrdersPerSender
  ) {
    return refuse({ code: "too-many", most: rules.openOrdersPerSender, of: "open-orders" });
  }
  const refusal = obstacle(
    state,
    menu,
    lines,
    command.takenBy,
    before,
    now,
    stopFor(state, takenAtOf(command, now), command.late),
    command.late,
  );
  const asked = asks(lines, command.asks, refusal, command.wish);
  if (refusal !== undefined) return refuse(refusal, ...(command.unknown === true ? [] : asked));

  const hanging = rackRefusal(state, lines);
  if (hanging !== undefined) return refuse(hanging);
  const { number, word } = numberedFor(state, command);
  const lacking = command.late === true ? lackingOf(state, lines) : [];
  // A late order that stock does not cover joins the line at once, even if payment comes first: it has no stock to hold.
  const payFirst = rules.payment === "before-pressing" && command.paid === undefined && lacking.length === 0;
  const placedAt = Math.min(paper?.takenAt ?? command.takenAt ?? now, now);
  const turn = (state.version + 1) * TURNS_PER_ORDER;
  const outside = payFirst ? "to-pay" : isToClaim(state, menu, command, now) ? "to-claim" : null;
  const toPress = lines.filter(({ rack }) => rack === undefined);
  if (toPress.length < lines.length && outside !== null)
    return refuse(wrongStage("a garment of the rack", "to be paid later", "paid when it is taken"));
  const dueBy = now + quoteMinutes(state, menu, toPress, now) * MINUTE;
  const order: Order = {
    number,
    word,
    customer: command.customer,
    takenBy: command.takenBy,
    lines,
    jobs: jobsOf(lines, now, outside ?? turn),
    placedAt,
    waitsFrom: outside === null ? placedAt : null,
    dueBy: outside === "to-pay" ? null : dueBy,
    readyAt: toPress.length === 0 ? now : null,
    ...(toPress.length === 0 ? { atOnce: true } : {}),
    ...sums,
    paid: null,
    ...(command.takenBy === "web" ? { claimed: false } : {}),
    closed: null,
    told: null,
    toldLate: false,
  };
  const { block, paid } = command;
  const device = block?.number === number ? { device: block.device } : {};
  const short = lacking.map((n): StallEvent => ({ type: "fell-short", number, n }));
  const paying: readonly StallEvent[] =
    paid === undefined ? [] : [{ type: "paid", number, ...paymentParts(paid, order.total), dueBy, turn }];
  const sold = lines.flatMap(({ rack: key }): StallEvent[] =>
    key === undefined ? [] : [{ type: "unracked", key, as: "sold" }],
  );
  return accept(...asked, { type: "placed", order, ...device }, ...paying, ...short, ...sold);
}

/** Why garments of the rack cannot be sold: one is not there, is kept for its customer, or is wanted twice. */
export function rackRefusal(state: StallState, lines: readonly Line[]): Refusal | undefined {
  const keys = lines.flatMap(({ rack }) => (rack === undefined ? [] : [rack]));
  for (const [at, line] of lines.entries()) {
    const { rack: key, quantity } = line;
    if (key === undefined) continue;
    const twice = quantity > 1 || keys.indexOf(key) !== keys.lastIndexOf(key);
    if (twice || onRack(state, key, line) === undefined)
      return wrongStage(`the garment ${key} of line ${at + 1}`, "not for sale", "on the rack, and for sale");
  }
  return undefined;
}

/** The parts of a payment: as given, else the given amount, else all that is owed. */
export function paymentParts(
  { tender, amount, parts = [], tip = 0 }: PaymentGiven,
  owed: number,
): Pick<Extract<StallEvent, { readonly type: "paid" }>, "tender" | "amount" | "parts" | "tip"> {
  const given = tip === 0 ? {} : { tip };
  const [first, ...others] = parts;
  if (first === undefined || others.length === 0) return { tender, amount: amount ?? owed, ...given };
  const sum = parts.reduce((all, part) => all + part.amount, 0);
  return { tender: first.tender, amount: sum, parts, ...given };
}

/** The garments, from 1, that stock does not cover; what the crew took off the menu since is not asked. */
function lackingOf(state: StallState, lines: readonly Line[]): readonly number[] {
  const taken = new Map<PieceKey, number>();
  return garments(lines).flatMap((line, index) => {
    const pieces = piecesOf(line);
    if (!areThere(pieces, (piece) => state.free(piece) - (taken.get(piece) ?? 0))) return [index + 1];
    for (const piece of pieces) taken.set(piece, (taken.get(piece) ?? 0) + 1);
    return [];
  });
}

/** The line of each garment, in the order of the lines. */
const garments = (lines: readonly Line[]): readonly Line[] =>
  lines.flatMap((line) => Array.from({ length: line.quantity }, () => line));

/** Where a garment of the rack lies: at no press of the menu. */
const RACK = PressId.parse("RACK");

/** A garment of the rack is pressed already. */
export const racksJob = ({ n, line, since }: Pick<Job, "n" | "line" | "since">): Job => ({
  ...{ n, line, since },
  ...{ stage: "pressed", press: RACK, turn: n },
});

/** One job a garment, in the order of the lines: in line with a turn, or outside it. */
function jobsOf(lines: readonly Line[], since: Instant, at: number | "to-pay" | "to-claim"): readonly Job[] {
  const lineOfEach = lines.flatMap((line, index) => Array.from({ length: line.quantity }, () => index));
  return lineOfEach.map((line, index): Job => {
    const n = index + 1;
    if (lines[line]?.rack !== undefined) return racksJob({ n, line, since });
    return typeof at === "string"
      ? { n, line, since, stage: at }
      : { n, line, since, stage: "waiting", turn: at + n, overtaken: 0 };
  });
}
