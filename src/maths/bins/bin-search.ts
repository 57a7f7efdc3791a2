/** Fewest bins: the exact search, within a limit of steps. */

export type Searched =
  | { readonly type: "packed"; readonly binOf: readonly number[] }
  | { readonly type: "none" }
  /** The budget of steps ran out before all was tried. */
  | { readonly type: "gave-up" };

/** The most fillings of one bin that are tried before the search counts as incomplete. */
const FILLINGS = 400;

/**
 * Whether all weights (falling) fit these bins, bin by bin. The largest weight left must be in some bin, so each bin
 * size is tried with each filling that is not dominated. A filling is dominated if a weight left out could replace one
 * or two of its own or simply join them: what it replaces fits where that weight would have gone (after Martello and
 * Toth).
 */
export function search(
  weights: readonly number[],
  capacities: readonly number[],
  steps: number,
): Searched & { readonly spent: number } {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const slackAtFirst = capacities.reduce((sum, capacity) => sum + capacity, 0) - total;
  const binOf = new Array<number>(weights.length).fill(-1);
  /** States already tried without success: other orders of filling lead to the same weights left. */
  const refuted = new Set<string>();
  let spent = 0;
  let complete = true;

  const fill = (left: readonly number[], open: readonly number[], slack: number): boolean => {
    const [largest, ...others] = left;
    if (largest === undefined) return true;
    if (++spent > steps) {
      complete = false;
      return false;
    }
    const state = String.fromCharCode(...left.map(weightRank), 0xffff, ...open.map(roomRank));
    if (refuted.has(state)) return false;
    refuted.add(state);
    const tried = new Set<number>();
    for (const bin of open) {
      const capacity = room(bin);
      const spare = capacity - at(largest);
      if (spare < 0 || tried.has(capacity)) continue;
      tried.add(capacity);
      const found = fillings(others.map(at), spare, slack);
      if (found.length >= FILLINGS) complete = false;
      for (const { chosen, wasted } of found) {
        const taken = new Set(chosen.map((index) => others[index] ?? -1));
        const rest = others.filter((item) => !taken.has(item));
        for (const item of [largest, ...taken]) binOf[item] = bin;
        const stillOpen = open.filter((other) => other !== bin);
        if (fill(rest, stillOpen, slack - wasted)) return true;
        if (spent > steps) return false;
      }
    }
    return false;
  };
  // Equal weights, and equal bins, are interchangeable: the rest is identified by its sizes.
  const weightRank = (item: number): number => weights.indexOf(at(item));
  const roomRank = (bin: number): number => capacities.indexOf(room(bin));
  const at = (item: number): number => weights[item] ?? 0;
  const room = (bin: number): number => capacities[bin] ?? 0;

  if (slackAtFirst < 0) return { type: "none", spent };
  if (fill([...weights.keys()], [...capacities.keys()], slackAtFirst))
    return { type: "packed", binOf, spent };
  return complete ? { type: "none", spent } : { type: "gave-up", spent };
}

type Filling = { readonly chosen: readonly number[]; readonly wasted: number };

/** Sets of `weights` (falling; by index) that fit the room, waste at most `slack` and are not needless; fullest first. */
function fillings(weights: readonly number[], room: number, slack: number): Filling[] {
  const found: Filling[] = [];
  const suffix = new Array<number>(weights.length + 1).fill(0);
  for (let from = weights.length - 1; from >= 0; from--)
    suffix[from] = (suffix[from + 1] ?? 0) + (weights[from] ?? 0);

  const extend = (from: number, left: number, chosen: number[]): void => {
    if (found.length >= FILLINGS || left - (suffix[from] ?? 0) > slack) return;
    if (left <= slack && !needless(weights, chosen, left)) found.push({ chosen: [...chosen], wasted: left });
    let previous = -1;
    for (let next = from; next < weights.length; next++) {
      const weight = weights[next] ?? 0;
      // Equal weights are alike: only the first of them is taken at this place.
      if (weight > left || weight === previous) continue;
      if (left - (suffix[next] ?? 0) > slack) return;
      previous = weight;
      chosen.push(next);
      extend(next + 1, left - weight, chosen);
      chosen.pop();
    }
  };
  extend(0, room, []);
  return found.sort((a, b) => a.wasted - b.wasted);
}

function needless(weights: readonly number[], chosen: readonly number[], left: number): boolean {
  const inside = new Set(chosen);
  const driven = [0];
  chosen.forEach((one, order) => {
    driven.push(weights[one] ?? 0);
    for (const other of chosen.slice(order + 1)) driven.push((weights[one] ?? 0) + (weights[other] ?? 0));
  });
  const single = new Set(chosen.map((one) => weights[one] ?? 0));
  for (let outside = 0; outside < weights.length; outside++) {
    if (inside.has(outside)) continue;
    const weight = weights[outside] ?? 0;
    for (const out of driven) {
      if (weight > out + left || weight < out) continue;
      // Swapping a weight for an equal one changes nothing, so it proves nothing either.
      if (weight === out && single.has(out)) continue;
      return true;
    }
  }
  return false;
}
