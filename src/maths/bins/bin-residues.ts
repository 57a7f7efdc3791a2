/** The most entries of a table of remaining weights; a larger table costs more time than it saves. */
const MOST_STATES = 2_500;
const STEPS = 4_000_000;

/**
 * Whether divisibility proves that weights cannot be packed into bins. Take one of the weights as divisor. In any packing, a bin of
 * capacity c whose weights leave the remainders r wastes at least (c - r) modulo the divisor. So the least waste is
 * found by distributing the remainders alone, which are few and alike. If that is more than the bins have to spare,
 * there is no packing. Exact in whole numbers; false proves nothing. The work is bounded in steps.
 */
export function remaindersForbid(weights: readonly number[], capacities: readonly number[]): boolean {
  const whole = Math.max(0, ...capacities);
  const slack =
    capacities.reduce((sum, capacity) => sum + capacity, 0) -
    weights.reduce((sum, weight) => sum + weight, 0);
  if (slack < 0) return true;
  const divisors = [...new Set(weights)].filter(
    (weight) => weight > slack / capacities.length && 2 * weight <= whole,
  );
  const budget = { steps: STEPS };
  return divisors.some((divisor) => leastWaste(weights, capacities, divisor, slack, budget) > slack);
}

/** The least waste of any distribution of the remainders; 0 if finding it takes too large a table or too long. */
function leastWaste(
  weights: readonly number[],
  capacities: readonly number[],
  divisor: number,
  slack: number,
  budget: { steps: number },
): number {
  const counts = new Map<number, number>();
  for (const weight of weights) {
    const rest = weight % divisor;
    if (rest > 0) counts.set(rest, (counts.get(rest) ?? 0) + 1);
  }
  const kinds = [...counts].map(([rest, count]) => ({ rest, count, stride: 1 }));
  let states = 1;
  for (const kind of kinds) {
    kind.stride = states;
    states *= kind.count + 1;
    if (states > MOST_STATES) return 0;
  }
  // Per state, a number that says how many of each remainder are still to be shared: the least waste so far.
  let best = new Float64Array(states).fill(Number.POSITIVE_INFINITY);
  best[states - 1] = 0;
  for (const capacity of capacities) {
    const next = new Float64Array(states).fill(Number.POSITIVE_INFINITY);
    const share = (at: number, state: number, rest: number, soFar: number): void => {
      const kind = kinds[at];
      if (kind === undefined) {
        budget.steps--;
        const waste = soFar + ((((capacity - rest) % divisor) + divisor) % divisor);
        if (waste <= slack && waste < (next[state] ?? 0)) next[state] = waste;
        return;
      }
      const have = Math.floor(state / kind.stride) % (kind.count + 1);
      for (let take = 0; take <= have && budget.steps > 0; take++)
        share(at + 1, state - take * kind.stride, rest + take * kind.rest, soFar);
    };
    for (let state = 0; state < states; state++) {
      const soFar = best[state] ?? Number.POSITIVE_INFINITY;
      if (soFar <= slack) share(0, state, 0, soFar);
    }
    if (budget.steps <= 0) return 0;
    best = next;
  }
  return best[0] ?? 0;
}
