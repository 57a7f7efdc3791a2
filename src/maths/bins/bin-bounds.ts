/**
 * Proofs that weights do not go into bins. If f never falls and f(a) + f(b) <= f(a + b), then in any packing
 * the f of the weights add up to no more than the f of the bins. Each family below is of that kind: the
 * identity, whole multiples, the thresholds behind bound L2 of Martello and Toth (Knapsack Problems, 1990,
 * ch. 8), and the folded multiples of Carlier, Clautiaux and Moukrim (2007), the last two from memory.
 */

type Measure = (weight: number) => number;

const identity: Measure = (weight) => weight;

const multiples =
  (part: number): Measure =>
  (weight) =>
    Math.floor(weight / part);

const startedMultiples =
  (part: number): Measure =>
  (weight) =>
    weight === 0 ? 0 : Math.ceil(weight / part) - 1;

/** Weights under the limit count nothing, those within the limit of a whole bin count as a whole bin. */
const thresholds =
  (whole: number, limit: number): Measure =>
  (weight) =>
    weight < limit ? 0 : weight > whole - limit ? whole : weight;

/** Multiples of a part up to half a bin; above half, what the rest of the bin can no longer hold. */
const foldedMultiples =
  (whole: number, part: number): Measure =>
  (weight) => {
    const full = Math.floor(whole / part);
    if (2 * weight > whole) return 2 * (full - Math.floor((whole - weight) / part));
    return 2 * weight === whole ? full : 2 * Math.floor(weight / part);
  };

function tooMuch(weights: readonly number[], capacities: readonly number[], measure: Measure): boolean {
  let wanted = 0;
  for (const weight of weights) wanted += measure(weight);
  for (const capacity of capacities) wanted -= measure(capacity);
  return wanted > 0;
}

/**
 * True when some bound shows that the weights cannot go into these bins; false proves nothing.
 * `thorough` tries every part size that can matter, else only the parts of the largest bin.
 */
export function cannotHold(
  weights: readonly number[],
  capacities: readonly number[],
  thorough: boolean,
): boolean {
  if (weights.length === 0) return false;
  if (tooMuch(weights, capacities, identity)) return true;
  const whole = Math.max(0, ...capacities);
  const half = whole / 2;
  const parts = [2, 3, 4, 5, 6].map((share) => whole / share);
  if (parts.some((part) => tooMuch(weights, capacities, startedMultiples(part)))) return true;
  const limits = thorough
    ? [...new Set([...weights, ...weights.map((weight) => whole - weight)])]
    : everyFew(weights, 6);
  for (const limit of limits) {
    if (limit <= 0 || limit > half) continue;
    if (tooMuch(weights, capacities, thresholds(whole, limit))) return true;
    if (tooMuch(weights, capacities, foldedMultiples(whole, limit))) return true;
    if (thorough && tooMuch(weights, capacities, multiples(limit))) return true;
  }
  return false;
}

/** About `count` values spread over a list. */
function everyFew(values: readonly number[], count: number): number[] {
  const step = Math.max(1, Math.floor(values.length / count));
  return values.filter((_, at) => at % step === 0);
}
