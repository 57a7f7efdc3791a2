/** How long this stall's garments take on a press: learnt from timed garments, seeded by the menu. */

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

/** A sum that grows while times are longer (or shorter) than expected, and the times it has grown over. */
export type Drift = { readonly sum: number; readonly count: number; readonly total: number };

/**
 * A running count, mean and sum of squared differences (Welford's recurrence) since the pace last changed. The two
 * drifts watch for the next change. `seed` replaces the crew's own estimate once that has proved wrong.
 */
type Timed = {
  readonly count: number;
  readonly mean: number;
  readonly squares: number;
  readonly seed?: number;
  readonly slower?: Drift;
  readonly faster?: Drift;
};

export type Pace = {
  readonly work: Readonly<Partial<Record<PlainWork, Timed>>>;
  /** Seconds of temperature change of a platen, over all garments, including those that needed none. */
  readonly heating: Readonly<Partial<Record<Platen, Timed>>>;
  readonly spoiled: number;
  /** The factor on every quote, learnt from promises kept and broken; absent before the first. */
  readonly stretch?: number;
  /** When each press was last done with a garment. */
  readonly freed: Readonly<Partial<Record<PressId, Instant>>>;
};

/** The share of promises that are meant to be kept. */
export const KEPT_SHARE = 0.9;

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
const LONGEST = 4;

function seed(menu: Menu, platen: Platen): number {
  const fitting = menu.presses.filter((press) => press.platen === platen);
  if (fitting.length === 0) return 75;
  return fitting.reduce((sum, press) => sum + press.garmentSeconds, 0) / fitting.length;
}

/** The expected time of a garment of this class from one pull to the next, without heating. */
export function expected(menu: Menu, pace: Pace, work: WorkClass): Expected {
  const { plain, effort } = takenApart(work);
  const timed = pace.work[plain] ?? UNTIMED;
  const seeded = timed.seed ?? seed(menu, platenOf(work));
  const weight = SEED_GARMENTS + timed.count;
  const mean = (SEED_GARMENTS * seeded + timed.count * timed.mean) / weight;
  const seedSquares = SEED_GARMENTS * ((SEED_VARIATION * seeded) ** 2 + (seeded - mean) ** 2);
  const variance = (seedSquares + timed.squares + timed.count * (timed.mean - mean) ** 2) / weight;
  return { mean: effort * mean, variance: effort ** 2 * variance, weight };
}

/** The seconds that temperature changes add to each garment of a platen, including garments that need none. */
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

const STEP = 0.05;
// With this many orders under way the step is half: their outcomes come late, and are much alike.
const OPEN_FOR_HALF = 10;
const STRETCH = { least: 0.5, most: 3.5 };

/**
 * The pace after one more promise was kept or broken: quotes get a little longer after a broken one, and shorter by a ninth
 * of that after a kept one, so that in the long run nine in ten are kept whatever changes. This is adaptive conformal
 * inference (I. Gibbs and E. Candès, "Adaptive conformal inference under distribution shift", 2021) on the logarithm of
 * what the model's own quote is multiplied by.
 */
export function withQuotesCorrected(pace: Pace, kept: boolean, open: number): Pace {
  const step = STEP / (1 + open / OPEN_FOR_HALF);
  const logarithm = Math.log(pace.stretch ?? 1) + step * (kept ? KEPT_SHARE - 1 : KEPT_SHARE);
  return { ...pace, stretch: Math.min(Math.max(Math.exp(logarithm), STRETCH.least), STRETCH.most) };
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

/**
 * A change of pace is found by two cumulative sums (E. S. Page, "Continuous inspection schemes", Biometrika 1954) of how
 * many deviations the logarithm of each time lies from what was expected, less an allowance of half the shift worth
 * finding: it is a change when either passes the threshold. With these two a pace that never changes is thought to have
 * changed once in 465 garments, and a shift of one deviation is found after 10.
 */
const ALLOWANCE = 0.5;
export const THRESHOLD = 5;
// One garment, however late, is no change of pace.
const FARTHEST = 2;
export const STILL: Drift = { sum: 0, count: 0, total: 0 };

/** The drift after one more time, which lies `deviations` beyond what was expected. */
export function drifted({ sum, count, total }: Drift, deviations: number, seconds: number): Drift {
  const next = sum + deviations - ALLOWANCE;
  return next <= 0 ? STILL : { sum: next, count: count + 1, total: total + seconds };
}

/** The times after one more. Once a change of pace is found, they start again from where it began. */
function timedOnce(before: Timed, { mean, variance }: Moments, seconds: number): Timed {
  const square = Math.log(1 + variance / mean ** 2);
  const far = (Math.log(seconds / mean) + square / 2) / Math.sqrt(square);
  const deviations = Math.min(Math.max(far, -FARTHEST), FARTHEST);
  const slower = drifted(before.slower ?? STILL, deviations, seconds);
  const faster = drifted(before.faster ?? STILL, -deviations, seconds);
  const changed = slower.sum > THRESHOLD ? slower : faster.sum > THRESHOLD ? faster : null;
  if (changed === null) return { ...before, ...withValue(before, seconds), slower, faster };
  const since = changed.total / changed.count;
  // The spread of single garments is taken over, in the new measure, until new ones show theirs.
  return { count: 0, mean: 0, squares: 0, seed: since };
}

export type TimedGarment = {
  readonly work: WorkClass;
  readonly press: PressId;
  readonly at: Instant;
  /** Null if it teaches nothing: the platen was still changing its temperature. */
  readonly handlingSeconds: number | null;
  readonly heatingSeconds: number;
};

/** The pace after one more timed garment, outliers pulled in to a believable time first. */
export function paceAfter(menu: Menu, pace: Pace, lesson: TimedGarment): Pace {
  const { work, press, at, handlingSeconds, heatingSeconds } = lesson;
  const platen = platenOf(work);
  const { plain, effort } = takenApart(work);
  const each = expected(menu, pace, plain);
  const timed =
    handlingSeconds === null
      ? {}
      : {
          [plain]: timedOnce(
            pace.work[plain] ?? UNTIMED,
            each,
            Math.min(Math.max(handlingSeconds / effort, SHORTEST * each.mean), LONGEST * each.mean),
          ),
        };
  return {
    ...pace,
    work: { ...pace.work, ...timed },
    heating: { ...pace.heating, [platen]: withValue(pace.heating[platen], heatingSeconds) },
    freed: { ...pace.freed, [press]: at },
  };
}
