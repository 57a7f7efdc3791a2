/** The presses: what each takes next, what it keeps aside, and which of them work. */

import { type JobId, jobParts, type PressId } from "../../../model/basics/ids.ts";
import type { Menu, Press } from "../../../model/menu/catalogue.ts";
import { type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import type { Instant } from "../../../time/instants.ts";
import { tappedAt } from "../../line/late-taps.ts";
import { type Candidate, nextJob } from "../../line/next-job.ts";
import type { PlatenHeat, StallEvent } from "../../state/facts.ts";
import { fahrenheitOf, settingFor } from "../../state/heating.ts";
import type { Placed } from "../../state/order-index.ts";
import { jobOf, lineOf } from "../../state/orders.ts";
import { expected } from "../../state/pace.ts";
import type { StallState } from "../../state/state.ts";
import { accept, type Command, type Decision, refuse } from "../commands.ts";

type Of<T extends Command["type"]> = Extract<Command, { readonly type: T }>;

/** A tablet without signal works off at most this many. */
const ASIDE_MOST = 3;

function find(menu: Menu, id: PressId): Press | Refusal {
  return (
    menu.presses.find((candidate) => candidate.id === id) ?? ({ code: "no-such-press", press: id } as const)
  );
}

function candidate(state: StallState, menu: Menu, placed: Placed): Candidate {
  const order = state.order(placed.number);
  if (order === undefined) throw new Error(`order ${placed.number} is in line but not open`);
  const job = jobOf(order, placed.n);
  return {
    placed,
    order,
    fahrenheit: fahrenheitOf(menu, lineOf(order, job).design),
    overtaken: job.stage === "waiting" || job.stage === "aside" ? job.overtaken : 0,
    handlingSeconds: expected(menu, state.pace, placed.work).mean,
  };
}

/** The head of what a press can take: its platen's line and what it keeps aside itself, by turn. */
function lineFor(state: StallState, menu: Menu, press: Press): Candidate[] {
  const own = [...(state.orderIndex.aside.get(press.id) ?? [])];
  const open = state.orderIndex.waiting[press.platen].first(menu.rules.lookAhead + 1 + ASIDE_MOST);
  return [...own, ...open]
    .sort((one, other) => one.turn - other.turn)
    .map((placed) => candidate(state, menu, placed));
}

/** Takes a garment out of the line; those passed over are one up, and each of that is an event. */
function taken(line: Candidate[], index: number): { readonly job: Candidate; readonly events: StallEvent[] } {
  const events: StallEvent[] = [];
  for (const [place, passed] of line.slice(0, index).entries()) {
    line[place] = { ...passed, overtaken: passed.overtaken + 1 };
    events.push({ type: "overtaken", number: passed.placed.number, n: passed.placed.n });
  }
  const [job] = line.splice(index, 1);
  if (job === undefined) throw new Error("the line is shorter than the place chosen in it");
  return { job, events };
}

/**
 * What a press puts aside beyond what it has: the next garments by the same rule, and never more than its
 * share of the line, so that no other press stands idle for it.
 */
function toPutAside(
  state: StallState,
  menu: Menu,
  press: Press,
  line: readonly Candidate[],
  keeps: number,
  heat: PlatenHeat | null,
  now: Instant,
): StallEvent[] {
  const waiting = state.orderIndex.waiting[press.platen];
  const open = line.filter(({ placed }) => waiting.has(placed));
  let has = line.length - open.length;
  const working = menu.presses.filter(
    ({ id, platen }) => platen === press.platen && state.press(id).downSince === null,
  ).length;
  const most = Math.min(keeps, Math.floor((waiting.length + has) / Math.max(1, working)));
  const events: StallEvent[] = [];
  while (has < most) {
    const index = nextJob(open, heat, menu.rules, now);
    if (index === null) break;
    const { job, events: passed } = taken(open, index);
    events.push(...passed, {
      type: "put-aside",
      number: job.placed.number,
      n: job.placed.n,
      press: press.id,
    });
    has += 1;
  }
  return events;
}

/** Since when the press was free for a garment that waited already; now, where it did other things meanwhile. */
function freeFor(
  state: StallState,
  press: PressId,
  { order, placed, handlingSeconds }: Candidate,
  now: Instant,
): Instant {
  const freed = Math.max(state.pace.freed[press] ?? now, jobOf(order, placed.n).since);
  return now - freed <= handlingSeconds * 1000 ? Math.min(freed, now) : now;
}

/** Where a garment that a tablet took from what is kept aside stands in the line, or why it may not. */
function named(
  line: readonly Candidate[],
  press: PressId,
  job: JobId,
  at: Instant | undefined,
): number | Refusal {
  const { number, n } = jobParts(job);
  const index = line.findIndex(({ placed }) => placed.number === number && placed.n === n);
  const found = line[index];
  if (found === undefined) return wrongStage(`garment ${job}`, "elsewhere", `aside for press ${press}`);
  const { stage, since } = jobOf(found.order, n);
  // Taken before it went back to the line, and nobody else has it: it lies on this press.
  const wasTaken = stage === "waiting" && at !== undefined && at < since;
  return stage === "aside" || wasTaken
    ? index
    : wrongStage(`garment ${job}`, stage, `aside for press ${press}`);
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
  const press = find(menu, id);
  if ("code" in press) return refuse(press);
  const { downSince, heat, keepsAside } = state.press(id);
  if (downSince !== null) return refuse({ code: "press-down", press: id });
  if (state.orderIndex.onPress.has(id)) return accept();
  const line = lineFor(state, menu, press);
  const index = wanted === undefined ? nextJob(line, heat, menu.rules, now) : named(line, id, wanted, at);
  if (index === null) return accept();
  if (typeof index !== "number") return refuse(index);
  const { job, events: passed } = taken(line, index);
  // Whoever was passed over by a garment kept aside was so when it was put there.
  const events = wanted === undefined ? passed : [];
  const { number, n } = job.placed;
  const { since } = jobOf(job.order, n);
  // Only a garment taken by name was taken when it was tapped: any other is taken when the stall answers.
  const late = wanted === undefined ? {} : tappedAt(at, Math.max(since, state.pace.freed[id] ?? since), now);
  const taking = late.tappedAt ?? now;
  const set = settingFor(heat, job.fahrenheit, taking);
  const countsFrom = freeFor(state, id, job, taking);
  const aside = toPutAside(state, menu, press, line, keepsAside, set ?? heat, now);
  return accept(...events, { type: "pulled", number, n, press: id, countsFrom, set, ...late }, ...aside);
}

export function keepAside(
  state: StallState,
  menu: Menu,
  { press: id, jobs }: Of<"keep-aside">,
  now: Instant,
): Decision {
  const press = find(menu, id);
  if ("code" in press) return refuse(press);
  const { downSince, heat, keepsAside } = state.press(id);
  if (downSince !== null) return refuse({ code: "press-down", press: id });
  const own = [...(state.orderIndex.aside.get(id) ?? [])];
  const set: StallEvent[] = jobs === keepsAside ? [] : [{ type: "aside-set", press: id, jobs }];
  const back = own.slice(jobs).map(({ number, n }): StallEvent => ({ type: "returned", number, n }));
  if (back.length > 0) return accept(...set, ...back);
  const line = lineFor(state, menu, press);
  return accept(...set, ...toPutAside(state, menu, press, line, jobs, heat, now));
}

/** A press out of order gives back all it has: what lay on it goes to the next press that fits. */
export function pressDown(state: StallState, menu: Menu, { press: id }: Of<"press-down">): Decision {
  const press = find(menu, id);
  if ("code" in press) return refuse(press);
  if (state.press(id).downSince !== null) return accept();
  const on = state.orderIndex.onPress.get(id);
  const has = [...(on === undefined ? [] : [on]), ...(state.orderIndex.aside.get(id) ?? [])];
  const back = has.map(({ number, n }): StallEvent => ({ type: "returned", number, n }));
  return accept({ type: "press-down", press: id }, ...back);
}

export function pressUp(state: StallState, menu: Menu, { press: id }: Of<"press-up">): Decision {
  const press = find(menu, id);
  if ("code" in press) return refuse(press);
  return state.press(id).downSince === null ? accept() : accept({ type: "press-up", press: id });
}

export function setHands(state: StallState, { hands }: Of<"set-hands">): Decision {
  return hands === state.desk.hands ? accept() : accept({ type: "hands-set", hands });
}
