/**
 * Shares an amount in whole units in proportion to weights, adding up exactly: each part is rounded down, and the rest
 * goes one by one to the largest remainders, earlier ones first (the largest remainder method). Weights that are all 0
 * count as equal; without weights there are no parts.
 */
export function sharedOut(amount: number, weights: readonly number[]): readonly number[] {
  const given = weights.reduce((sum, weight) => sum + weight, 0);
  if (given === amount) return weights;
  const even = given === 0;
  const all = BigInt(even ? weights.length : given);
  const parts = weights.map((weight, at) => {
    const exact = BigInt(amount) * BigInt(even ? 1 : weight);
    return { at, part: Number(exact / all), rest: exact % all };
  });
  const left = amount - parts.reduce((sum, { part }) => sum + part, 0);
  const first = parts
    .toSorted((one, other) => (one.rest === other.rest ? one.at - other.at : one.rest > other.rest ? -1 : 1))
    .slice(0, left);
  const more = new Set(first.map(({ at }) => at));
  return parts.map(({ at, part }) => (more.has(at) ? part + 1 : part));
}
