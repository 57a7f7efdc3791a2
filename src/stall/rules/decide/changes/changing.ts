/** Changing an order whose garments are not pressed yet: other garments, more, or fewer; all of the changes or none. */
import { jobId } from "../../../../model/basics/ids.ts";
import { ok, type Result } from "../../../../model/basics/result.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { type Refusal, wrongStage } from "../../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../../time/instants.ts";
import { quoteMinutes } from "../../../line/quote.ts";
import { needed, piecesOf } from "../../../state/counts.ts";
import {
  garmentsOf,
  isLike,
  isNotQueued,
  isUnclaimed,
  jobIn,
  lineOf,
  nextNumbered,
  readyAtOnce,
  stageOf,
  withAdded,
  withInstead,
  withJob,
  withoutJob,
} from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { Job } from "../../../state/shapes/job.ts";
import type { Line } from "../../../state/shapes/line.ts";
import type { Order } from "../../../state/shapes/order.ts";
import type { PieceKey } from "../../../state/shapes/piece.ts";
import type { StallState } from "../../../state/state.ts";
import { leftOf, lineFor, offerParts, offSale } from "../../../stock/offers.ts";
import { accept, askMarks, type Decision, type Of, type OrderChange, refuse } from "../../commands.ts";
import { missing } from "../closing.ts";
import { fairStopRefusal, intakeRefusal, liftedUntil, overWebShare } from "../intake.ts";
import { TURNS_PER_ORDER } from "../numbering.ts";
import { repriced } from "./repricing.ts";

type Changing = Of<"changed">;

/** A change with the line of its garments, as the menu prices it today. */
type Priced =
  | { readonly type: "instead"; readonly jobs: readonly number[]; readonly line: Line }
  | { readonly type: "add"; readonly line: Line }
  | { readonly type: "take-off"; readonly jobs: readonly number[] };

/**
 * Changes an open order, which keeps its number, word and place. A replacement keeps the turn of the garment it
 * replaces; an added garment queues as in a new order. Garments that stay keep their price; others have today's.
 * Refused if a piece is sold out (with what is left), if a garment is on a press or may be, or if it adds a garment
 * while the organiser has stopped all orders. Nothing is released before everything is held.
 */
export function changed(state: StallState, menu: Menu, command: Changing, now: Instant): Decision {
  const { number, byCustomer } = command;
  const order = state.order(number);
  if (order === undefined) return refuse(missing(state, number));
  if (byCustomer !== undefined && order.customer !== byCustomer)
    return refuse({ code: "no-such-order", number });
  if (order.closing !== undefined) return refuse(wrongStage(`order ${number}`, "about to end", "open"));
  if (stageOf(order) === "ready") return refuse(wrongStage(`order ${number}`, "ready", "not ready yet"));
  const touched = command.changes.flatMap((one) => (one.type === "add" ? [] : one.jobs));
  for (const [at, n] of touched.entries()) {
    // A garment that another of the changes has taken off or replaced is not there any more.
    if (touched.indexOf(n) < at) return refuse({ code: "no-such-job", job: jobId(number, n) });
    const obstacle = notToBeChanged(order, n, byCustomer !== undefined);
    if (obstacle !== undefined) return obstacle;
  }
  const found = pricedChanges(menu, command.changes);
  if (!found.ok) return refuse(found.refusal);
  const priced = found.value;
  const wanted = priced.flatMap((one): Line[] =>
    one.type === "take-off"
      ? []
      : [one.type === "add" ? one.line : { ...one.line, quantity: one.jobs.length }],
  );
  const after = afterAll(state, order, priced, now);
  if (after.jobs.length === 0)
    return refuse(wrongStage(`order ${number}`, "left without a garment by that", "dropped as a whole"));
  const added = priced.flatMap((one) => (one.type === "add" ? [one.line] : []));
  const obstacle =
    (added.length === 0 ? undefined : fairStopRefusal(state)) ??
    tooMany(menu, after, byCustomer !== undefined) ??
    (byCustomer === undefined ? undefined : notForCustomers(state, menu, order, after, added, now)) ??
    gone(state, menu, order, touched, wanted);
  const asked = asksOf(priced, obstacle);
  if (obstacle !== undefined) return refuse(obstacle, ...asked);
  const later = added.length === 0 ? 0 : now + quoteMinutes(state, menu, added, now) * MINUTE;
  const dueBy = order.dueBy === null ? null : Math.max(order.dueBy, later);
  return accept(...asked, {
    type: "changed",
    number,
    jobs: after.jobs,
    ...repriced(menu, after, order.discount),
    dueBy,
    ...readyAtOnce(order, after),
  });
}

