/**
 * Compares a day so far with its plan, from the plan, the orders, the stock and the time. Each of several days has its
 * own hours and range; its stock has to last for the days after it too.
 */
import type { DaySoFar } from "../../model/accounts/day-so-far.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import { type Instant, iso, isoOrNull } from "../../time/instants.ts";
import { ofDay } from "./plan-day.ts";

type Range = KeptPlan["garments"];
type Choice = { readonly offer: string; readonly colour: string; readonly size: string };

type Ordered = Choice & { readonly garments: number };

export type SoFar = {
  readonly now: Instant;
  /** The opening of this day; null if the fair is not open that day. */
  readonly opening: { readonly opens: Instant; readonly closes: Instant } | null;
  /** Which of the plan's days it is, from 1. */
  readonly planDay: number;
  /** Garments sold that day or on open orders, and those sold on earlier days of the plan. */
  readonly ordered: readonly Ordered[];
  readonly earlier: readonly Ordered[];
  readonly pieces: readonly {
    readonly name: string;
    readonly free: number;
    readonly uses: (choice: Choice) => boolean;
    /** The loss in worth of one leftover; null if its cost is not known. */
    readonly loses: number | null;
  }[];
  readonly rack: readonly (Choice & { readonly name: string; readonly garments: number })[];
};

/** The distance from the 5 % to the 95 % point of a normal distribution, in standard deviations. */
const NINE_IN_TEN = 2 * 1.6449;
/** The weight of the plan's shares, in garments: the planner's own default. */
const SHARES_WORTH = 60;
/** Warn of leftovers only above this share of the free stock, and this many pieces. Common practice, no source. */
const MUCH = { share: 0.25, pieces: 3 } as const;
/** The part of the plan's time before which nothing is said about leftovers. */
const EARLIEST = 0.25;

/**
 * The day's demand as one unknown factor on the plan's: a gamma prior as wide as the plan's own range, and the orders so far
 * as Poisson evidence (conjugate; Gelman et al., Bayesian Data Analysis, section 2.6). What is chosen: the plan's shares
 * as a Dirichlet prior, and the choices so far.
 */
export function daySoFar(plan: KeptPlan, so: SoFar): DaySoFar {
  const gone = dayGone(so);
  const days = Array.from({ length: plan.days ?? 1 }, (_, before) => ofDay(plan, before + 1));
  const at = so.planDay - 1;
  const today = days[at] ?? plan;
  const [byNow, whole] = [plannedBy(today, gone), plannedBy(today, 1)];
  const [ordered, before] = [garmentsOf(so.ordered), garmentsOf(so.earlier)];
  const prior = priorOf(whole);
  const seen = prior + before + ordered;
  const factor = seen / (prior + likelyOf(days.slice(0, at)) + byNow.likely);
  const toCome = Math.max(0, whole.likely - byNow.likely) * factor;
  const later = likelyOf(days.slice(at + 1)) * factor;
  const strays = (NINE_IN_TEN / 2) * Math.sqrt(toCome + toCome ** 2 / seen);
  const shares = sharesOf(plan, [...so.earlier, ...so.ordered], before + ordered);
  const outlook = so.pieces.map((piece) => {
    const share = shares.reduce((sum, one) => sum + (piece.uses(one) ? one.share : 0), 0);
    return { piece, need: toCome * share, needLater: later * share };
  });
  return {
    asOf: iso(so.now),
    plan: plan.name,
    closes: isoOrNull(so.opening?.closes ?? null),
    dayGone: gone,
    ...(days.length > 1 ? { planDay: { day: at + 1, of: days.length } } : {}),
    ordered,
    plannedByNow: byNow,
    pace: ordered < byNow.low ? "below" : ordered > byNow.high ? "above" : "within",
    wholeDay: {
      likely: ordered + toCome,
      low: ordered + Math.max(0, toCome - strays),
      high: ordered + toCome + strays,
    },
    runsOut: outlook
      .flatMap(({ piece: { name, free }, need }) => {
        const when = need <= free ? null : whenGone(today, so, gone, Math.max(0, free) / need);
        return when === null ? [] : [{ name, free, at: when }];
      })
      .sort((one, other) => one.at - other.at)
      .map((one) => ({ ...one, at: iso(one.at) })),
    comesHome: outlook
      .map(({ piece: { name, free, loses }, need, needLater }) => {
        const left = Math.max(0, Math.round(free - need - needLater));
        return { name, free, left, loses: loses === null ? null : Math.round(left * loses) };
      })
      .filter(
        ({ free, left }) =>
          (at + gone) / days.length >= EARLIEST && left >= MUCH.pieces && left >= MUCH.share * free,
      )
      .sort((one, other) => (other.loses ?? 0) - (one.loses ?? 0) || other.left - one.left),
    stopPressing: so.rack.flatMap(({ name, garments, ...choice }) => {
      const share = shares.find((one) => isSame(one, choice))?.share ?? 0;
      const stillToSell = (toCome + later) * share;
      return garments >= stillToSell
        ? [{ name, onRack: garments, stillToSell: Math.round(10 * stillToSell) / 10 }]
        : [];
    }),
  };
}

