/** `apply`: what each event does to a stall's state. Nothing else changes it. */
import type { Instant } from "../../../time/instants.ts";
import { happenedAt } from "../../line/late-taps.ts";
import { NOTHING_COUNTED, needed, onHand, usedOf } from "../../state/counts.ts";
import { openingAt } from "../../state/opening.ts";
import { garmentsOf, isNotQueued, orderKey, stageOf } from "../../state/orders.ts";
import { type PaidPart, partsOf, paymentOf, withTip } from "../../state/payments.ts";
import { blockOf, numberAfter } from "../../state/pickup-numbers.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Closed, Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { crowdTold, dayClosed, dayReopened, noteAsk, passersByCounted } from "./account.ts";
import { affectedPieces } from "./affected-pieces.ts";
import { changed, morePaid } from "./changing.ts";
import { noteCount, noteEmpty, noteSale } from "./daybook.ts";
import { backBy, drawerCounted, floatSet, moneyIn, moneyOut, paidOut } from "./drawer.ts";
import { announced, announcementRead, endStop, fairStopped } from "./organiser.ts";
import { leftOut, pressed, pulled, spoiled, takeBackPress, takenInstead, unspoiled } from "./pressing.ts";
import { recordMetrics } from "./record-metrics.ts";
import { letGo, letGoShown } from "./reserve.ts";
import {
  garmentRefunded,
  owedSet,
  racked,
  undoGarmentRefunded,
  undoUnracked,
  unracked,
} from "./returning.ts";
import { addCount, bare, changeJob, inLine, openOrder, setOrder, setPress, tally } from "./rows.ts";

type EventOf<T extends StallEvent["type"]> = Extract<StallEvent, { readonly type: T }>;

/** Changes the state as one event says. An event that does not fit the state is a bug, and is thrown. */
export function apply(state: StallState, event: StallEvent, at: Instant): void {
  // Read before the event is applied, because the event may delete the hold or the order.
  const pieces = affectedPieces(state, event);
  const happened = happenedAt(event, at);
  recordMetrics(state, event, happened, () => change(state, event, happened));
  noteEmpty(state, pieces, at);
}

