/** Closing a day's account, opening it again, and what only people know of a day: costs and crowds. */

import { wrongStage } from "../../../model/orders/refusal.ts";
import type { Instant } from "../../../time/instants.ts";
import { expectedCash } from "../../day/drawer.ts";
import { isClosed } from "../../state/account.ts";
import { accountDay } from "../../state/account-day.ts";
import { NO_DRAWER } from "../../state/day-rows.ts";
import type { StallState } from "../../state/state.ts";
import type { AccountCommand, DrawerCommand } from "../account-commands.ts";
import { accept, type Decision, refuse } from "../commands.ts";
import { blocksLetGo } from "./numbering.ts";

type Of<T extends AccountCommand["type"]> = Extract<AccountCommand, { readonly type: T }>;

/** A day that has no entry yet and is not today: there is nothing to close. */
const unknown = (state: StallState, day: string, now: Instant): boolean =>
  day !== accountDay(state, now) && state.dayTotals.get(day) === undefined;

export function account(state: StallState, command: AccountCommand, now: Instant): Decision {
  switch (command.type) {
    case "close-day":
      return closeDay(state, command, now);
    case "reopen-day":
      return reopenDay(state, command);
    case "set-costs":
      return unknown(state, command.day, now)
        ? refuse(wrongStage(`the day ${command.day}`, "without any entry", "a day of this stall"))
        : accept({ type: "costs-set", day: command.day, costs: command.costs });
    case "tell-crowd":
      return unknown(state, command.day, now)
        ? refuse(wrongStage(`the day ${command.day}`, "without any entry", "a day of this stall"))
        : accept({ type: "crowd-told", day: command.day, crowd: command.crowd });
    case "count-passers-by":
      return accept({ type: "passers-by-counted", people: command.people, seconds: command.seconds });
    case "take-lessons":
      return accept({ type: "lessons-taken", lessons: command.lessons });
    default:
      return command satisfies never;
  }
}

/**
 * Closes a day and those before it. Open orders go on into the next day, and the number blocks of counters are
 * released.
 */
function closeDay(state: StallState, { day }: Of<"close-day">, now: Instant): Decision {
  if (isClosed(state.account, day)) return refuse(wrongStage(`the day ${day}`, "closed", "open"));
  if (unknown(state, day, now) || day > accountDay(state, now))
    return refuse(wrongStage(`the day ${day}`, "without any entry", "a day of this stall"));
  return accept({ type: "day-closed", day }, ...blocksLetGo(state));
}

function reopenDay(state: StallState, { day, reason }: Of<"reopen-day">): Decision {
  if (!isClosed(state.account, day) || state.dayTotals.get(day) === undefined)
    return refuse(wrongStage(`the day ${day}`, "open", "closed"));
  const { reopened } = state.account;
  if (reopened !== null) return refuse(wrongStage(`the day ${reopened}`, "still reopened", "closed first"));
  return accept({ type: "day-reopened", day, reason });
}

/** The cash is counted, beside what should be there at that moment. */
export function drawerCounted(
  state: StallState,
  { counted, handOver }: Extract<DrawerCommand, { readonly type: "drawer-counted" }>,
  now: Instant,
): Decision {
  const drawer = state.dayTotals.get(accountDay(state, now))?.drawer ?? NO_DRAWER;
  return accept({ type: "drawer-counted", counted, expected: expectedCash(drawer), handOver });
}
