/**
 * The loop: whether the fourth fair earns more when it is planned with the lessons of the first three. A simulator of
 * its own plays each vendor's fourth fair on the same fresh days with both stocks.
 */
import { bestStock, daysOf } from "../planning/days.ts";
import type { Bench, Figure } from "./figure.ts";
import {
  dayOf,
  fairOf,
  lessonsFrom,
  profitOf,
  randomFor,
  requestOf,
  type Stock,
  vendorOf,
} from "./loop/vendors.ts";

const VENDORS = 200;
const FAIRS_BEFORE = 3;
const FRESH_DAYS = 200;
const DAYS_PLANNED_ON = 300;

function stockFor(lessons: Parameters<typeof requestOf>[0]): Stock {
  const days = daysOf(requestOf(lessons), DAYS_PLANNED_ON);
  const { stock } = bestStock(days);
  return new Map(days.shop.goods.map(({ id }, at) => [id, stock[at] ?? 0]));
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function run(): readonly Figure[] {
  const without = stockFor([]);
  const gains = Array.from({ length: VENDORS }, (_, at) => {
    const random = randomFor(at);
    const vendor = vendorOf(random);
    const lessons = Array.from({ length: FAIRS_BEFORE }, (__, fair) =>
      lessonsFrom(dayOf(fairOf(vendor, random), random), fair + 1),
    );
    const fourth = fairOf(vendor, random);
    const fresh = Array.from({ length: FRESH_DAYS }, () => dayOf(fourth, random));
    const withLoop = stockFor(lessons);
    const before = mean(fresh.map((day) => profitOf(without, day)));
    return mean(fresh.map((day) => profitOf(withLoop, day))) / before - 1;
  });
  const sorted = [...gains].sort((a, b) => a - b);
  const share = (wanted: (gain: number) => boolean) => gains.filter(wanted).length / VENDORS;
  const figure = (name: string, value: number, unit: string, goal: Figure["goal"] = null): Figure => ({
    bench: "loop",
    name,
    figure: value,
    unit,
    goal,
  });
  return [
    figure("profit of fair 4 with the loop, beyond without", mean(gains), "share", { atLeast: 0.08 }),
    figure("the same, middle vendor", sorted[VENDORS / 2] ?? Number.NaN, "share"),
    figure(
      "vendors whom it helps",
      share((gain) => gain > 0),
      "share",
    ),
    figure(
      "vendors worse off by more than 1 %",
      share((gain) => gain < -0.01),
      "share",
      { atMost: 0.05 },
    ),
    figure("the worst vendor", sorted[0] ?? Number.NaN, "share"),
  ];
}

export const bench: Bench = { name: "loop", run: () => Promise.resolve(run()) };