function change(state: StallState, event: StallEvent, at: Instant): void {
  switch (event.type) {
    case "opened":
      return state.setIdentity(event.identity);
    case "menu-set":
      return state.setMenu(event.menu);
    case "picture-set":
      return event.picture === null
        ? state.pictures.delete(event.design)
        : state.pictures.set(event.design, event.picture);
    case "counted":
      return counted(state, event.piece, event.onHand, at);
    case "delivered":
    case "corrected":
      return addCount(state, event.piece, event.type, event.pieces, at);
    case "asked":
      return asked(state, event, at);
    case "held":
      return state.holds.set(event.hold.customer, event.hold);
    case "released":
      return state.holds.delete(event.customer);
    case "placed":
      return placed(state, event);
    case "numbers-given": {
      const { device, numbers } = event;
      state.blocks.set(device, [...blockOf(state, device), ...numbers].slice(-UNUSED_MOST));
      const last = numbers.at(-1);
      return last && state.setStatus({ ...state.status, nextNumber: numberAfter(last.number) });
    }
    case "numbers-let-go":
      return state.blocks.delete(event.device);
    case "kept-unpaid": {
      const order = openOrder(state, event.number);
      return setOrder(state, { ...order, jobs: order.jobs.map((job): Job => keptFrom(job, at)) });
    }
    case "paid":
      return paid(state, event, at);
    case "claimed":
      return claimed(state, event, at);
    case "claims-lifted":
      return state.setStatus({ ...state.status, claimsLiftedUntil: event.until });
    case "undo-paid":
      return unpaid(state, event, at);
    case "pulled":
      return pulled(state, event, at);
    case "overtaken":
      return changeJob(state, event, (job) =>
        job.stage === "waiting" || job.stage === "reserved" ? { ...job, overtaken: job.overtaken + 1 } : job,
      );
    case "reserved":
      return changeJob(state, event, (job) => ({
        ...inLine(job, at),
        stage: "reserved",
        press: event.press,
      }));
    case "reserve-set":
      return setPress(state, event.press, { reserves: event.on });
    case "reserve-asked-back":
      return changeJob(state, event, (job) => (job.stage === "reserved" ? { ...job, askedBack: true } : job));
    case "reserve-let-go":
      return letGo(state, event, at);
    case "let-go-shown":
      return letGoShown(state, event.press);
    case "press-heard":
      return setPress(state, event.press, { heardAt: at });
    case "returned":
    case "supplied":
      return changeJob(state, event, (job) => ({ ...inLine(job, at), stage: "waiting" }));
    case "fell-short":
      return changeJob(state, event, (job) => ({ ...inLine(job, at), stage: "short" }));
    case "left-out":
      return leftOut(state, event, at);
    case "changed":
      return changed(state, event, at);
    case "more-paid":
      return morePaid(state, event, at);
    case "taken-instead":
      return takenInstead(state, event, at);
    case "pressed":
      return pressed(state, event, at);
    case "undo-pressed": {
      takeBackPress(state, openOrder(state, event.number), event.n, at);
      return changeJob(state, event, (job) => ({
        ...bare(job, at),
        stage: "waiting",
        turn: event.turn,
        overtaken: 0,
      }));
    }
    case "spoiled":
      return spoiled(state, event, at);
    case "undo-spoiled":
      return unspoiled(state, event, at);
    case "given-back":
      return givenBack(state, event, at);
    case "closing-asked":
      return setOrder(state, {
        ...openOrder(state, event.number),
        closing: { as: event.as, byCustomer: event.byCustomer },
      });
    case "closing-declined": {
      const { closing: _, ...order } = openOrder(state, event.number);
      return setOrder(state, order);
    }
    case "closed":
      return closed(state, event, at);
    case "undo-closed":
      return reopened(state, event.number, at);
    case "garment-refunded":
      return garmentRefunded(state, event, at);
    case "undo-garment-refunded":
      return undoGarmentRefunded(state, event, at);
    case "racked":
      return racked(state, event, at);
    case "unracked":
      return unracked(state, event, at);
    case "undo-unracked":
      return undoUnracked(state, event, at);
    case "owed-set":
      return owedSet(state, event);
    case "float-set":
      return floatSet(state, event, at);
    case "paid-out":
      return paidOut(state, event, at);
    case "drawer-counted":
      return drawerCounted(state, event, at);
    case "told":
      return setOrder(state, { ...openOrder(state, event.number), told: event.how });
    case "paused":
      return state.setStatus({ ...state.status, paused: { reason: event.reason, since: at } });
    case "resumed":
      return endStop(state, "paused");
    case "fair-stopped":
      return fairStopped(state, event, at);
    case "fair-went-on":
      return endStop(state, "fairStop");
    case "announced":
      return announced(state, event.announcement);
    case "announcement-read":
      return announcementRead(state, event, at);
    case "announcement-taken-back":
      return state.announcements.delete(event.id);
    case "requoted":
      return setOrder(state, { ...openOrder(state, event.number), dueBy: event.dueBy });
    case "ran-late":
      return setOrder(state, { ...openOrder(state, event.number), toldLate: true });
    case "press-down":
      return setPress(state, event.press, { downSince: at });
    case "press-up":
      return setPress(state, event.press, { downSince: null });
    case "hands-set":
      return state.setStatus({ ...state.status, hands: event.hands });
    case "kept-open":
      return state.setStatus({ ...state.status, keptOpen: event.closes });
    case "web-orders-set":
      return state.setStatus({ ...state.status, webOrders: event.open });
    case "off-menu-set": {
      const others = state.status.offMenu.filter((piece) => piece !== event.piece);
      return state.setStatus({ ...state.status, offMenu: event.off ? [...others, event.piece] : others });
    }
    case "last-orders":
      return state.setStatus({ ...state.status, lastOrders: event.closes });
    case "day-closed":
      return dayClosed(state, event.day, at);
    case "day-reopened":
      return dayReopened(state, event.day, event.reason, at);
    case "plan-kept":
      return state.keepPlan(event.plan);
    case "costs-set":
      return state.dayCosts.set(event.day, event.costs);
    case "crowd-told":
      return crowdTold(state, event.day, event.crowd);
    case "passers-by-counted":
      return passersByCounted(state, event.people, event.seconds, at);
    case "lessons-taken":
      for (const lesson of event.lessons) state.lessons.set(lesson.id, lesson);
      return;
    default:
      return event satisfies never;
  }
}

