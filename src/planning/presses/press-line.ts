import { apart, attention, handSeconds, openSeconds, pressSeconds } from "./press-attention.ts";
import type { PressDay, PressSteps } from "./press-day.ts";

/** The people and presses of one day, and how they work. */
export type PressCrew = {
  /** For each press, its platen kind. */
  readonly presses: readonly number[];
  readonly people: number;
  /** Presses open automatically after the dwell. */
  readonly opensItself: boolean;
  readonly heatingCelsiusPerSecond: number;
  readonly coolingCelsiusPerSecond: number;
  readonly holdBackSeconds: number;
};

export type Lived = {
  /** Per order: seconds from asking to the last garment; NaN for a customer who walked. */
  readonly wait: Float64Array;
  /** Per garment: when it was handed over; NaN if never asked for in the end. */
  readonly handedAt: Float64Array;
  /** Per platen kind: seconds its presses were held, and garments spoiled. */
  readonly held: readonly number[];
  readonly spoiled: readonly number[];
  /** Seconds that hands were at work. */
  readonly hands: number;
  readonly lastAt: number;
};

type Job = { readonly order: number; readonly garment: number; readonly steps: number; spoilsLeft: number };

type Press = {
  readonly platen: number;
  set: number;
  /** Since when it is at these settings. */
  setSince: number;
  state: "free" | "changing" | "loading" | "closed" | "opening";
  /** When a change of heat or a dwell is over. */
  until: number;
  /** Who closed it and must open it; -1 for nobody. */
  by: number;
  job: Job | null;
  dwell: number;
  heldSince: number;
};

type Task =
  | { readonly kind: "load" | "open"; readonly press: Press }
  | { readonly kind: "fold"; readonly job: Job };

/** How far down the line a press looks for a job with its own settings. */
const LOOK_AHEAD = 30;

/**
 * Simulates one day, event by event. Hands load (with pre-press and placing), peel, unload and fold; a press is held
 * from loading to unloading. Whoever closes a press opens it, and until then begins only work that is over by then,
 * since a closed press is never left. Jobs go first come, first served, but those with a press's settings may overtake
 * for `holdBackSeconds`, or while another press serves the earlier one's settings, since changing the heat takes
 * minutes. A spoiled garment goes back to the head of its line. A customer quoted a wait longer than their patience
 * walks; the quote follows from the work ahead and the pace of presses and hands.
 */
