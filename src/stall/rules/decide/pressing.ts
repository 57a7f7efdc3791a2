/** What became of a garment: pressed, spoiled, or handed back. */

import { type JobId, jobParts, type SizeId } from "../../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../../model/basics/result.ts";
import { type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import type { SpoilReason } from "../../../model/orders/taps.ts";
import type { Instant } from "../../../time/instants.ts";
import { tappedAt } from "../../line/late-taps.ts";
import { accountDay } from "../../state/account-day.ts";
import { areThere, blankOf, lostPieces, onHand } from "../../state/counts.ts";
import { jobIn, lineOf } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Line, RackItem } from "../../state/shapes/line.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { onPresses } from "../../stock/on-presses.ts";
import { rackItemOf, spareKey, spareKeys } from "../../stock/rack.ts";
import { accept, type Decision, type Of, refuse, type Tapped } from "../commands.ts";
import { headTurn } from "./numbering.ts";

type Found = { readonly order: Order; readonly job: Job; readonly line: Line };

function find(state: StallState, id: JobId): Result<Found, Refusal> {
  const { number, n } = jobParts(id);
  const order = state.order(number);
  const job = jobIn(order, n);
  if (order === undefined || job === undefined) return refused({ code: "no-such-job", job: id });
  return ok({ order, job, line: lineOf(order, job) });
}

/** The refusal of a tap about a garment that another press has by now; null if none has. */
function takenOver(id: JobId, job: Job, { press }: Tapped): Refusal | null {
  const has = job.stage === "pressing" || job.stage === "reserved" ? job.press : press;
  return press === undefined || has === press ? null : wrongStage(id, "elsewhere", `on press ${press}`);
}

export function pressed(state: StallState, { job: id, ...tap }: Of<"pressed">, now: Instant): Decision {
  const found = find(state, id);
  if (!found.ok) return refuse(found.refusal);
  const { order, job } = found.value;
  if (job.stage !== "pressing") return refuse(wrongStage(id, job.stage, "pressing"));
  const over = takenOver(id, job, tap);
  if (over !== null) return refuse(over);
  const when = tappedAt(tap.at, job.since, now);
  const seconds = Math.max(0, Math.round(((when.tappedAt ?? now) - job.since) / 1000));
  return accept({ type: "pressed", number: order.number, n: job.n, seconds, ...when });
}

/** Takes a wrong "pressed" tap back: the garment waits again, ahead of all others. */
export function undoPressed(state: StallState, { job: id }: Of<"undo-pressed">): Decision {
  const found = find(state, id);
  if (!found.ok) return refuse(found.refusal);
  const { order, job, line } = found.value;
  if (job.stage !== "pressed") return refuse(wrongStage(id, job.stage, "pressed"));
  if (line.rack !== undefined) return refuse(wrongStage(id, "of the rack", "pressed for this order"));
  return accept({ type: "undo-pressed", number: order.number, n: job.n, turn: headTurn(state, job.n) });
}

/** Ends a try: the garment is pressed again next if spares are free, else it is short. */
export function spoiled(
  state: StallState,
  { job: id, lost, reason, rack, ...tap }: Of<"spoiled">,
  now: Instant,
): Decision {
  const found = find(state, id);
  if (!found.ok) return refuse(found.refusal);
  const { order, job, line } = found.value;
  if (job.stage !== "pressing" && job.stage !== "pressed") {
    return refuse(wrongStage(id, job.stage, "pressing or pressed"));
  }
  if (line.rack !== undefined) return refuse(wrongStage(id, "of the rack", "pressed for this order"));
  const over = takenOver(id, job, tap);
  if (over !== null) return refuse(over);
  const sizes = state.menu?.blanks.find((blank) => blank.id === line.blank)?.sizes ?? [];
  if (rack?.size !== undefined && !sizes.some((size) => size.id === rack.size))
    return refuse({
      code: "no-such-choice",
      offer: line.offer,
      what: "size",
      given: rack.size,
      line: 0,
    });
  const { number } = order;
  const spoiled: StallEvent = {
    type: "spoiled",
    number,
    n: job.n,
    lost,
    reason,
    turn: headTurn(state, job.n),
    ...tappedAt(tap.at, job.since, now),
  };
  const spare = areThere(lostPieces(line, lost), (piece) => state.free(piece));
  // What the customer brought is never for sale.
  const kept =
    rack === undefined || line.own === true ? [] : spoiledToRack(state, order, job, reason, rack.size);
  return spare
    ? accept(spoiled, ...kept)
    : accept(spoiled, { type: "fell-short", number, n: job.n }, ...kept);
}

