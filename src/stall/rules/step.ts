/** One command from start to finish, in memory: what fell due, the decision, and what follows from it. */

import type { Instant } from "../../time/instants.ts";
import { runningLate } from "../line/lateness.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { StallState } from "../state/state.ts";
import { apply } from "./apply/apply.ts";
import type { Command, Decision } from "./commands.ts";
import { closeNow } from "./decide/closing.ts";
import { decide, overdue } from "./decide/decide.ts";
import { reallocate } from "./reallocate.ts";

/** The orders that end now because their last reserved garment is no longer reserved. */
function closings(state: StallState, events: readonly StallEvent[]): readonly StallEvent[] {
  const { menu } = state;
  if (menu === null) return [];
  const begun = new Set(events.flatMap((event) => (event.type === "pulled" ? [event.number] : [])));
  const moved = events.flatMap((event) => {
    if (event.type === "reserve-let-go") return event.jobs.map(({ number }) => number);
    return event.type === "returned" || event.type === "fell-short" ? [event.number] : [];
  });
  return [...new Set([...begun, ...moved])].flatMap((number) =>
    closeNow(state, menu, number, begun.has(number)),
  );
}

/** Carries out a command. If there are events, the state has changed and its version is one up; without events no journal entry is written. */
export function step(state: StallState, command: Command, now: Instant): Decision {
  const events: StallEvent[] = [];
  const record = (event: StallEvent): void => {
    apply(state, event, now);
    events.push(event);
  };
  if (state.identity !== null) overdue(state, now).forEach(record);
  const decision = decide(state, command, now);
  decision.events.forEach(record);
  closings(state, events).forEach(record);
  reallocate(state, events, record);
  runningLate(state, events, command.type === "tick", now).forEach(record);
  if (events.length > 0) state.version += 1;
  return { events, refusal: decision.refusal };
}
