import { mean, sampleQuantiles } from "../../maths/sample.ts";
import type { Combination, HourFigures, PlatenFigures } from "../../model/planning/presses.ts";
import type { PressDay, PressSteps } from "./press-day.ts";
import { PLATENS } from "./press-day.ts";
import type { Lived } from "./press-line.ts";

/** One combination of presses and people, simulated over all scenarios. */
export type PressRun = {
  readonly presses: readonly number[];
  readonly people: number;
  readonly lived: readonly Lived[];
};

export type PressSums = {
  readonly days: readonly PressDay[];
  readonly table: readonly PressSteps[];
  readonly closesAt: number;
};

const platenOf = ({ table }: PressSums, day: PressDay, order: number): number =>
  table[day.steps[order] ?? 0]?.platen ?? 0;

const counts = (presses: readonly number[], platen: number): number =>
  presses.filter((each) => each === platen).length;

/** The figures of one platen kind over all days; the caller adds the formula's part. */
export function platenFigures(
  run: PressRun,
  sums: PressSums,
  platen: number,
): Omit<PlatenFigures, "capacityPerHour" | "firstAnswer"> {
  const waits: number[] = [];
  let asked = 0;
  let handed = 0;
  let walked = 0;
  let orders = 0;
  let open = 0;
  const hours = new Map<number, number>();
  sums.days.forEach((day, index) => {
    const lived = run.lived[index];
    if (lived === undefined) throw new Error("platenFigures: a day not lived");
    open += Math.max(sums.closesAt, lived.lastAt);
    for (let order = 0; order < day.at.length; order++) {
      if (platenOf(sums, day, order) !== platen) continue;
      const garments = day.garments[order] ?? 0;
      const wait = lived.wait[order] ?? Number.NaN;
      asked += garments;
      orders++;
      if (Number.isNaN(wait)) walked++;
      else {
        waits.push(wait);
        handed += garments;
        for (let nth = 0; nth < garments; nth++) {
          const hour = Math.floor((lived.handedAt[(day.first[order] ?? 0) + nth] ?? 0) / 3600);
          hours.set(hour, (hours.get(hour) ?? 0) + 1);
        }
      }
    }
  });
  const days = sums.days.length;
  const presses = counts(run.presses, platen);
  const held = run.lived.reduce((sum, lived) => sum + (lived.held[platen] ?? 0), 0);
  return {
    platen: PLATENS[platen] ?? "flat",
    presses,
    garmentsPerHour: Math.max(0, ...hours.values()) / days,
    use: open === 0 ? 0 : held / (presses * open),
    ...waitFigures(waits),
    asked: asked / days,
    handed: handed / days,
    spoiled: run.lived.reduce((sum, lived) => sum + (lived.spoiled[platen] ?? 0), 0) / days,
    walked: walked / days,
    walkedShare: orders === 0 ? 0 : walked / orders,
  };
}

function waitFigures(
  waits: readonly number[],
): Pick<PlatenFigures, "meanWaitSeconds" | "medianWaitSeconds" | "ninetiethWaitSeconds"> {
  if (waits.length === 0)
    return { meanWaitSeconds: null, medianWaitSeconds: null, ninetiethWaitSeconds: null };
  const [median = 0, ninetieth = 0] = sampleQuantiles(waits, [0.5, 0.9]);
  return { meanWaitSeconds: mean(waits), medianWaitSeconds: median, ninetiethWaitSeconds: ninetieth };
}

/** The hours of the day, from opening until the last garment, by platen kind. */
export function hourFigures(
  run: PressRun,
  sums: PressSums,
  platen: number,
  capacityPerHour: number,
): HourFigures[] {
  const last = Math.max(0, ...run.lived.map(({ lastAt }) => lastAt), sums.closesAt - 1);
  const rows = Array.from({ length: Math.floor(last / 3600) + 1 }, () => ({
    asked: 0,
    handed: 0,
    walked: 0,
    waits: [] as number[],
  }));
  const at = (seconds: number) => rows[Math.floor(seconds / 3600)];
  sums.days.forEach((day, index) => {
    const lived = run.lived[index];
    for (let order = 0; order < day.at.length; order++) {
      if (platenOf(sums, day, order) !== platen) continue;
      const row = at(day.at[order] ?? 0);
      if (row === undefined || lived === undefined) continue;
      row.asked += day.garments[order] ?? 0;
      const wait = lived.wait[order] ?? Number.NaN;
      if (Number.isNaN(wait)) {
        row.walked++;
        continue;
      }
      row.waits.push(wait);
      for (let nth = 0; nth < (day.garments[order] ?? 0); nth++) {
        const there = at(lived.handedAt[(day.first[order] ?? 0) + nth] ?? 0);
        if (there !== undefined) there.handed++;
      }
    }
  });
  const days = sums.days.length;
  return rows.map((row, hour) => {
    const { medianWaitSeconds, ninetiethWaitSeconds } = waitFigures(row.waits);
    return {
      platen: PLATENS[platen] ?? "flat",
      fromSeconds: hour * 3600,
      asked: row.asked / days,
      handed: row.handed / days,
      walked: row.walked / days,
      medianWaitSeconds,
      ninetiethWaitSeconds,
      capacityPerHour,
    };
  });
}

/** How long after closing the last garment is pressed. */
export function lateness(
  run: PressRun,
  closesAt: number,
): Pick<Combination, "lateMedianSeconds" | "lateNinetiethSeconds"> {
  const late = run.lived.map(({ lastAt }) => Math.max(0, lastAt - closesAt));
  const [median = 0, ninetieth = 0] = sampleQuantiles(late, [0.5, 0.9]);
  return { lateMedianSeconds: median, lateNinetiethSeconds: ninetieth };
}

/** Share of the people's time that their hands are at work. */
export function handsUse(run: PressRun, closesAt: number): number {
  const there = run.lived.reduce((sum, { lastAt }) => sum + Math.max(closesAt, lastAt) * run.people, 0);
  return there === 0 ? 0 : run.lived.reduce((sum, { hands }) => sum + hands, 0) / there;
}
