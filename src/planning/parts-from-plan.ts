/**
 * Inputs that a plan of the day gives its other parts: hours, heat and presses for power, presses and queue for the
 * pitch.
 */
import { inCelsius } from "../maths/units.ts";
import type { Temperature } from "../model/basics/measure.ts";
import type { PlanBring } from "../model/planning/plan-answer.ts";

/** The presses of one platen kind that a plan counts on. */
export type PlannedPresses = { readonly platen: string; readonly count: number };

/** The most people to try at the presses that a plan counts on: one for each, and one more. */
export const handsFor = (presses: readonly { readonly count: number }[]): number =>
  presses.reduce((sum, { count }) => sum + count, 0) + 1;

/** A press that is planned and not listed yet, and the place in the list of the one it is like. */
export type MissingPress = { readonly name: string; readonly like: number };

/** Presses of one platen that are added; more than this is a slip of the finger. */
const MOST_ADDED = 20;

/** Minutes from hot presses to opening, to press one garment of each kind. Common practice, no source. */
export const TEST_MINUTES = 15;
/** Minutes to switch the loads on one after another. Common practice, no source. */
const IN_TURNS_MINUTES = 5;

/**
 * Hours from the first warm-up to switching off, to the next quarter: the fair's own hours, and before them the
 * longest warm-up and the test, as the organiser's timetable has them.
 */
export function liveHours(
  opensMinute: number,
  closesMinute: number,
  warmUpMinutes: readonly number[],
): number {
  const longest = Math.max(0, ...warmUpMinutes.filter((minutes) => Number.isFinite(minutes)));
  const before = IN_TURNS_MINUTES + longest + TEST_MINUTES;
  return Math.ceil((closesMinute - opensMinute + before) / 15) / 4;
}

/** The highest pressing temperature; undefined if there is none. */
export const hottest = (temperatures: readonly Temperature[]): Temperature | undefined =>
  temperatures.reduce<Temperature | undefined>(
    (most, one) => (most === undefined || inCelsius(one) > inCelsius(most) ? one : most),
    undefined,
  );

/**
 * The presses that the plan counts on and the list lacks. Presses are recognised by name: a "flat press" has a flat
 * platen. Each missing one copies the last listed of its platen; if there is none to copy, none is added.
 */
export function missingPresses(
  planned: readonly PlannedPresses[],
  listed: readonly { readonly name: string; readonly isPress: boolean }[],
): readonly MissingPress[] {
  return planned.flatMap(({ platen, count }) => {
    const places = listed.flatMap(({ name, isPress }, at) =>
      isPress && name.split(" ").includes(platen) ? [at] : [],
    );
    const like = places.at(-1);
    if (like === undefined) return [];
    const more = Math.min(MOST_ADDED, Math.max(0, count - places.length)) || 0;
    return Array.from({ length: more }, (_, at) => ({
      name: `${platen} press ${places.length + at + 1} from the plan`,
      like,
    }));
  });
}

/** By design: transfers to buy, those for garments decorated beforehand included, and what one more is worth in minor units. */
export function transfersToBuy({
  transfers,
  shopping,
}: Pick<PlanBring, "transfers" | "shopping">): ReadonlyMap<
  string,
  { readonly count: number; readonly oneMore: number }
> {
  const bought = shopping.filter(({ kind }) => kind === "transfer");
  return new Map([
    ...bought.map(({ item, buy }) => [item, { count: buy, oneMore: 0 }] as const),
    ...transfers.map(({ design, oneMore }) => {
      const count = bought.find(({ item }) => item === design)?.buy ?? 0;
      return [design, { count, oneMore: Math.max(0, oneMore) }] as const;
    }),
  ]);
}

type Day = {
  readonly demand: {
    readonly hours: readonly { readonly minutes: number; readonly garments: { readonly p50: number } }[];
    readonly orders: { readonly p50: number };
    readonly garments: { readonly p50: number };
  };
  readonly manners: readonly {
    readonly manner: string;
    readonly waitMinutes: { readonly median: number };
  }[];
  readonly best: string;
};

/** The longest and shortest queue that room is kept for. Common practice, no source. */
const QUEUE = { least: 2, most: 40 } as const;

/**
 * People waiting in the busiest hour of a middle day: orders a minute times minutes waited (Little's law: J. D. C.
 * Little, "A Proof for the Queuing Formula: L = λW", Operations Research 9, 1961).
 */
export function queueFromPlan({ demand, manners, best }: Day): number {
  const garmentsPerMinute = Math.max(
    0,
    ...demand.hours.map(({ garments, minutes }) => garments.p50 / Math.max(1, minutes)),
  );
  const ordersPerGarment = demand.garments.p50 > 0 ? demand.orders.p50 / demand.garments.p50 : 1;
  const wait = manners.find(({ manner }) => manner === best)?.waitMinutes.median ?? 0;
  const people = Math.ceil(garmentsPerMinute * Math.min(1, ordersPerGarment) * wait);
  return Math.min(QUEUE.most, Math.max(QUEUE.least, people));
}
