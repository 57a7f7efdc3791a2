/**
 * What days at fairs teach, from their evidence: shares as Dirichlet, rates as gamma-Poisson. Fairs differ, so with
 * several fairs a span is for the next fair's true value (pooled-shares.ts, pooled-rates.ts). One fair cannot show how
 * much fairs differ: its spans are for its own true value. The planner adds the same evidence to its own plan's shares
 * instead of to the weak prior used here.
 */
import { betaQuantile } from "../maths/beta.ts";
import { gammaQuantile } from "../maths/gamma.ts";
import type { Learnt } from "../model/accounts/learnt.ts";
import type { Lessons } from "../model/accounts/lessons.ts";
import { type FairEvidence, fairsOf, HALF_LIFE_YEARS, ofKind } from "./fairs.ts";
import { nextRate, type SeenFair } from "./pooled-rates.ts";
import { nextShares } from "./pooled-shares.ts";

/** Half an ask each: Jeffreys's prior of a multinomial, which leaves the word to the evidence. */
const WEAK = 0.5;
const [LOW, HIGH] = [0.05, 0.95];

type Counted = { readonly id: string; readonly asks: number };
type Shares = Learnt["sizes"][number]["shares"];

/** The evidence of several days, the same `id` once: the one given last. */
export function eachOnce(lessons: readonly Lessons[]): readonly Lessons[] {
  return [...new Map(lessons.map((lesson) => [lesson.id, lesson])).values()];
}

/**
 * Shares from counts under a Dirichlet prior: the posterior mean, and the span of each share (its marginal is a beta).
 * `prior` gives an entry's weight, or a weak one if it has none.
 */
export function sharesFrom(
  counts: readonly Counted[],
  prior: (id: string) => number | undefined = () => undefined,
): Shares {
  const weights = counts.map(({ id, asks }) => asks + (prior(id) ?? WEAK));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  return counts.map(({ id, asks }, index) => {
    const weight = weights[index] ?? 0;
    const rest = whole - weight;
    // A choice of one is no choice: its share is certain.
    if (counts.length === 1) return { id, asks, share: 1, low: 1, high: 1 };
    return {
      id,
      asks,
      share: weight / whole,
      low: betaQuantile(LOW, weight, rest),
      high: betaQuantile(HIGH, weight, rest),
    };
  });
}

/** Shares at the next fair, from the counts of several fairs; of one fair, its own. */
function sharesOver(fairs: readonly FairEvidence[], rowsOf: (lesson: Lessons) => readonly Counted[]): Shares {
  const all = summed(
    fairs.flatMap(({ days }) => days.flatMap(rowsOf)),
    ({ id }) => id,
    ({ asks }) => asks,
  );
  const counted = fairs.flatMap(({ days, weight }) => {
    const rows = days.flatMap(rowsOf);
    const counts = all.map(({ id }) => rows.reduce((sum, row) => (row.id === id ? sum + row.asks : sum), 0));
    return counts.some((count) => count > 0) ? [{ counts, weight }] : [];
  });
  if (counted.length < 2 || all.length < 2) return sharesFrom(all);
  const spans = nextShares(counted);
  return all.flatMap(({ id, asks }, at) => {
    const span = spans[at];
    return span === undefined ? [] : [{ id, asks, share: span.mean, low: span.low, high: span.high }];
  });
}

/** The days of a fair as one: their uncertain crowds are taken to err alike. */
function seenFair(days: readonly Buying[], weight: number): SeenFair[] {
  const exposure = days.reduce((sum, { passersBy }) => sum + passersBy, 0);
  if (exposure <= 0) return [];
  const events = days.reduce((sum, { orders }) => sum + orders, 0);
  const uncertainty = days.reduce((sum, day) => sum + day.uncertainty * day.passersBy, 0) / exposure;
  return [{ events, exposure, uncertainty, weight }];
}

/** Orders per hundred passers-by at the next fair; with one fair, at that fair. Null if nobody counted the crowd. */
function perHundredOver(fairs: readonly { readonly days: readonly Buying[]; readonly weight: number }[]) {
  const seen = fairs.flatMap(({ days, weight }) => seenFair(days, weight));
  if (seen.length < 2) return perHundred(fairs.flatMap(({ days }) => days));
  const { mean, low, high } = nextRate(seen);
  return { mean: 100 * mean, low: 100 * low, high: 100 * high };
}

type Buying = { readonly orders: number; readonly passersBy: number; readonly uncertainty: number };

/**
 * Orders of a hundred passers-by. Each day's orders are worth as many as would be as uncertain by chance
 * alone as they are with the uncertainty of the crowd they came from.
 */
function perHundred(days: readonly Buying[]) {
  let shape = WEAK;
  let rate = 0;
  for (const { orders, passersBy, uncertainty } of days) {
    if (orders === 0) {
      rate += passersBy;
      continue;
    }
    const worth = 1 / (1 / orders + uncertainty ** 2);
    shape += worth;
    rate += (worth * passersBy) / orders;
  }
  if (rate === 0) return null;
  return {
    mean: (100 * shape) / rate,
    low: 100 * gammaQuantile(LOW, shape, rate),
    high: 100 * gammaQuantile(HIGH, shape, rate),
  };
}

/** Rows added up by a key, in the order in which the keys first come. */
function summed<Row>(
  rows: readonly Row[],
  keyOf: (row: Row) => string,
  asksOf: (row: Row) => number,
): Counted[] {
  const sums = new Map<string, number>();
  for (const row of rows) sums.set(keyOf(row), (sums.get(keyOf(row)) ?? 0) + asksOf(row));
  return [...sums].map(([id, asks]) => ({ id, asks }));
}