/** A spoiled garment that can still be sold: in another size than ordered it is good, else it is a second. */
function spoiledToRack(
  state: StallState,
  order: Order,
  job: Job,
  reason: SpoilReason,
  size: SizeId | undefined,
): readonly StallEvent[] {
  const free = spareKey(state, order.number);
  if (free === undefined) return [];
  const why = reason === "wrong-size" ? "wrong-size" : "misprint";
  const item = rackItemOf(order, job, { why, from: "spoiled" });
  const made = size === undefined ? item : { ...item, size };
  // A piece that was never counted, or is on a press, is not corrected: the count was wrong before.
  const other = canGive(state, blankOf(made)) >= 1 ? otherBlank(item, made, 1) : [];
  const noted = other.length > 0 ? { ...made, corrected: true as const } : made;
  return [{ type: "racked", key: free, item: noted }, ...other];
}

/** How many of a piece are on hand and on no press. */
const canGive = (state: StallState, piece: PieceKey): number =>
  onHand(state.count(piece)) - (onPresses(state).get(piece) ?? 0);

/** The blank of another size than the order's was used: that one is gone, and the order's is still there. */
function otherBlank(
  ordered: Omit<RackItem, "at" | "day">,
  made: Omit<RackItem, "at" | "day">,
  times: 1 | -1,
): readonly StallEvent[] {
  if (ordered.size === made.size || ordered.own === true) return [];
  const reason = "pressed in another size";
  return [
    { type: "corrected", piece: blankOf(ordered), pieces: times, reason },
    { type: "corrected", piece: blankOf(made), pieces: -times, reason },
  ];
}

/** A spoiled garment that hung on the rack is its order's again. */
function spoiledOffRack(
  state: StallState,
  order: Order,
  job: Job,
  { lost, at }: Pick<NonNullable<Job["spoiled"]>, "lost" | "at">,
): readonly StallEvent[] {
  const key = spareKeys(order.number).find((id) => state.rack.get(id)?.at === at);
  const made = key === undefined ? undefined : state.rack.get(key);
  if (key === undefined || made === undefined) return [];
  const ordered = rackItemOf(order, job, { why: made.why, from: made.from });
  // A lost blank is back by then.
  const there = canGive(state, blankOf(ordered)) + (lost === "transfer" ? 0 : 1);
  return [
    { type: "unracked", key, as: "back" },
    ...(made.corrected === true && there >= 1 ? otherBlank(ordered, made, -1) : []),
  ];
}

/** Takes a wrong "spoiled" tap back, until the garment is on a press again or the day is closed. */
export function undoSpoiled(state: StallState, { job: id }: Of<"undo-spoiled">, now: Instant): Decision {
  const found = find(state, id);
  if (!found.ok) return refuse(found.refusal);
  const { order, job } = found.value;
  if (job.spoiled === undefined || job.spoiled.day !== accountDay(state, now))
    return refuse(wrongStage(id, job.stage, "spoiled just before"));
  const { lost, reason } = job.spoiled;
  const unspoiled: StallEvent = { type: "undo-spoiled", number: order.number, n: job.n, lost, reason };
  return accept(unspoiled, ...spoiledOffRack(state, order, job, job.spoiled));
}

/**
 * Gives a garment back to the line, from the press or from its reserve; it keeps its turn. A reserved one is given back
 * by its own press only: a tablet without signal may be pressing it.
 */
export function returned(state: StallState, { job: id, ...tap }: Of<"returned">, now: Instant): Decision {
  const found = find(state, id);
  if (!found.ok) return refuse(found.refusal);
  const { order, job } = found.value;
  if (job.stage !== "pressing" && (job.stage !== "reserved" || job.press !== tap.press)) {
    return refuse(wrongStage(id, job.stage, "pressing, or reserved for the press that gives it back"));
  }
  const over = takenOver(id, job, tap);
  if (over !== null) return refuse(over);
  return accept({ type: "returned", number: order.number, n: job.n, ...tappedAt(tap.at, job.since, now) });
}
