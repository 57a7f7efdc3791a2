/**
 * Families of fairs whose truth is known, drawn without any code of src: Knuth's MMIX linear congruential
 * generator (The Art of Computer Programming, vol. 2, 3.3.4, from memory), and the quantile functions of @stdlib
 * (Apache-2.0) for gamma, normal and Poisson values. Every fair of a family draws its own truth from the family's.
 */
import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import poissonQuantile from "@stdlib/stats-base-dists-poisson-quantile";
import type { Learnt } from "../../src/model/accounts/learnt.ts";
import type { Lessons } from "../../src/model/accounts/lessons.ts";

const SIZES = ["S", "M", "L", "XL", "2XL"] as const;
const COLOURS = ["navy", "sand", "moss"] as const;
const OFFERS = ["heron", "otter", "kite", "tern"] as const;

type Truth = {
  readonly sizes: readonly number[];
  readonly colours: readonly number[];
  readonly offers: readonly number[];
  /** Orders per passer-by. */
  readonly buying: number;
  /** Of the tries. */
  readonly spoilage: number;
};

/** Uniform values between 0 and 1, both left out; the same seed gives the same ones. */
function uniforms(seed: number): () => number {
  let state = BigInt(seed) * 2_654_435_761n + 1n;
  return () => {
    state = BigInt.asUintN(64, state * 6_364_136_223_846_793_005n + 1_442_695_040_888_963_407n);
    return (Number(state >> 12n) + 0.5) / 2 ** 52;
  };
}

/** Fairs of one family and the truth of the one after them. */
export function family(seed: number, fairs: number): { lessons: Lessons[]; next: Truth } {
  const uniform = uniforms(seed);
  for (let warm = 0; warm < 20; warm++) uniform();
  const dirichlet = (weights: readonly number[]): number[] => {
    const drawn = weights.map((weight) => gammaQuantile(uniform(), weight, 1));
    const whole = drawn.reduce((sum, one) => sum + one, 0);
    return drawn.map((one) => one / whole);
  };
  const counted = (asks: number, shares: readonly number[]): number[] => {
    const counts = shares.map(() => 0);
    for (let ask = 0; ask < asks; ask++) {
      let left = uniform();
      let at = 0;
      while (at < shares.length - 1 && left >= (shares[at] ?? 0)) left -= shares[at++] ?? 0;
      counts[at] = (counts[at] ?? 0) + 1;
    }
    return counts;
  };
  const spread = (mean: number, relative: number): number =>
    mean * gammaQuantile(uniform(), 1 / relative ** 2, 1 / relative ** 2);
  // Families differ too, in their means and in how alike their fairs are.
  const alike = 15 + 45 * uniform();
  const means = {
    sizes: dirichlet([6, 10, 10, 6, 3]),
    colours: dirichlet([5, 4, 3]),
    offers: dirichlet([4, 4, 4, 4]),
  };
  const [buying, buyingSpread] = [0.02 + 0.03 * uniform(), 0.2 + 0.3 * uniform()];
  const [spoilage, spoilageSpread] = [0.015 + 0.03 * uniform(), 0.2 + 0.3 * uniform()];
  const truth = (): Truth => ({
    sizes: dirichlet(means.sizes.map((mean) => mean * alike)),
    colours: dirichlet(means.colours.map((mean) => mean * alike)),
    offers: dirichlet(means.offers.map((mean) => mean * alike)),
    buying: spread(buying, buyingSpread),
    spoilage: spread(spoilage, spoilageSpread),
  });
  const lessons = Array.from({ length: fairs }, (_, index): Lessons => {
    const own = truth();
    const crowd = Math.round(2000 + 5000 * uniform());
    const orders = poissonQuantile(uniform(), crowd * own.buying);
    const garments = Math.round(orders * 1.3);
    const spoiled = poissonQuantile(uniform(), Math.max(1, garments) * own.spoilage);
    const [sizes, colours, offers] = [
      counted(garments, own.sizes),
      counted(garments, own.colours),
      counted(orders, own.offers),
    ];
    return {
      id: `family-${seed}/${index}`,
      fair: `Fair ${seed}-${index}`,
      day: "2027-05-01",
      sizes: SIZES.map((size, at) => ({ blank: "tee", size, asks: sizes[at] ?? 0 })),
      colours: COLOURS.map((colour, at) => ({ blank: "tee", colour, asks: colours[at] ?? 0 })),
      offers: OFFERS.map((offer, at) => ({ offer, asks: offers[at] ?? 0 })),
      buying: {
        orders,
        passersBy: Math.max(1, Math.round(crowd * Math.exp(0.15 * normalQuantile(uniform(), 0, 1)))),
        passersByUncertainty: 0.15,
      },
      hours: [],
      spoilage: { pressed: Math.max(1, garments - spoiled), spoiled },
      handling: [],
    };
  });
  return { lessons, next: truth() };
}

type Spanned = { readonly low: number; readonly high: number };
const holds = ({ low, high }: Spanned, truth: number): boolean => low <= truth && truth <= high;

/** The spans of the lessons that contain the truth, by figure. */
function held(learnt: Learnt, next: Truth): Readonly<Record<keyof Truth, readonly boolean[]>> {
  const shares = (rows: Learnt["offers"], names: readonly string[], truth: readonly number[]): boolean[] =>
    names.map((name, at) => {
      const row = rows.find(({ id }) => id === name);
      return row !== undefined && holds(row, truth[at] ?? 0);
    });
  const { ordersPerHundred, spoilage } = learnt;
  return {
    sizes: shares(learnt.sizes[0]?.shares ?? [], SIZES, next.sizes),
    colours: shares(learnt.colours[0]?.shares ?? [], COLOURS, next.colours),
    offers: shares(learnt.offers, OFFERS, next.offers),
    buying: [ordersPerHundred !== null && holds(ordersPerHundred, 100 * next.buying)],
    spoilage: [spoilage !== null && holds(spoilage, next.spoilage)],
  };
}

/** The share of spans that contain the next fair's truth, over many families of this many fairs. */
export function coverage(
  learn: (lessons: readonly Lessons[]) => Learnt,
  families: number,
  fairs: number,
): Readonly<Record<keyof Truth | "all", number>> {
  const each = Array.from({ length: families }, (_, seed) => {
    const { lessons, next } = family(1000 * fairs + seed, fairs);
    return held(learn(lessons), next);
  });
  const share = (hits: readonly boolean[]): number => hits.filter(Boolean).length / hits.length;
  const of = (figure: keyof Truth): number => share(each.flatMap((one) => one[figure]));
  return {
    sizes: of("sizes"),
    colours: of("colours"),
    offers: of("offers"),
    buying: of("buying"),
    spoilage: of("spoilage"),
    all: share(each.flatMap((one) => Object.values(one).flat())),
  };
}
