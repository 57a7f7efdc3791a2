/** The reserve of a press: filling it, asking for it back, and giving it back. */

import { jobId, type PressId } from "../../../model/basics/ids.ts";
import type { Menu, Press } from "../../../model/menu/catalogue.ts";
import type { Instant } from "../../../time/instants.ts";
import { nextJob } from "../../line/next-job.ts";
import { candidate, findPress, taken } from "../../line/press-line.ts";
import {
  expectedSeconds,
  HEARD_EVERY,
  heardAt,
  isOnly,
  reservedFor,
  SILENT_FOR,
  shareOf,
} from "../../line/reserve.ts";
import type { QueuedGarment } from "../../state/order-index.ts";
import { jobIn } from "../../state/orders.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";

const back = ({ number, n }: QueuedGarment): StallEvent => ({ type: "returned", number, n });

/** The garments to reserve now, by the pull rule: what 20 minutes need, or all if no other press can take them. */
function toReserve(state: StallState, menu: Menu, press: Press, now: Instant): StallEvent[] {
  const own = [...reservedFor(state, press.id)];
  const most = shareOf(state, menu, press);
  const enough = (): boolean =>
    !isOnly(menu, press) && expectedSeconds(state, menu, press, own) >= SILENT_FOR / 1000;
  if (own.length >= most || enough()) return [];
  const near = most - own.length + menu.rules.lookAhead;
  const open = state.orderIndex.waiting[press.platen]
    .first(near)
    .map((placed) => candidate(state, menu, placed));
  const events: StallEvent[] = [];
  while (own.length < most && !enough()) {
    const index = nextJob(open, state.press(press.id).heat, menu.rules, now);
    if (index === null) break;
    const { job, events: passed } = taken(open, index);
    const { number, n } = job.placed;
    events.push(...passed, { type: "reserved", number, n, press: press.id });
    own.push(job.placed);
  }
  return events;
}

/** The events when a press's tablet asks for the queue: its contact is recorded, and its reserve fills. */
function heard(state: StallState, menu: Menu, press: Press, now: Instant): readonly StallEvent[] {
  const { downSince, reserves, letGo } = state.press(press.id);
  // Show the tablet the released garments first, so that it does not mix them up with new ones.
  if (downSince !== null || !reserves || letGo !== undefined) return [];
  const stale = reservedFor(state, press.id).length > 0 && now - heardAt(state, press.id) >= HEARD_EVERY;
  return [
    ...(stale ? [{ type: "press-heard", press: press.id } as const] : []),
    ...toReserve(state, menu, press, now),
  ];
}

/** Whether something changes when the tablet of a press asks for the queue now. */
export function hearingChanges(state: StallState, menu: Menu, id: PressId, now: Instant): boolean {
  const press = menu.presses.find((candidate) => candidate.id === id);
  return press !== undefined && heard(state, menu, press, now).length > 0;
}

export function fillReserve(
  state: StallState,
  menu: Menu,
  { press: id }: Of<"fill-reserve">,
  now: Instant,
): Decision {
  const press = findPress(menu, id);
  return !press.ok ? refuse(press.refusal) : accept(...heard(state, menu, press.value, now));
}

/** Reserves garments for a press from now on, or gives all back. Sent by the press's own tablet, so that is confirmed. */
export function setReserve(
  state: StallState,
  menu: Menu,
  { press: id, on }: Of<"set-reserve">,
  now: Instant,
): Decision {
  const press = findPress(menu, id);
  if (!press.ok) return refuse(press.refusal);
  const { downSince, reserves, letGo } = state.press(id);
  if (on && downSince !== null) return refuse({ code: "press-down", press: id });
  const events: StallEvent[] = on === reserves ? [] : [{ type: "reserve-set", press: id, on }];
  if (letGo !== undefined) events.push({ type: "let-go-shown", press: id });
  return on
    ? accept(...events, ...toReserve(state, menu, press.value, now))
    : accept(...events, ...reservedFor(state, id).map(back));
}

/** The tablet of a press confirms that it gives garments back; one that it has taken since stays with it. */
export function reserveReturned(
  state: StallState,
  menu: Menu,
  { press: id, jobs }: Of<"reserve-returned">,
): Decision {
  const press = findPress(menu, id);
  if (!press.ok) return refuse(press.refusal);
  const wanted = new Set(jobs);
  const given = reservedFor(state, id).filter(({ number, n }) => wanted.has(jobId(number, n)));
  return accept(...given.map(back));
}

/** The reserved garments of a press that it was not asked for yet. */
function unasked(state: StallState, press: PressId): readonly QueuedGarment[] {
  return reservedFor(state, press).filter(({ number, n }) => {
    const job = jobIn(state.order(number), n);
    return job?.stage === "reserved" && job.askedBack !== true;
  });
}

const asked = ({ number, n }: QueuedGarment): StallEvent => ({ type: "reserve-asked-back", number, n });

/** Asks a press for its whole reserve; its tablet gives back what it has not taken. */
export function reserveAskedBack(
  state: StallState,
  menu: Menu,
  { press: id }: Of<"reserve-asked-back">,
): Decision {
  const press = findPress(menu, id);
  return !press.ok ? refuse(press.refusal) : accept(...unasked(state, id).map(asked));
}

/** Asks for half of the longest reserve of the same platen, latest first, because this press would stand idle. */
export function askOthers(state: StallState, menu: Menu, press: Press): readonly StallEvent[] {
  const reserves = menu.presses.flatMap(({ id, platen }) => {
    const has = reservedFor(state, id);
    const waitsForAnswer = unasked(state, id).length < has.length;
    return id === press.id || platen !== press.platen || waitsForAnswer ? [] : [has];
  });
  const longest = reserves.reduce((most, one) => (one.length > most.length ? one : most), []);
  return longest.slice(Math.floor(longest.length / 2)).map(asked);
}

/** Asks the presses for an order's reserved garments; empty if there are none. */
export function askForOrder(state: StallState, number: number): readonly StallEvent[] {
  return (state.order(number)?.jobs ?? []).flatMap((job): StallEvent[] =>
    job.stage === "reserved" && job.askedBack !== true
      ? [{ type: "reserve-asked-back", number, n: job.n }]
      : [],
  );
}
