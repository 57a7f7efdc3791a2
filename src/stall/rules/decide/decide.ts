/** (state, command, now) -> events, or a refusal: every rule of the stall is reached from here. */
import { type Instant, MINUTE } from "../../../time/instants.ts";
import { lastOrdersDue } from "../../line/closing-time.ts";
import { silentReserves } from "../../line/reserve.ts";
import { stageOf } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";
import { accept, askMarks, type Command, type Decision, refuse } from "../commands.ts";
import { acceptPlan } from "./accepting-plan.ts";
import { account, drawerCounted } from "./accounting.ts";
import { changed } from "./changes/changing.ts";
import { discounted } from "./changes/discounting.ts";
import { garmentExchanged } from "./changes/exchanging.ts";
import { leftOut } from "./changes/leaving-out.ts";
import { garmentRefunded, rackBrought, unracked } from "./changes/returning.ts";
import { takenInstead } from "./changes/taking-instead.ts";
import { undoGarmentExchanged, undoGarmentRefunded } from "./changes/undoing.ts";
import { claimed, closed, givenBack, undoClosed } from "./closing.ts";
import { keepOpen } from "./intake.ts";
import { giveNumbers } from "./numbering.ts";
import { hold, place, release } from "./ordering.ts";
import { hearAnnouncements, readAnnouncement, requoted, setFairStop } from "./organiser.ts";
import { keptUnpaid, paid, undoPaid } from "./paying.ts";
import { pressDown, pressUp, pull, setHands } from "./presses.ts";
import { pressed, returned, spoiled, undoPressed, undoSpoiled } from "./pressing.ts";
import { fillReserve, reserveAskedBack, reserveReturned, setReserve } from "./reserving.ts";
import { open, setMenu, setPicture } from "./setting-up.ts";
import { changeStock, setOffMenu } from "./stocktaking.ts";

/** A command's events, or its refusal. Reads the state, changes nothing. */
export function decide(state: StallState, command: Command, now: Instant): Decision {
  if (command.type === "open") return open(command);
  if (state.identity === null) return refuse({ code: "no-such-stall" });
  if (command.type === "set-menu") return setMenu(state, command);
  if (command.type === "accept-plan") return acceptPlan(state, command);
  if (command.type === "keep-plan") return accept({ type: "plan-kept", plan: command.plan });
  if (command.type === "tick") return accept();
  if (command.type === "set-fair-stop") return setFairStop(state, command, now);
  if (command.type === "hear-announcements") return hearAnnouncements(state, command);
  if (command.type === "read-announcement") return readAnnouncement(state, command);
  const { menu } = state;
  if (menu === null) return refuse({ code: "no-menu" });
  switch (command.type) {
    case "change-stock":
      return changeStock(state, menu, command);
    case "set-picture":
      return setPicture(state, menu, command);
    case "note-ask":
      return accept({
        type: "asked",
        ...command.ask,
        unmet: command.unmet,
        ...askMarks(command.wish, 0),
      });
    case "hold":
      return hold(state, menu, command, now);
    case "release":
      return release(state, command);
    case "place":
      return place(state, menu, command, now);
    case "give-numbers":
      return giveNumbers(state, command);
    case "kept-unpaid":
      return keptUnpaid(state, menu, command);
    case "paid":
      return paid(state, menu, command, now);
    case "undo-paid":
      return undoPaid(state, menu, command);
    case "claimed":
      return claimed(state, menu, command, now);
    case "lift-claims":
      return accept({
        type: "claims-lifted",
        until: command.minutes === null ? null : now + command.minutes * MINUTE,
      });
    case "pull":
      return pull(state, menu, command, now);
    case "set-reserve":
      return setReserve(state, menu, command, now);
    case "fill-reserve":
      return fillReserve(state, menu, command, now);
    case "reserve-returned":
      return reserveReturned(state, menu, command);
    case "reserve-asked-back":
      return reserveAskedBack(state, menu, command);
    case "press-down":
      return pressDown(state, menu, command);
    case "press-up":
      return pressUp(state, menu, command);
    case "set-hands":
      return setHands(state, command);
    case "set-web-orders":
      return command.open === state.status.webOrders
        ? accept()
        : accept({ type: "web-orders-set", open: command.open });
    case "set-off-menu":
      return setOffMenu(state, menu, command);
    case "keep-open":
      return keepOpen(state, command, now);
    case "pressed":
      return pressed(state, command, now);
    case "undo-pressed":
      return undoPressed(state, command);
    case "spoiled":
      return spoiled(state, command, now);
    case "undo-spoiled":
      return undoSpoiled(state, command, now);
    case "returned":
      return returned(state, command, now);
    case "closed":
      return closed(state, menu, command);
    case "undo-closed":
      return undoClosed(state, menu, command);
    case "changed":
      return changed(state, menu, command, now);
    case "discounted":
      return discounted(state, menu, command);
    case "garment-refunded":
      return garmentRefunded(state, menu, command);
    case "garment-exchanged":
      return garmentExchanged(state, menu, command, now);
    case "undo-garment-refunded":
      return undoGarmentRefunded(state, command);
    case "undo-garment-exchanged":
      return undoGarmentExchanged(state, menu, command);
    case "bring-rack":
      return rackBrought(command);
    case "unracked":
      return unracked(state, command);
    case "left-out":
      return leftOut(state, menu, command);
    case "given-back":
    case "undo-given-back":
      return givenBack(state, command);
    case "taken-instead":
      return takenInstead(state, menu, command);
    case "note-told":
      return noteTold(state, command.number, command.how);
    case "float-set":
    case "paid-out":
      return accept(command);
    case "drawer-counted":
      return drawerCounted(state, command, now);
    case "close-day":
    case "reopen-day":
    case "set-costs":
    case "tell-crowd":
    case "count-passers-by":
    case "take-lessons":
      return account(state, command, now);
    case "pause":
      return state.status.paused === null ? accept({ type: "paused", reason: command.reason }) : accept();
    case "resume":
      return resume(state, now);
    default:
      return command satisfies never;
  }
}