function counted(state: StallState, piece: PieceKey, pieces: number, at: Instant): void {
  const count = state.count(piece);
  const first = count === NOTHING_COUNTED;
  const field = first ? "opening" : "corrected";
  const change = pieces - onHand(count);
  state.counts.set(piece, { ...count, [field]: count[field] + change });
  noteCount(state, piece, first ? "opening" : "found", change, at);
}

function asked(state: StallState, event: EventOf<"asked">, at: Instant): void {
  const { garments, unmet } = event;
  noteAsk(state, event, at);
  tally(state, at, (bucket) => ({
    asked: bucket.asked + garments,
    unmet: bucket.unmet + (unmet === null ? 0 : garments),
    unmetSoldOut: bucket.unmetSoldOut + (unmet === "sold-out" ? garments : 0),
    unmetClosed: bucket.unmetClosed + (unmet === "closed" ? garments : 0),
    unmetWait: bucket.unmetWait + (unmet === "too-long" ? garments : 0),
  }));
}

/** A device that loses what it kept leaves numbers unused; older ones are still good, they are only not listed. */
const UNUSED_MOST = 60;

/** Restarts the time-out of a garment that waits outside the line for payment or for its customer. */
const keptFrom = (job: Job, at: Instant): Job => (isNotQueued(job) ? { ...job, since: at } : job);

/** Notes, with the first order of an opening, how much of each of its pieces was taken before. */
function beginDay(state: StallState, order: Order): void {
  const opening = openingAt(state, order.placedAt);
  if (!opening.open) return;
  const { opens } = opening;
  for (const piece of needed(order.lines).keys()) {
    const count = state.count(piece);
    if (count.day?.opens === opens) continue;
    const used = usedOf(count, state.orderIndex.promises.of(piece));
    state.counts.set(piece, { ...count, day: { opens, used } });
  }
}

function placed(state: StallState, { order, device }: EventOf<"placed">): void {
  state.holds.delete(order.customer);
  beginDay(state, order);
  setOrder(state, order);
  const { nextNumber } = state.status;
  if (order.number === nextNumber) state.setStatus({ ...state.status, nextNumber: numberAfter(nextNumber) });
  const block = device === undefined ? undefined : state.blocks.get(device);
  if (device !== undefined && block !== undefined)
    state.blocks.set(
      device,
      block.filter(({ number }) => number !== order.number),
    );
  tally(state, order.placedAt, (bucket) => ({
    placed: bucket.placed + 1,
    garments: bucket.garments + garmentsOf(order.lines),
  }));
}

function paid(
  state: StallState,
  { number, tender, amount, parts, tip = 0, carried, dueBy, turn }: EventOf<"paid">,
  at: Instant,
): void {
  const order = openOrder(state, number);
  const payment = paymentOf(parts ?? [{ tender, amount }], at);
  const after = withTip({ ...order, paid: payment }, tender, tip);
  noteSale(state, order, after, at);
  if (carried === undefined) moneyIn(state, at, partsOf(payment), tip > 0 ? [{ tender, amount: tip }] : []);
  setOrder(state, joined(after, dueBy, turn, at));
}

function claimed(state: StallState, { number, dueBy, turn }: EventOf<"claimed">, at: Instant): void {
  const order: Order = { ...openOrder(state, number), claimed: true };
  // What is to be paid first stays outside the line.
  setOrder(state, stageOf(order) === "to-pay" ? order : joined(order, dueBy, turn, at));
}

