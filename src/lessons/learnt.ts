/**
 * What days at fairs teach, from their evidence: shares as Dirichlet, rates as gamma-Poisson. The planner
 * adds the same evidence to its own plan's shares instead of to the weak beginning used here.
 */
import { betaQuantile } from "../maths/beta.ts";
import { gammaQuantile } from "../maths/gamma.ts";
import type { Learnt } from "../model/accounts/learnt.ts";
import type { Lessons } from "../model/accounts/lessons.ts";

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
 * Shares from counts under a Dirichlet prior: the mean of the posterior, and the span of each share, whose
 * own distribution is a beta. `prior` gives an entry's weight; weak where it gives none.
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

function byBlank<Row extends { readonly blank: string; readonly asks: number }>(
  rows: readonly Row[],
  idOf: (row: Row) => string,
): Learnt["sizes"] {
  return [...new Set(rows.map(({ blank }) => blank))].map((blank) => ({
    blank,
    shares: sharesFrom(
      summed(
        rows.filter((row) => row.blank === blank),
        idOf,
        ({ asks }) => asks,
      ),
    ),
  }));
}

function hoursFrom(lessons: readonly Lessons[]): Learnt["hours"] {
  const names = [...new Set(lessons.flatMap(({ hours }) => hours.map(({ hour }) => hour)))].sort();
  return names.map((hour) => {
    const all = lessons.flatMap((lesson) =>
      lesson.hours
        .filter((row) => row.hour === hour)
        .map((row) => ({ ...row, uncertainty: lesson.buying?.passersByUncertainty ?? 0 })),
    );
    const counted = all.flatMap(({ orders, passersBy, uncertainty }) =>
      passersBy === null ? [] : [{ orders, passersBy, uncertainty }],
    );
    return {
      hour,
      orders: all.reduce((sum, { orders }) => sum + orders, 0),
      passersBy: counted.length === 0 ? null : counted.reduce((sum, { passersBy }) => sum + passersBy, 0),
      ordersPerHundred: perHundred(counted),
    };
  });
}

function spoilageFrom(lessons: readonly Lessons[]): Learnt["spoilage"] {
  const counted = lessons.flatMap(({ spoilage }) => spoilage ?? []);
  const pressed = counted.reduce((sum, row) => sum + row.pressed, 0);
  const spoiled = counted.reduce((sum, row) => sum + row.spoiled, 0);
  if (pressed + spoiled === 0) return null;
  const [bad, good] = [spoiled + WEAK, pressed + WEAK];
  return {
    pressed,
    spoiled,
    share: bad / (bad + good),
    low: betaQuantile(LOW, bad, good),
    high: betaQuantile(HIGH, bad, good),
  };
}

/** Everything some days taught together. */
export function learntFrom(given: readonly Lessons[]): Learnt {
  const lessons = eachOnce(given);
  const buying = lessons.flatMap(({ buying: counted }) =>
    counted === undefined
      ? []
      : [
          {
            orders: counted.orders,
            passersBy: counted.passersBy,
            uncertainty: counted.passersByUncertainty,
          },
        ],
  );
  const rate = perHundred(buying);
  const timed = lessons.flatMap(({ handling }) => handling);
  return {
    from: lessons.map(({ id, fair, day }) => ({ id, fair, day })),
    sizes: byBlank(
      lessons.flatMap(({ sizes }) => sizes),
      ({ size }) => size,
    ),
    colours: byBlank(
      lessons.flatMap(({ colours }) => colours),
      ({ colour }) => colour,
    ),
    offers: sharesFrom(
      summed(
        lessons.flatMap(({ offers }) => offers),
        ({ offer }) => offer,
        ({ asks }) => asks,
      ),
    ),
    ordersPerHundred: rate && {
      orders: buying.reduce((sum, { orders }) => sum + orders, 0),
      passersBy: buying.reduce((sum, { passersBy }) => sum + passersBy, 0),
      ...rate,
    },
    hours: hoursFrom(lessons),
    spoilage: spoilageFrom(lessons),
    handling: (["flat", "cap"] as const).flatMap((platen) => {
      const rows = timed.filter((row) => row.platen === platen);
      const garments = rows.reduce((sum, row) => sum + row.garments, 0);
      if (garments === 0) return [];
      const seconds = rows.reduce((sum, row) => sum + row.garments * row.seconds, 0) / garments;
      return [{ platen, garments, seconds }];
    }),
  };
}