const garmentsOf = (lines: readonly Ordered[]): number =>
  lines.reduce((sum, { garments }) => sum + garments, 0);
const likelyOf = (days: readonly KeptPlan[]): number =>
  days.reduce((sum, day) => sum + plannedBy(day, 1).likely, 0);

const isSame = (one: Choice, other: Choice): boolean =>
  one.offer === other.offer && one.colour === other.colour && one.size === other.size;

function dayGone({ now, opening }: SoFar): number {
  if (opening === null) return 0;
  return Math.min(1, Math.max(0, (now - opening.opens) / (opening.closes - opening.opens)));
}

/** The weight of the plan's own range, in orders: a gamma with the range's mean and spread. */
function priorOf({ likely, low, high }: Range): number {
  const deviation = (high - low) / NINE_IN_TEN;
  // Chance alone spreads a count by the root of its mean; only the rest is the plan's own doubt.
  const doubt = Math.max(deviation ** 2 - likely, 0.01 * likely ** 2, 1e-6);
  return likely ** 2 / doubt;
}

/** The plan's sales from opening to a part of the day, interpolated within each hour. */
function plannedBy({ hours, garments }: KeptPlan, gone: number): Range {
  const minutes = hours.reduce((sum, hour) => sum + hour.minutes, 0);
  let before: Range = { likely: 0, low: 0, high: 0 };
  let from = 0;
  for (const { minutes: length, soldBy } of hours) {
    const to = from + length / minutes;
    if (gone <= to) {
      const part = (gone - from) / (to - from);
      const between = (name: keyof Range): number => before[name] + part * (soldBy[name] - before[name]);
      return { likely: between("likely"), low: between("low"), high: between("high") };
    }
    [before, from] = [soldBy, to];
  }
  if (hours.length > 0) return before;
  return { likely: gone * garments.likely, low: gone * garments.low, high: gone * garments.high };
}

/** The expected share of each kind among the garments still to come. */
function sharesOf(
  { sold }: KeptPlan,
  ordered: readonly Ordered[],
  total: number,
): readonly (Choice & { readonly share: number })[] {
  const planned = sold.reduce((sum, { garments }) => sum + garments, 0);
  const worth = planned > 0 ? SHARES_WORTH : 0;
  const all: Choice[] = [...sold];
  for (const one of ordered) if (!all.some((other) => isSame(one, other))) all.push(one);
  return all.map((choice) => {
    const likely = sold.find((one) => isSame(one, choice))?.garments ?? 0;
    const seen = garmentsOf(ordered.filter((one) => isSame(one, choice)));
    const share = ((planned > 0 ? (worth * likely) / planned : 0) + seen) / Math.max(1, worth + total);
    return { offer: choice.offer, colour: choice.colour, size: choice.size, share };
  });
}

/** When a given part of the remaining sales will be done, by the plan's hours; null if the day has no opening. */
function whenGone(plan: KeptPlan, { now, opening }: SoFar, gone: number, part: number): Instant | null {
  if (opening === null || gone >= 1) return null;
  const start = plannedBy(plan, gone).likely;
  const wanted = start + part * (plannedBy(plan, 1).likely - start);
  let [low, high] = [gone, 1];
  // Bisection: sales never fall with time.
  for (let step = 0; step < 30; step++) {
    const middle = (low + high) / 2;
    if (plannedBy(plan, middle).likely < wanted) low = middle;
    else high = middle;
  }
  return Math.max(now, Math.round(opening.opens + high * (opening.closes - opening.opens)));
}
