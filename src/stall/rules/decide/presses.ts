/** The presses: what each takes next, and which of them work. */

import { type JobId, jobParts, type PressId } from "../../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../../model/basics/result.ts";
import type { Menu, Press } from "../../../model/menu/catalogue.ts";
import { type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import type { Instant } from "../../../time/instants.ts";
import { tappedAt } from "../../line/late-taps.ts";
import { type Candidate, nextJob } from "../../line/next-job.ts";
import { candidate, findPress, lineToPull } from "../../line/press-line.ts";
import { reservedFor } from "../../line/reserve.ts";
import { settingFor } from "../../state/heating.ts";
import { jobIn, jobOf, lineOf } from "../../state/orders.ts";
import { workClass } from "../../state/pace.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { StallState } from "../../state/state.ts";
import { accept, type Decision, type Of, refuse } from "../commands.ts";
import { askOthers } from "./reserving.ts";

/** Since when the press was free for a garment that was waiting; now, if the press did other things since. */
function freeFor(
  state: StallState,
  press: PressId,
  { order, placed, handlingSeconds }: Candidate,
  now: Instant,
): Instant {
  const freed = Math.max(state.pace.freed[press] ?? now, jobOf(order, placed.n).since);
  return now - freed <= handlingSeconds * 1000 ? Math.min(freed, now) : now;
}

/** The garment that a tablet took from its reserve, or why it may not. */
function named(
  state: StallState,
  menu: Menu,
  { id: press, platen }: Press,
  wanted: JobId,
  at: Instant | undefined,
): Result<Candidate, Refusal> {
  const { number, n } = jobParts(wanted);
  const order = state.order(number);
  const job = jobIn(order, n);
  const needs = `reserved for press ${press}`;
  if (order === undefined || job === undefined)
    return refused(wrongStage(`garment ${wanted}`, "elsewhere", needs));
  const line = lineOf(order, job);
  const isOwn = job.stage === "reserved" && job.press === press;
  // The tablet took it before it went back to the line, and nobody else has it: it is on this press.
  const wasTaken = job.stage === "waiting" && line.platen === platen && at !== undefined && at < job.since;
  if (isOwn || wasTaken)
    return ok(candidate(state, menu, { turn: job.turn, number, n, work: workClass(line) }));
  const isOver = job.stage === "pressed" || job.stage === "short";
  const stage = isOver ? job.stage : "elsewhere";
  return refused(wrongStage(`garment ${wanted}`, stage, needs));
}

/**
 * Gives a press its next garment. A press that already has one keeps it, so that a second tablet can take
 * over from a first one; nothing waiting is no refusal.
 */
export function pull(
  state: StallState,
  menu: Menu,
  { press: id, job: wanted, at }: Of<"pull">,
  now: Instant,
): Decision {
  const found = findPress(menu, id);
  if (!found.ok) return refuse(found.refusal);
  const press = found.value;
  const { downSince, heat } = state.press(id);
  if (downSince !== null) return refuse({ code: "press-down", press: id });
  if (state.orderIndex.onPress.has(id)) return accept();
  const { fairStop } = state.status;
  // A garment that its tablet took before it knew is on the press.
  if (fairStop?.pressing === true && (at === undefined || at >= fairStop.since))
    return refuse({ code: "fair-stopped", reason: fairStop.reason });
  const line = lineToPull(state, menu, press);
  const next = nextJob(line, heat, menu.rules, now) ?? line.length;
  const chosen = wanted === undefined ? ok(line[next]) : named(state, menu, press, wanted, at);
  if (!chosen.ok) return refuse(chosen.refusal);
  const job = chosen.value;
  if (job === undefined) return accept(...askOthers(state, menu, press));
  const { number, n } = job.placed;
  const { since } = jobOf(job.order, n);
  // Only a garment taken by name was taken when it was tapped: any other is taken when the stall answers.
  const late = wanted === undefined ? {} : tappedAt(at, Math.max(since, state.pace.freed[id] ?? since), now);
  const taking = late.tappedAt ?? now;
  const set = settingFor(heat, job.fahrenheit, taking);
  const countsFrom = freeFor(state, id, job, taking);
  const passed = wanted === undefined ? line.slice(0, next) : [];
  const overtaken = passed.map(
    ({ placed }): StallEvent => ({ type: "overtaken", number: placed.number, n: placed.n }),
  );
  return accept(...overtaken, {
    type: "pulled",
    number,
    n,
    press: id,
    countsFrom,
    set,
    ...late,
  });
}

/** A press out of order gives back all it has: what lay on it goes to the next press that fits. */
export function pressDown(state: StallState, menu: Menu, { press: id }: Of<"press-down">): Decision {
  const press = findPress(menu, id);
  if (!press.ok) return refuse(press.refusal);
  if (state.press(id).downSince !== null) return accept();
  const on = state.orderIndex.onPress.get(id);
  const has = [...(on === undefined ? [] : [on]), ...reservedFor(state, id)];
  const back = has.map(({ number, n }): StallEvent => ({ type: "returned", number, n }));
  return accept({ type: "press-down", press: id }, ...back);
}

export function pressUp(state: StallState, menu: Menu, { press: id }: Of<"press-up">): Decision {
  const press = findPress(menu, id);
  if (!press.ok) return refuse(press.refusal);
  return state.press(id).downSince === null ? accept() : accept({ type: "press-up", press: id });
}

export function setHands(state: StallState, { hands }: Of<"set-hands">): Decision {
  return hands === state.status.hands ? accept() : accept({ type: "hands-set", hands });
}
