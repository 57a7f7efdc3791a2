/** A source of chance that is an argument: the same seed gives the same run. */
export type Random = {
  /** A number in [0, 1). */
  readonly next: () => number;
  /** A whole number in [0, below). */
  readonly below: (below: number) => number;
  /** One of the values; throws on an empty list, since there is nothing to pick. */
  readonly pick: <T>(values: readonly T[]) => T;
  /** True with the given probability. */
  readonly chance: (probability: number) => boolean;
  /** A new, independent source: numbers drawn from it do not shift those drawn here. */
  readonly fork: () => Random;
};

/**
 * A seeded generator: 32-bit state advanced by a Weyl step and mixed with two multiply-xorshift
 * rounds. Fast and even enough for simulation; never for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const bits = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return (mixed ^ (mixed >>> 15)) >>> 0;
  };
  const next = (): number => (bits() * 2 ** 21 + (bits() >>> 11)) / 2 ** 53;
  const below = (limit: number): number => Math.floor(next() * limit);
  return {
    next,
    below,
    pick: (values) => {
      const value = values[below(values.length)];
      if (value === undefined) throw new Error("pick: the list is empty");
      return value;
    },
    chance: (probability) => next() < probability,
    fork: () => seededRandom(bits()),
  };
}
