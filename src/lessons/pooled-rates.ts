/**
 * A rate that differs from fair to fair (orders per passer-by, spoiled garments per try): what several fairs say
 * about the next one. Hierarchical gamma-Poisson model, empirical Bayes: every fair's rate comes from one gamma
 * distribution; its relative spread is integrated over on a grid, its mean is estimated at each point (Gelman et
 * al., Bayesian Data Analysis, 3rd ed., chapter 5, with a half-normal prior on the spread: Gelman, "Prior
 * distributions for variance parameters in hierarchical models", 2006; both from memory). Each fair's likelihood
 * is raised to its weight, so that old fairs fade (power prior, Ibrahim and Chen 2000, from memory).
 */
import { gammaBelow, logGamma } from "../maths/gamma.ts";

/** One fair: events of an exposure, the relative standard deviation of that exposure, and how much it still counts. */
export type SeenFair = {
  readonly events: number;
  readonly exposure: number;
  readonly uncertainty: number;
  readonly weight: number;
};

/** A figure with its nine-in-ten span. */
export type Span = { readonly mean: number; readonly low: number; readonly high: number };

/** Scale of the half-normal prior on the relative spread between fairs: most lie within a factor of two. No source. */
const SPREAD_SCALE = 0.45;
const MOST_SPREAD = 1.6;
const STEPS = 30;
/** The mean and the fairs' weights depend on each other; this many rounds settle them. */
const ROUNDS = 3;
/** Half an event, so that no rate is 0. */
const WEAK = 0.5;
const [LOW, HIGH] = [0.05, 0.95];

type Part = { readonly chance: number; readonly mean: number; readonly shape: number };

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** The mean rate at a relative spread, and how many squared relative deviations' worth of evidence it has. */
function meanAt(fairs: readonly SeenFair[], spread: number, start: number): { mean: number; worth: number } {
  let mean = start;
  let worth = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const each = fairs.map(
      ({ exposure, uncertainty, weight }) =>
        weight / (1 / (mean * exposure) + spread ** 2 + uncertainty ** 2),
    );
    worth = sum(each);
    const seen = sum(fairs.map(({ events, exposure }, at) => ((each[at] ?? 0) * events) / exposure)) / worth;
    mean = Math.max(start / 50, seen);
  }
  return { mean, worth };
}

/** Log chance of the events under a gamma rate (negative binomial), without what no parameter changes. */
function logLikelihood({ events, exposure, uncertainty }: SeenFair, mean: number, spread: number): number {
  const shape = 1 / (spread ** 2 + uncertainty ** 2);
  const expected = mean * exposure;
  return (
    logGamma(events + shape) -
    logGamma(shape) +
    shape * Math.log(shape / (shape + expected)) +
    events * Math.log(expected / (shape + expected))
  );
}

/** The next fair's rate as a mixture of gammas over the spread between fairs. */
function nextFair(fairs: readonly SeenFair[]): Part[] {
  const start =
    (sum(fairs.map(({ events, weight }) => events * weight)) + WEAK) /
    sum(fairs.map(({ exposure, weight }) => exposure * weight));
  const parts = Array.from({ length: STEPS }, (_, step) => {
    const spread = (MOST_SPREAD * (step + 0.5)) / STEPS;
    const { mean, worth } = meanAt(fairs, spread, start);
    const log =
      -(spread ** 2) / (2 * SPREAD_SCALE ** 2) -
      0.5 * Math.log(worth) +
      sum(fairs.map((fair) => fair.weight * logLikelihood(fair, mean, spread)));
    return { log, mean, shape: 1 / (spread ** 2 + (1 + spread ** 2) / worth) };
  });
  const most = Math.max(...parts.map(({ log }) => log));
  const whole = sum(parts.map(({ log }) => Math.exp(log - most)));
  return parts
    .map(({ log, mean, shape }) => ({ mean, shape, chance: Math.exp(log - most) / whole }))
    .filter(({ chance }) => chance > 1e-4);
}

/** The rate to expect at the next fair, from one fair or more with some exposure each. */
export function nextRate(fairs: readonly SeenFair[]): Span {
  const parts = nextFair(fairs);
  const below = (rate: number): number =>
    sum(parts.map(({ chance, mean, shape }) => chance * gammaBelow(shape, (rate * shape) / mean)));
  const quantile = (share: number): number => {
    let low = 0;
    let high = Math.max(...parts.map(({ mean }) => mean));
    while (below(high) < share) high *= 2;
    for (let step = 0; step < 36; step++) {
      const middle = (low + high) / 2;
      if (below(middle) < share) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return {
    mean: sum(parts.map(({ chance, mean }) => chance * mean)),
    low: quantile(LOW),
    high: quantile(HIGH),
  };
}