/** Why a garment cannot be changed: it does not exist, is pressed, or a press has it or may have it. */
function notToBeChanged(order: Order, n: number, byCustomer: boolean): Decision | undefined {
  const { number } = order;
  const id = jobId(number, n);
  const job = jobIn(order, n);
  if (job === undefined) return refuse({ code: "no-such-job", job: id });
  if (job.stage === "pressed") return refuse(wrongStage(id, "pressed", "not pressed yet"));
  if (job.stage === "pressing") return refuse({ code: "on-press", number, job: id, press: job.press });
  if (job.stage === "reserved") {
    const asked: readonly StallEvent[] =
      job.askedBack === true ? [] : [{ type: "reserve-asked-back", number, n }];
    return refuse({ code: "on-press", number, job: id, press: job.press }, ...asked);
  }
  const [silent] = job.letGo ?? [];
  // A press that fell silent may have pressed it: the crew can look, a customer cannot.
  return byCustomer && silent !== undefined
    ? refuse({ code: "on-press", number, job: id, press: silent.press })
    : undefined;
}

function pricedChanges(menu: Menu, changes: readonly OrderChange[]): Result<readonly Priced[], Refusal> {
  const priced: Priced[] = [];
  for (const [index, one] of changes.entries()) {
    if (one.type === "take-off") {
      priced.push(one);
      continue;
    }
    const line = lineFor(menu, one.type === "add" ? one.line : { ...one.garment, quantity: 1 }, index);
    if (!line.ok) return line;
    priced.push(
      one.type === "add"
        ? { type: "add", line: line.value }
        : { type: "instead", jobs: one.jobs, line: line.value },
    );
  }
  return ok(priced);
}

/** The order as all the changes make it; its sums are not worked out yet. */
function afterAll(state: StallState, order: Order, changes: readonly Priced[], now: Instant): Order {
  const turn = (state.version + 1) * TURNS_PER_ORDER;
  let after = order;
  let added = 0;
  for (const one of changes) {
    if (one.type === "take-off") for (const n of one.jobs) after = withoutJob(after, n);
    else if (one.type === "instead")
      for (const n of one.jobs)
        after = insteadOf(withInstead(after, n, pricedAs(after, n, one.line)), n, now);
    else
      for (let more = 0; more < one.line.quantity; more++) {
        added += 1;
        const n = nextNumbered(after);
        const job = (line: number): Job => newJob(order, { n, line, since: now }, turn + added);
        after = withAdded(after, job, one.line);
      }
  }
  return after;
}

/**
 * The line of a garment that takes the place of another: one that is made alike, and no second, keeps its price, and any
 * keeps what the crew took off that one.
 */
export function pricedAs(order: Order, n: number, line: Line): Line {
  const job = jobIn(order, n);
  if (job === undefined) return line;
  const before = lineOf(order, job);
  const keeps = isLike(before, line) && before.asSecond === line.asSecond;
  const each = keeps ? before.each : line.each;
  const { lowered } = before;
  return lowered === undefined
    ? { ...line, each }
    : { ...line, each, lowered: { ...lowered, by: Math.min(lowered.by, each) } };
}

