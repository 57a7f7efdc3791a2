/** `apply`: what each event does to a stall's state. Nothing else changes it. */
import type { Instant } from "../../../time/instants.ts";
import { happenedAt } from "../../line/late-taps.ts";
import { NOTHING_COUNTED, needed, onHand, usedOf } from "../../state/counts.ts";
import { openingAt } from "../../state/opening.ts";
import { garmentsOf } from "../../state/orders.ts";
import { blockOf, numberAfter } from "../../state/pickup-numbers.ts";
import type { EventOf, StallEvent } from "../../state/shapes/event.ts";
import type { Job } from "../../state/shapes/job.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { crowdTold, dayClosed, dayReopened, noteAsk, passersByCounted } from "./account.ts";
import { affectedPieces } from "./affected-pieces.ts";
import { changed, morePaid } from "./changing.ts";
import { closed, keptFrom, reopened } from "./closing.ts";
import { noteCount, noteEmpty } from "./daybook.ts";
import { drawerCounted, floatSet, paidOut } from "./drawer.ts";
import { announced, announcementRead, endStop, fairStopped } from "./organiser.ts";
import { claimed, givenBack, paid, unpaid } from "./paying.ts";
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