export function pressDay(day: PressDay, table: readonly PressSteps[], crew: PressCrew): Lived {
  const orders = day.at.length;
  const wait = new Float64Array(orders).fill(Number.NaN);
  const handedAt = new Float64Array(day.factor.length).fill(Number.NaN);
  const left = Int32Array.from(day.garments);
  const lines: Job[][] = [[], []];
  const inWork = [0, 0];
  const held = [0, 0];
  const spoiled = [0, 0];
  const pile: Job[] = [];
  const presses = crew.presses.map((platen, index) => newPress(platen, firstSet(platen, index, crew, table)));
  const tasks: (Task | null)[] = new Array<Task | null>(crew.people).fill(null);
  const busyUntil = new Float64Array(crew.people);
  let hands = 0;
  let handsAhead = 0;
  let now = 0;
  let next = 0;
  let lastAt = 0;

  const row = (index: number): PressSteps => table[index] as PressSteps; // drawDay only gives indexes of this table
  const stepsOf = (job: Job): PressSteps => row(job.steps);
  const pace = (job: Job): number => day.factor[job.garment] ?? 1;

  const arrive = (order: number): void => {
    const index = day.steps[order] ?? 0;
    const steps = row(index);
    const garments = day.garments[order] ?? 0;
    const ahead = (lines[steps.platen]?.length ?? 0) + (inWork[steps.platen] ?? 0);
    const count = crew.presses.filter((platen) => platen === steps.platen).length;
    const byPress = ((ahead + garments) * pressSeconds(steps)) / count;
    const byHands = (handsAhead + garments * handSeconds(steps, crew.opensItself)) / crew.people;
    const told = Math.max(byPress, byHands, pressSeconds(steps) + steps.fold);
    if (told > (day.patience[order] ?? Number.POSITIVE_INFINITY)) return;
    handsAhead += garments * handSeconds(steps, crew.opensItself);
    const first = day.first[order] ?? 0;
    for (let garment = first; garment < first + garments; garment++)
      lines[steps.platen]?.push({ order, garment, steps: index, spoilsLeft: day.spoils[garment] ?? 0 });
  };

  /** The place in line of the job a free press would take next, or -1. */
  const choose = (press: Press): number => {
    const line = lines[press.platen] ?? [];
    const head = line[0];
    if (head === undefined) return -1;
    if (head.steps === press.set || sameHeat(head.steps, press.set)) return 0;
    const minded = presses.some(
      (other) => other !== press && other.platen === press.platen && sameHeat(other.set, head.steps),
    );
    const passedOver = now - Math.max(day.at[head.order] ?? 0, press.setSince);
    if (!minded && passedOver >= crew.holdBackSeconds) return 0;
    const own = line.slice(0, LOOK_AHEAD).findIndex((job) => job.steps === press.set);
    return Math.max(own, 0);
  };
  const sameHeat = (a: number, b: number): boolean => table[a]?.celsius === table[b]?.celsius;

  /** Starts a change of heat if the next job needs one; of the presses free and already right, the earliest job's. */
  const freePress = (): Press | null => {
    let earliest: Press | null = null;
    let asked = Number.POSITIVE_INFINITY;
    for (const press of presses) {
      if (press.state !== "free") continue;
      const place = choose(press);
      const job = lines[press.platen]?.[place];
      if (job === undefined) continue;
      if (sameHeat(job.steps, press.set)) {
        const at = day.at[job.order] ?? 0;
        if (at < asked) {
          earliest = press;
          asked = at;
        }
        continue;
      }
      const coming = presses.filter((other) => other.state === "changing" && other.set === job.steps).length;
      const wanting = (lines[press.platen] ?? []).filter(({ steps }) => steps === job.steps).length;
      if (coming >= wanting) continue;
      const change = stepsOf(job).celsius - (table[press.set]?.celsius ?? 0);
      press.until =
        now + (change > 0 ? change / crew.heatingCelsiusPerSecond : -change / crew.coolingCelsiusPerSecond);
      press.set = job.steps;
      press.state = "changing";
      press.heldSince = now;
    }
    return earliest;
  };

  const begin = (person: number, task: Task, seconds: number): void => {
    tasks[person] = task;
    busyUntil[person] = now + seconds;
    hands += seconds;
  };

  /** Gives an idle person something to do; false when there is nothing they may begin. */
  const dispatch = (person: number): boolean => {
    let due: Press | null = null;
    for (const press of presses)
      if (press.state === "closed" && press.by === person && (due === null || press.until < due.until))
        due = press;
    const waiting =
      due ?? presses.find((press) => press.state === "closed" && press.by < 0 && press.until <= now) ?? null;
    if (waiting?.job && waiting.until <= now) {
      waiting.state = "opening";
      const seconds = openSeconds(stepsOf(waiting.job), waiting.dwell);
      begin(person, { kind: "open", press: waiting }, seconds * pace(waiting.job));
      return true;
    }
    const limit = due === null ? Number.POSITIVE_INFINITY : due.until - now;
    const press = freePress();
    const place = press === null ? -1 : choose(press);
    const job = press === null ? undefined : lines[press.platen]?.[place];
    const loadSeconds = job === undefined ? 0 : stepsOf(job).load * pace(job);
    const mayLoad = job !== undefined && loadSeconds <= limit && opensInTime(person, job, loadSeconds);
    const folding = pile[0];
    if (folding !== undefined) {
      const seconds = stepsOf(folding).fold * pace(folding);
      const laterFits = job !== undefined && seconds <= (stepsOf(job).dwells[0] ?? 0);
      if (seconds <= limit && (!mayLoad || !laterFits || pile.length > crew.people)) {
        pile.shift();
        begin(person, { kind: "fold", job: folding }, seconds);
        return true;
      }
    }
    if (!mayLoad || press === null) return false;
    lines[press.platen]?.splice(place, 1);
    inWork[press.platen] = (inWork[press.platen] ?? 0) + 1;
    Object.assign(press, { state: "loading", job, set: job.steps, dwell: 0, by: person, heldSince: now });
    begin(person, { kind: "load", press }, loadSeconds);
    return true;
  };

  /** Whether a press loaded now would need its person only at times when no other press they closed does. */
  const opensInTime = (person: number, job: Job, loadSeconds: number): boolean => {
    const own = attention(stepsOf(job), pace(job), 0, now + loadSeconds + (stepsOf(job).dwells[0] ?? 0));
    return presses.every((press) => {
      if (press.state !== "closed" || press.by !== person || press.job === null) return true;
      return apart(own, attention(stepsOf(press.job), pace(press.job), press.dwell, press.until));
    });
  };

  const close = (press: Press, person: number, dwell: number): void => {
    press.state = "closed";
    press.dwell = dwell;
    press.by = crew.opensItself ? -1 : person;
    press.until = now + (press.job === null ? 0 : (stepsOf(press.job).dwells[dwell] ?? 0));
  };

  const handOver = (job: Job): void => {
    const steps = stepsOf(job);
    handedAt[job.garment] = now;
    handsAhead -= handSeconds(steps, crew.opensItself);
    inWork[steps.platen] = (inWork[steps.platen] ?? 0) - 1;
    left[job.order] = (left[job.order] ?? 0) - 1;
    if (left[job.order] === 0) wait[job.order] = now - (day.at[job.order] ?? 0);
    lastAt = now;
  };

  const takeOff = (press: Press, job: Job): void => {
    held[press.platen] = (held[press.platen] ?? 0) + now - press.heldSince;
    Object.assign(press, { state: "free", job: null, by: -1 });
    if (job.spoilsLeft === 0) {
      if (stepsOf(job).fold === 0) handOver(job);
      else pile.push(job);
      return;
    }
    job.spoilsLeft--;
    spoiled[press.platen] = (spoiled[press.platen] ?? 0) + 1;
    inWork[press.platen] = (inWork[press.platen] ?? 0) - 1;
    lines[press.platen]?.unshift(job);
  };

  const finish = (person: number, task: Task): void => {
    tasks[person] = null;
    if (task.kind === "fold") handOver(task.job);
    else if (task.kind === "load") close(task.press, person, 0);
    else if (task.press.job !== null) {
      const more = task.press.dwell + 1 < stepsOf(task.press.job).dwells.length;
      if (more) close(task.press, person, task.press.dwell + 1);
      else takeOff(task.press, task.press.job);
    }
  };

  for (;;) {
    for (let person = 0; person < crew.people; person++) if (tasks[person] === null) dispatch(person);
    let then = day.at[next] ?? Number.POSITIVE_INFINITY;
    tasks.forEach((task, person) => {
      if (task !== null) then = Math.min(then, busyUntil[person] ?? then);
    });
    for (const { state, until } of presses)
      if (state === "changing" || (state === "closed" && until > now)) then = Math.min(then, until);
    if (then === Number.POSITIVE_INFINITY) break;
    now = then;
    for (const press of presses)
      if (press.state === "changing" && press.until <= now) {
        press.state = "free";
        press.setSince = now;
        held[press.platen] = (held[press.platen] ?? 0) + now - press.heldSince;
      }
    tasks.forEach((task, person) => {
      if (task !== null && (busyUntil[person] ?? 0) <= now) finish(person, task);
    });
    while (next < orders && (day.at[next] ?? 0) <= now) arrive(next++);
  }
  return { wait, handedAt, held, spoiled, hands, lastAt };
}

const newPress = (platen: number, set: number): Press => ({
  platen,
  set,
  setSince: 0,
  state: "free",
  until: 0,
  by: -1,
  job: null,
  dwell: 0,
  heldSince: 0,
});

/** Presses of one kind start the day at that kind's settings in turn. */
function firstSet(platen: number, index: number, crew: PressCrew, table: readonly PressSteps[]): number {
  const rows = [...table.keys()].filter((row) => table[row]?.platen === platen);
  const nth = crew.presses.slice(0, index).filter((other) => other === platen).length;
  return rows[nth % rows.length] ?? 0;
}