/** Records a delivery result of a ready order's text, if it is another than before. */
function noteTold(state: StallState, number: number, how: "delivered" | "failed"): Decision {
  const order = state.order(number);
  const news = order !== undefined && stageOf(order) === "ready" && order.told !== how;
  return news ? accept({ type: "told", number, how }) : accept();
}

/** Ends the crew's pause: every promised time moves by as long as pressing was stopped. */
function resume(state: StallState, now: Instant): Decision {
  const { paused, fairStop = null } = state.status;
  if (paused === null) return accept();
  return accept({ type: "resumed" }, ...requoted(state, { paused: null, fairStop }, now));
}

/** What has fallen due by now: holds nobody confirmed, orders nobody paid, last orders, reserves of silent presses. */
export function overdue(state: StallState, now: Instant): readonly StallEvent[] {
  const events: StallEvent[] = [];
  for (const { at, key } of state.orderIndex.holds) {
    if (at > now) break;
    const customer = state.holds.get(key)?.customer;
    if (customer !== undefined) events.push({ type: "released", customer, reason: "expired" });
  }
  const payWithin = (state.menu?.rules.payMinutes ?? 0) * MINUTE;
  for (const { at, key } of state.orderIndex.toPay) {
    if (at + payWithin > now) break;
    events.push({ type: "closed", number: Number(key), as: "dropped" });
  }
  const claimWithin = (state.menu?.rules.claimMinutes ?? 0) * MINUTE;
  for (const { at, key } of state.orderIndex.toClaim) {
    if (at + claimWithin > now) break;
    events.push({ type: "closed", number: Number(key), as: "dropped" });
  }
  const lastOrders = state.menu === null ? null : lastOrdersDue(state, state.menu, now);
  if (lastOrders !== null && lastOrders.at <= now)
    events.push({ type: "last-orders", closes: lastOrders.closes });
  events.push(...silentReserves(state, now));
  return events;
}
