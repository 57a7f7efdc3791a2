import { dirichletMean } from "../../maths/dirichlet.ts";
import { sampleQuantiles } from "../../maths/sample.ts";
import type { PlanDemand } from "../../model/planning/plan-answer.ts";
import type { Scenarios } from "../demand/asks.ts";
import { statedMoments } from "../demand/crowd.ts";
import { DAY_MINUTES, type Prepared } from "../request/prepared.ts";
import type { Measured } from "./measure.ts";

/** The demand in the answer: totals, hours, offers, and the mixes that were assumed. */
export function demandTold(
  prepared: Prepared,
  scenarios: Scenarios,
  apart: ReadonlySet<number>,
  measured: Measured,
): PlanDemand {
  const { count, starts } = scenarios;
  const { hours, offers, products, blanks, presses } = prepared;
  const byHour = hours.map(() => new Float64Array(count));
  const byOffer = offers.map(() => new Float64Array(count));
  const garments = new Float64Array(count);
  for (let day = 0; day < count; day++) {
    let hour = 0;
    garments[day] = (starts[day + 1] ?? 0) - (starts[day] ?? 0);
    for (let ask = starts[day] ?? 0; ask < (starts[day + 1] ?? 0); ask++) {
      while (hour + 1 < hours.length && (scenarios.minute[ask] ?? 0) >= (hours[hour + 1]?.startMinute ?? 0))
        hour++;
      addOne(byHour[hour], day);
      addOne(byOffer[products[scenarios.product[ask] ?? 0]?.offer ?? -1], day);
    }
  }
  const capacity = (minutes: number) =>
    presses.length === 0
      ? null
      : presses.reduce((sum, press) => sum + (press.count * minutes * 60) / press.seconds, 0);
  return {
    passersBy: spreadOf(scenarios.passersBy),
    orders: spreadOf(scenarios.orders),
    garments: spreadOf(garments),
    stated: statedMoments(prepared, apart).garments,
    hours: hours.map(({ day, startMinute, minutes }, hour) => ({
      ...(prepared.days.length > 1 ? { day: day + 1 } : {}),
      from: clock(startMinute % DAY_MINUTES),
      minutes,
      garments: spreadOf(byHour[hour] ?? []),
      pressed: measured.soldByHour[hour] ?? 0,
      soldBy: spreadAt(measured.soldUntil[hour]),
      ...(prepared.days.length > 1 ? { soldThatDay: spreadAt(measured.soldThatDay[hour]) } : {}),
      capacity: capacity(minutes),
    })),
    offers: offers.flatMap((offer, index) =>
      apart.has(index) ? [] : [{ offer: offer.id, garments: spreadOf(byOffer[index] ?? []) }],
    ),
    sizes: blanks.flatMap((blank) => {
      const shares = dirichletMean(blank.sizes.weights);
      return blank.sizes.names.map((size, at) => ({ blank: blank.id, size, share: shares[at] ?? 0 }));
    }),
    colours: blanks.flatMap((blank) => {
      const shares = dirichletMean(blank.colours.weights);
      return blank.colours.names.map((colour, at) => ({ blank: blank.id, colour, share: shares[at] ?? 0 }));
    }),
  };
}

const clock = (minute: number) =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;

function addOne(counts: Float64Array | undefined, at: number): void {
  if (counts !== undefined) counts[at] = (counts[at] ?? 0) + 1;
}

function spreadOf(values: ArrayLike<number>): { p5: number; p50: number; p95: number } {
  return spreadAt(sampleQuantiles(values, [0.05, 0.5, 0.95]));
}

const spreadAt = ([p5 = 0, p50 = 0, p95 = 0]: readonly number[] = []) => ({ p5, p50, p95 });
