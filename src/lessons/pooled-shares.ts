/**
 * Shares that differ from fair to fair (sizes, colours, offers): what several fairs say about the next one's.
 * Hierarchical Dirichlet-multinomial: every fair's shares come from one Dirichlet distribution, whose
 * concentration says how alike fairs are. It is integrated over on a grid; the mean shares are estimated at each
 * point and integrated out by Laplace's approximation. Model: Gelman et al., Bayesian Data Analysis, 3rd ed.,
 * chapter 5; likelihood: the Dirichlet-multinomial distribution. From memory. Each fair's likelihood is raised
 * to its weight, so that old fairs fade.
 */
import { betaBelow } from "../maths/beta.ts";
import { logGamma } from "../maths/gamma.ts";
import type { Span } from "./pooled-rates.ts";

type CountedFair = { readonly counts: readonly number[]; readonly weight: number };

/** How unlike fairs are: 1 / (concentration + 1), the share of a count's variance that lies between fairs. */
const STEPS = 24;
const MOST_UNLIKE = 0.7;
/** Half a request for each entry (Jeffreys), so that an entry nobody asked for keeps a chance. */
const WEAK = 0.5;
const [LOW, HIGH] = [0.05, 0.95];

type Part = { readonly chance: number; readonly means: readonly number[]; readonly concentration: number };

function logLikelihood(counts: readonly number[], weights: readonly number[]): number {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  return counts.reduce(
    (sum, count, at) => {
      const own = weights[at] ?? 0;
      return count === 0 ? sum : sum + logGamma(count + own) - logGamma(own);
    },
    logGamma(whole) - logGamma(total + whole),
  );
}

function nextFair(fairs: readonly CountedFair[], entries: number): Part[] {
  const parts = Array.from({ length: STEPS }, (_, step) => {
    // Even steps of the square root: even on the scale of a standard deviation.
    const unlike = MOST_UNLIKE * ((step + 0.5) / STEPS) ** 2;
    const alike = 1 / unlike - 1;
    const sums = Array.from({ length: entries }, () => WEAK);
    let worth = 0;
    for (const { counts, weight } of fairs) {
      const total = counts.reduce((sum, count) => sum + count, 0);
      if (total === 0) continue;
      // As many asks as would be as uncertain by chance alone as these are with the difference between fairs.
      const asks = weight / (1 / total + (1 - 1 / total) * unlike);
      worth += asks;
      counts.forEach((count, at) => {
        sums[at] = (sums[at] ?? 0) + (asks * count) / total;
      });
    }
    const whole = sums.reduce((sum, one) => sum + one, 0);
    const means = sums.map((one) => one / whole);
    const weights = means.map((mean) => mean * alike);
    const log =
      fairs.reduce((sum, { counts, weight }) => sum + weight * logLikelihood(counts, weights), 0) -
      ((entries - 1) / 2) * Math.log(worth);
    // The spread of the next fair and the uncertainty of the mean, as one concentration.
    const variance = unlike + (1 - unlike) / (whole + 1);
    return { log, means, concentration: 1 / variance - 1 };
  });
  const most = Math.max(...parts.map(({ log }) => log));
  const sum = parts.reduce((total, { log }) => total + Math.exp(log - most), 0);
  return parts
    .map(({ log, ...part }) => ({ ...part, chance: Math.exp(log - most) / sum }))
    .filter(({ chance }) => chance > 1e-4);
}

/** The share of each entry to expect at the next fair; `counts` of every fair are in the same order. */
export function nextShares(fairs: readonly CountedFair[]): Span[] {
  const entries = fairs[0]?.counts.length ?? 0;
  const parts = nextFair(fairs, entries);
  return Array.from({ length: entries }, (_, at) => {
    const below = (share: number): number =>
      parts.reduce((sum, { chance, means, concentration }) => {
        const own = (means[at] ?? 0) * concentration;
        return sum + chance * betaBelow(share, own, concentration - own);
      }, 0);
    const quantile = (wanted: number): number => {
      let low = 0;
      let high = 1;
      for (let step = 0; step < 40; step++) {
        const middle = (low + high) / 2;
        if (below(middle) < wanted) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    };
    const mean = parts.reduce((sum, { chance, means }) => sum + chance * (means[at] ?? 0), 0);
    return { mean, low: quantile(LOW), high: quantile(HIGH) };
  });
}
