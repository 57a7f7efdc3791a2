/** Holding stock for a customer and placing an order: all of its lines or none. */

import { PressId } from "../../../model/basics/ids.ts";
import { ok, type Result } from "../../../model/basics/result.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { WantedLine } from "../../../model/orders/order.ts";
import { type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { quoteMinutes } from "../../line/quote.ts";
import { areThere, piecesOf } from "../../state/counts.ts";
import { garmentsOf, isLike } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { Hold, Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { lineFor } from "../../stock/offers.ts";
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
import { liftedUntil, obstacle, stopFor, TRUSTED } from "./intake.ts";
import { numberedFor, sameOrder, TURNS_PER_ORDER } from "./numbering.ts";

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

/** Whether a web order must be claimed before it joins the line, because its address has enough garments there. */
const isToClaim = (state: StallState, menu: Menu, command: Of<"place">, now: Instant): boolean =>
  command.takenBy === "web" &&
  liftedUntil(state, now) === null &&
  (command.unclaimedAtAddress ?? 0) + garmentsOf(command.lines) > menu.rules.unclaimedGarments;

const takenAtOf = ({ paper }: Of<"place">, now: Instant): Instant => Math.min(paper?.takenAt ?? now, now);

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