/** The order in line: where it was, or at the end if it was outside. */
function joined(order: Order, dueBy: Instant, turn: number, at: Instant): Order {
  if (order.waitsFrom !== null) return order;
  const jobs = order.jobs.map(
    (job): Job =>
      isNotQueued(job) ? { ...bare(job, at), stage: "waiting", turn: turn + job.n, overtaken: 0 } : job,
  );
  return { ...order, jobs, waitsFrom: at, dueBy };
}

function unpaid(state: StallState, { number, leavesLine, carried }: EventOf<"undo-paid">, at: Instant): void {
  const { due: _, tips = [], ...before } = openOrder(state, number);
  if (before.paid !== null && carried === undefined) moneyIn(state, at, partsOf(before.paid), tips, -1);
  const { giveBack: _back, ...kept } = before;
  const order: Order = { ...(carried === undefined ? before : kept), paid: null };
  noteSale(state, openOrder(state, number), order, at);
  if (!leavesLine) return setOrder(state, order);
  const jobs = order.jobs.map((job): Job => ({ ...bare(job, at), stage: "to-pay" }));
  setOrder(state, { ...order, jobs, waitsFrom: null, dueBy: null });
}

/** The takings were changed when the garments were removed, so they stay. */
function givenBack(state: StallState, { number, amount }: EventOf<"given-back">, at: Instant): void {
  const order = state.anyOrder(number);
  if (order === undefined)
    throw new Error(`the journal gives money back for order ${number}, which does not exist`);
  moneyOut(state, at, [{ tender: backBy(order.paid), amount }]);
  const { giveBack = 0, gaveBack = 0, ...rest } = order;
  const [owed, handed] = [giveBack - amount, gaveBack + amount];
  const after: Order = {
    ...rest,
    ...(owed > 0 ? { giveBack: owed } : {}),
    ...(handed > 0 ? { gaveBack: handed } : {}),
  };
  if (order.closed === null) setOrder(state, after);
  else state.past.set(orderKey(number), after);
}

/** Closes an order, open or already closed: a collected one may be refunded later. */
function closed(
  state: StallState,
  { number, as, carried, unexchanged }: EventOf<"closed">,
  at: Instant,
): void {
  const order = state.anyOrder(number);
  if (order === undefined) throw new Error(`the journal closes order ${number}, which does not exist`);
  const marks = {
    ...(carried === undefined ? {} : { carried }),
    ...(unexchanged === undefined ? {} : { unexchanged }),
  };
  const how: Closed = { as, at, before: order.closed, ...marks };
  moneyOut(state, at, paidBack({ ...order, closed: how }));
  state.orders.delete(orderKey(number));
  state.past.set(orderKey(number), { ...order, closed: how });
  if (unexchanged === undefined) noteSale(state, order, { ...order, closed: how }, at);
  countClosed(state, how, 1);
}

/** Undoes the last closing: the order is as it was before. */
function reopened(state: StallState, number: number, at: Instant): void {
  const order = state.past.get(orderKey(number));
  if (order === undefined || order.closed === null) {
    throw new Error(`the journal reopens order ${number}, which is not closed`);
  }
  countClosed(state, order.closed, -1);
  moneyOut(state, at, paidBack(order), -1);
  // What was dropped because nobody came or paid in time is kept as long again, or it would be dropped at once.
  const jobs = order.jobs.map((job): Job => keptFrom(job, at));
  const { closing: _, ...rest } = order;
  const before: Order = { ...rest, jobs, closed: order.closed.before };
  noteSale(state, order, before, at);
  if (before.closed !== null) return state.past.set(orderKey(number), before);
  state.past.delete(orderKey(number));
  setOrder(state, before);
}

/** What an ending gave back: all that was paid, by the tenders it came by, unless it was carried over to another order. */
function paidBack({ closed: how, paid: payment }: Order): readonly PaidPart[] {
  const isBack = how?.as === "refunded" || how?.as === "exchanged";
  return isBack && how.carried === undefined && payment !== null ? partsOf(payment) : [];
}

function countClosed(state: StallState, { as, at }: Closed, times: 1 | -1): void {
  if (as !== "collected" && as !== "dropped") return;
  tally(state, at, (bucket) => ({ [as]: bucket[as] + times }));
}
