/** How long this stall's garments take on a press: learnt from what was timed, seeded by the menu. */
import type { Menu, Platen, TransferKind } from "../model/catalogue.ts";

export type WorkClass = `${Platen}/${TransferKind}`;

export const workClass = (platen: Platen, kind: TransferKind): WorkClass => `${platen}/${kind}`;

/** A running count, mean and sum of squared differences from it (Welford's recurrence). */
export type Timed = { readonly count: number; readonly mean: number; readonly squares: number };

export type Pace = Readonly<Partial<Record<WorkClass, Timed>>>;

/** Mean and variance of the seconds from one pull to the next. */
export type Expected = { readonly mean: number; readonly variance: number };

// How much the crew's own estimate weighs, in garments, and how far it is thought to vary.
const SEED_GARMENTS = 6;
const SEED_VARIATION = 0.4;
// A garment left on the press over lunch must not teach the queue anything: common practice, no source.
const SHORTEST = 0.25;
const LONGEST = 3;

function seed(menu: Menu, work: WorkClass): number {
  const [platen] = work.split("/");
  const fitting = menu.presses.filter((press) => press.platen === platen);
  if (fitting.length === 0) return 75;
  return fitting.reduce((sum, press) => sum + press.garmentSeconds, 0) / fitting.length;
}

/** What a garment of this class is expected to take. */
export function expected(menu: Menu, pace: Pace, work: WorkClass): Expected {
  const seeded = seed(menu, work);
  const timed = pace[work] ?? { count: 0, mean: 0, squares: 0 };
  const weight = SEED_GARMENTS + timed.count;
  const mean = (SEED_GARMENTS * seeded + timed.count * timed.mean) / weight;
  const seedSquares = SEED_GARMENTS * ((SEED_VARIATION * seeded) ** 2 + (seeded - mean) ** 2);
  const variance = (seedSquares + timed.squares + timed.count * (timed.mean - mean) ** 2) / weight;
  return { mean, variance };
}

/** The pace after one more timed garment, outliers pulled in to a believable time first. */
export function learnt(menu: Menu, pace: Pace, work: WorkClass, seconds: number): Pace {
  const { mean } = expected(menu, pace, work);
  const believable = Math.min(Math.max(seconds, SHORTEST * mean), LONGEST * mean);
  const before = pace[work] ?? { count: 0, mean: 0, squares: 0 };
  const count = before.count + 1;
  const shift = believable - before.mean;
  const nextMean = before.mean + shift / count;
  const squares = before.squares + shift * (believable - nextMean);
  return { ...pace, [work]: { count, mean: nextMean, squares } };
}
