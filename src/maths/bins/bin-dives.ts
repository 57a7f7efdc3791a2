/** Fewest bins: many short tries by chance, before anything is proved. */

import { type Random, seededRandom } from "../random.ts";

/** Packings tried by chance before anything is proved. */
const DIVES = 150;
/** Fillings of one bin to choose among, and places looked at to find them. */
const CHOICES = 12;
const LOOKS = 2_000;

/**
 * Tries to pack weights (falling) into bins by filling one after the other nearly to the brim: the largest
 * weight left, and one of a few fillings beside it, those of large weights rather, so that the small ones are
 * there for the last bins. Many short tries find what one long search gets stuck before. Seeded: the same
 * weights give the same answer.
 */
export function dive(weights: readonly number[], capacities: readonly number[]): readonly number[] | null {
  const slack = sum(capacities) - sum(weights);
  if (slack < 0) return null;
  const random = seededRandom(1);
  for (let nth = 0; nth < DIVES; nth++) {
    const found = oneDive(weights, capacities, slack, random);
    if (found !== null) return found;
  }
  return null;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

function oneDive(
  weights: readonly number[],
  capacities: readonly number[],
  slackAtFirst: number,
  random: Random,
): readonly number[] | null {
  const binOf = new Array<number>(weights.length).fill(-1);
  let left = [...weights.keys()];
  let slack = slackAtFirst;
  for (let bin = 0; bin < capacities.length; bin++) {
    const [largest, ...others] = left;
    if (largest === undefined) return binOf;
    const spare = (capacities[bin] ?? 0) - (weights[largest] ?? 0);
    if (spare < 0) return null;
    const sizes = others.map((item) => weights[item] ?? 0);
    const fair = (2 * slack) / (capacities.length - bin);
    let choices = fillings(sizes, spare, Math.min(slack, fair));
    if (choices.length === 0) choices = fillings(sizes, spare, slack);
    const chosen =
      choices[Math.min(random.below(Math.max(1, choices.length)), random.below(Math.max(1, choices.length)))];
    if (chosen === undefined) return null;
    const taken = new Set(chosen);
    binOf[largest] = bin;
    others.forEach((item, at) => {
      if (taken.has(at)) binOf[item] = bin;
    });
    slack -= spare - sum(chosen.map((at) => sizes[at] ?? 0));
    left = others.filter((_, at) => !taken.has(at));
  }
  return left.length === 0 ? binOf : null;
}

/** Sets of `sizes` (falling; by index) that fit the room and waste at most `most`, those of large ones first. */
function fillings(sizes: readonly number[], room: number, most: number): (readonly number[])[] {
  const found: (readonly number[])[] = [];
  const suffix = new Float64Array(sizes.length + 1);
  for (let from = sizes.length - 1; from >= 0; from--)
    suffix[from] = (suffix[from + 1] ?? 0) + (sizes[from] ?? 0);
  let looks = LOOKS;
  const isOver = (): boolean => found.length >= CHOICES || looks < 0;
  const extend = (from: number, left: number, chosen: number[]): void => {
    looks--;
    if (isOver() || left - (suffix[from] ?? 0) > most) return;
    if (left <= most) found.push([...chosen]);
    let previous = -1;
    for (let next = from; next < sizes.length && !isOver(); next++) {
      const size = sizes[next] ?? 0;
      if (size > left || size === previous) continue;
      if (left - (suffix[next] ?? 0) > most) return;
      previous = size;
      chosen.push(next);
      extend(next + 1, left - size, chosen);
      chosen.pop();
    }
  };
  extend(0, room, []);
  return found;
}