/** Replaces a garment; the new one takes its place in line. */
function insteadOf(order: Order, n: number, now: Instant): Order {
  const job = jobIn(order, n);
  if (job === undefined || isNotQueued(job)) return order;
  const { turn, line } = job;
  const overtaken = "overtaken" in job ? job.overtaken : 0;
  return withJob(order, { n, line, since: now, stage: "waiting", turn, overtaken });
}

/** A garment that is added: in line at the end, or outside it with the rest of its order. */
function newJob(order: Order, job: Pick<Job, "n" | "line" | "since">, turn: number): Job {
  const outside = order.jobs.find(isNotQueued);
  return outside === undefined
    ? { ...job, stage: "waiting", turn, overtaken: 0 }
    : { ...job, since: outside.since, stage: outside.stage };
}

function tooMany({ rules }: Menu, after: Order, byCustomer: boolean): Refusal | undefined {
  const most = byCustomer ? rules.garmentsPerOrder : TURNS_PER_ORDER - 1;
  return garmentsOf(after.lines) > most ? { code: "too-many", most, of: "order" } : undefined;
}

/** Limits on further garments that bind customers but not the crew. */
function notForCustomers(
  state: StallState,
  menu: Menu,
  order: Order,
  after: Order,
  added: readonly Line[],
  now: Instant,
): Refusal | undefined {
  if (added.length === 0) return undefined;
  const closed = intakeRefusal(state, menu, added, now);
  if (closed !== undefined || !isUnclaimed(order) || liftedUntil(state, now) !== null) return closed;
  const most = menu.rules.unclaimedGarments;
  if (garmentsOf(after.lines) > most && !order.jobs.some(isNotQueued))
    return { code: "too-many", most, of: "order" };
  return overWebShare(state, menu, added, undefined) ? { code: "web-share", left: [] } : undefined;
}

/** The first wanted garment that is off sale or lacks stock, counting the pieces of replaced garments as free. */
function gone(
  state: StallState,
  menu: Menu,
  order: Order,
  touched: readonly number[],
  wanted: readonly Line[],
): Refusal | undefined {
  const freed = new Map<PieceKey, number>();
  for (const n of touched) {
    const job = jobIn(order, n);
    if (job === undefined || job.stage === "short") continue;
    for (const piece of piecesOf(lineOf(order, job))) freed.set(piece, (freed.get(piece) ?? 0) + 1);
  }
  const need = needed(wanted);
  const free = (piece: PieceKey): number =>
    (state.status.offMenu.includes(piece) ? 0 : state.free(piece)) + (freed.get(piece) ?? 0);
  const lacking = wanted.find(
    (line) => offSale(menu, line) || piecesOf(line).some((piece) => (need.get(piece) ?? 0) > free(piece)),
  );
  if (lacking === undefined) return undefined;
  const { offer, colour, size } = lacking;
  const choice = offerParts(menu, offer);
  return { code: "sold-out", offer, colour, size, left: choice === undefined ? [] : leftOf(state, choice) };
}

/** The requests in the changes; a replacement is not a new wish. */
function asksOf(changes: readonly Priced[], refusal: Refusal | undefined): readonly StallEvent[] {
  if (refusal !== undefined && refusal.code !== "sold-out") return [];
  return changes.flatMap((one): StallEvent[] => {
    if (one.type === "take-off") return [];
    const { offer, colour, size } = one.line;
    const isIt =
      refusal === undefined ||
      (refusal.offer === offer && refusal.colour === colour && refusal.size === size);
    if (!isIt) return [];
    const garments = one.type === "add" ? one.line.quantity : one.jobs.length;
    const marks = askMarks({ first: false, instead: one.type === "instead" }, 0);
    const unmet = refusal === undefined ? null : "sold-out";
    return [{ type: "asked", offer, colour, size, garments, unmet, ...marks }];
  });
}
