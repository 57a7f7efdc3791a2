/** How long this stall's garments take on a press: learnt from what was timed, seeded by the menu. */

import type { Moments } from "../../maths/lognormal.ts";
import type { PressId } from "../../model/basics/ids.ts";
import type { Menu, Platen, TransferKind } from "../../model/menu/catalogue.ts";
import type { Instant } from "../../time/instants.ts";
import { heatingSeed } from "./heating.ts";

type PlainWork = `${Platen}/${TransferKind}`;
/** A kind of work; behind the star how many times as long it takes as the plain kind. */
export type WorkClass = PlainWork | `${PlainWork}*${number}`;

const plainWork = ({ platen, kind }: Worked): PlainWork => `${platen}/${kind}`;
type Worked = { readonly platen: Platen; readonly kind: TransferKind; readonly effort?: number | undefined };

export const workClass = ({ effort = 1, ...line }: Worked): WorkClass =>
  effort === 1 ? plainWork(line) : `${plainWork(line)}*${effort}`;

/** The plain kind of some work, and how many times as long it takes. */
function takenApart(work: WorkClass): { readonly plain: PlainWork; readonly effort: number } {
  const [plain, effort = "1"] = work.split("*");
  return { plain: plain as PlainWork, effort: Number(effort) }; // as workClass puts it together
}

export const platenOf = (work: WorkClass): Platen => (work.startsWith("cap/") ? "cap" : "flat");

/** A running count, mean and sum of squared differences from it (Welford's recurrence). */
type Timed = { readonly count: number; readonly mean: number; readonly squares: number };

export type Pace = {
  readonly work: Readonly<Partial<Record<PlainWork, Timed>>>;
  /** Seconds a platen took to change its temperature, over all garments, those that needed none too. */
  readonly heating: Readonly<Partial<Record<Platen, Timed>>>;
  readonly spoiled: number;
  /** When each press was last done with a garment. */
  readonly freed: Readonly<Partial<Record<PressId, Instant>>>;
};

export const NOTHING_TIMED: Pace = { work: {}, heating: {}, spoiled: 0, freed: {} };
const UNTIMED: Timed = { count: 0, mean: 0, squares: 0 };

/** The seconds a garment is expected to take, and how many timed garments that rests on. */
export type Expected = Moments & { readonly weight: number };

// How much the crew's own estimate weighs, in garments, and how far single garments are thought to vary.
const SEED_GARMENTS = 6;
const SEED_VARIATION = 0.4;
// Spoiled tries before any was counted, in how many: 1 to 3 % is common practice, no source.
const SEED_SPOILED = 1;
const SEED_TRIES = 50;
// A garment left on the press over lunch must not teach the queue anything: common practice, no source.
const SHORTEST = 0.25;
const LONGEST = 3;

function seed(menu: Menu, platen: Platen): number {
  const fitting = menu.presses.filter((press) => press.platen === platen);
  if (fitting.length === 0) return 75;
  return fitting.reduce((sum, press) => sum + press.garmentSeconds, 0) / fitting.length;
}

/** What a garment of this class is expected to take from one pull to the next, heating apart. */
export function expected(menu: Menu, pace: Pace, work: WorkClass): Expected {
  const { plain, effort } = takenApart(work);
  const seeded = seed(menu, platenOf(work));
  const timed = pace.work[plain] ?? UNTIMED;
  const weight = SEED_GARMENTS + timed.count;
  const mean = (SEED_GARMENTS * seeded + timed.count * timed.mean) / weight;
  const seedSquares = SEED_GARMENTS * ((SEED_VARIATION * seeded) ** 2 + (seeded - mean) ** 2);
  const variance = (seedSquares + timed.squares + timed.count * (timed.mean - mean) ** 2) / weight;
  return { mean: effort * mean, variance: effort ** 2 * variance, weight };
}

/** What changing the temperature adds to each garment of a platen, in seconds, those that need none included. */
export function heatingOf(menu: Menu, pace: Pace, platen: Platen): Moments {
  const seeded = heatingSeed(menu, platen);
  const timed = pace.heating[platen] ?? UNTIMED;
  const weight = SEED_GARMENTS + timed.count;
  const mean = (SEED_GARMENTS * seeded.mean + timed.count * timed.mean) / weight;
  const squares =
    SEED_GARMENTS * (seeded.variance + (seeded.mean - mean) ** 2) +
    timed.squares +
    timed.count * (timed.mean - mean) ** 2;
  return { mean, variance: squares / weight };
}

/** The share of tries that is spoiled. */
function spoilShare(pace: Pace): number {
  const pressed = Object.values(pace.work).reduce((sum, { count }) => sum + count, 0);
  return (SEED_SPOILED + pace.spoiled) / (SEED_TRIES + pace.spoiled + pressed);
}

/**
 * A garment's whole time, spoiled tries included: the number of tries is geometric, each as long as the
 * next.
 */
export function withSpoils({ mean, variance }: Moments, pace: Pace): Moments {
  const good = 1 - spoilShare(pace);
  return { mean: mean / good, variance: variance / good + (mean ** 2 * (1 - good)) / good ** 2 };
}

function withValue(before: Timed = UNTIMED, value: number): Timed {
  const count = before.count + 1;
  const shift = value - before.mean;
  const mean = before.mean + shift / count;
  return { count, mean, squares: before.squares + shift * (value - mean) };
}

export type Lesson = {
  readonly work: WorkClass;
  readonly press: PressId;
  readonly at: Instant;
  /** Null where it says nothing: the platen was still changing its temperature. */
  readonly handlingSeconds: number | null;
  readonly heatingSeconds: number;
};

/** The pace after one more timed garment, outliers pulled in to a believable time first. */
export function learnt(menu: Menu, pace: Pace, lesson: Lesson): Pace {
  const { work, press, at, handlingSeconds, heatingSeconds } = lesson;
  const platen = platenOf(work);
  const { plain, effort } = takenApart(work);
  const { mean } = expected(menu, pace, plain);
  const timed =
    handlingSeconds === null
      ? {}
      : {
          [plain]: withValue(
            pace.work[plain],
            Math.min(Math.max(handlingSeconds / effort, SHORTEST * mean), LONGEST * mean),
          ),
        };
  return {
    ...pace,
    work: { ...pace.work, ...timed },
    heating: { ...pace.heating, [platen]: withValue(pace.heating[platen], heatingSeconds) },
    freed: { ...pace.freed, [press]: at },
  };
}