function byBlank(
  fairs: readonly FairEvidence[],
  rowsOf: (lesson: Lessons) => readonly (Counted & { readonly blank: string })[],
): Learnt["sizes"] {
  const blanks = new Set(fairs.flatMap(({ days }) => days.flatMap(rowsOf)).map(({ blank }) => blank));
  return [...blanks].map((blank) => ({
    blank,
    shares: sharesOver(fairs, (lesson) => rowsOf(lesson).filter((row) => row.blank === blank)),
  }));
}

function hoursFrom(fairs: readonly FairEvidence[]): Learnt["hours"] {
  const lessons = fairs.flatMap(({ days }) => days);
  const names = [...new Set(lessons.flatMap(({ hours }) => hours.map(({ hour }) => hour)))].sort();
  return names.map((hour) => {
    const rowsOf = (lesson: Lessons) => lesson.hours.filter((row) => row.hour === hour);
    const countedOf = (lesson: Lessons): Buying[] =>
      rowsOf(lesson).flatMap(({ orders, passersBy }) =>
        passersBy === null
          ? []
          : [{ orders, passersBy, uncertainty: lesson.buying?.passersByUncertainty ?? 0 }],
      );
    const all = lessons.flatMap(rowsOf);
    const counted = lessons.flatMap(countedOf);
    return {
      hour,
      orders: all.reduce((sum, { orders }) => sum + orders, 0),
      passersBy: counted.length === 0 ? null : counted.reduce((sum, { passersBy }) => sum + passersBy, 0),
      ordersPerHundred: perHundredOver(
        fairs.map(({ days, weight }) => ({ days: days.flatMap(countedOf), weight })),
      ),
    };
  });
}

function spoilageFrom(fairs: readonly FairEvidence[]): Learnt["spoilage"] {
  const counts = fairs.map(({ days, weight }) => {
    const rows = days.flatMap(({ spoilage }) => spoilage ?? []);
    const pressed = rows.reduce((sum, row) => sum + row.pressed, 0);
    const spoiled = rows.reduce((sum, row) => sum + row.spoiled, 0);
    return { pressed, spoiled, weight };
  });
  const tried = counts.filter(({ pressed, spoiled }) => pressed + spoiled > 0);
  if (tried.length === 0) return null;
  const pressed = tried.reduce((sum, row) => sum + row.pressed, 0);
  const spoiled = tried.reduce((sum, row) => sum + row.spoiled, 0);
  if (tried.length > 1) {
    const { mean, low, high } = nextRate(
      tried.map((row) => ({
        events: row.spoiled,
        exposure: row.pressed + row.spoiled,
        uncertainty: 0,
        weight: row.weight,
      })),
    );
    return {
      pressed,
      spoiled,
      share: Math.min(1, mean),
      low: Math.min(1, low),
      high: Math.min(1, high),
    };
  }
  const [bad, good] = [spoiled + WEAK, pressed + WEAK];
  return {
    pressed,
    spoiled,
    share: bad / (bad + good),
    low: betaQuantile(LOW, bad, good),
    high: betaQuantile(HIGH, bad, good),
  };
}

/** Everything some days taught together; with a kind, those at fairs of that kind if there are any. */
export function learntFrom(given: readonly Lessons[], kind?: string): Learnt {
  const lessons = ofKind(eachOnce(given), kind);
  const fairs = fairsOf(lessons);
  const buyingOf = ({ buying }: Lessons): Buying[] =>
    buying === undefined
      ? []
      : [
          {
            orders: buying.orders,
            passersBy: buying.passersBy,
            uncertainty: buying.passersByUncertainty,
          },
        ];
  const buying = lessons.flatMap(buyingOf);
  const rate = perHundredOver(fairs.map(({ days, weight }) => ({ days: days.flatMap(buyingOf), weight })));
  const timed = lessons.flatMap(({ handling }) => handling);
  return {
    from: lessons.map(({ id, fair, day }) => ({ id, fair, day })),
    fairs: fairs.length,
    spans: fairs.length > 1 ? "next-fair" : "this-fair",
    halfLifeYears: HALF_LIFE_YEARS,
    sizes: byBlank(fairs, ({ sizes }) => sizes.map(({ blank, size, asks }) => ({ blank, id: size, asks }))),
    colours: byBlank(fairs, ({ colours }) =>
      colours.map(({ blank, colour, asks }) => ({ blank, id: colour, asks })),
    ),
    offers: sharesOver(fairs, ({ offers }) => offers.map(({ offer, asks }) => ({ id: offer, asks }))),
    ordersPerHundred: rate && {
      orders: buying.reduce((sum, { orders }) => sum + orders, 0),
      passersBy: buying.reduce((sum, { passersBy }) => sum + passersBy, 0),
      ...rate,
    },
    hours: hoursFrom(fairs),
    spoilage: spoilageFrom(fairs),
    handling: (["flat", "cap"] as const).flatMap((platen) => {
      const rows = timed.filter((row) => row.platen === platen);
      const garments = rows.reduce((sum, row) => sum + row.garments, 0);
      if (garments === 0) return [];
      const seconds = rows.reduce((sum, row) => sum + row.garments * row.seconds, 0) / garments;
      return [{ platen, garments, seconds }];
    }),
  };
}
