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

function stockFor(request: ReturnType<typeof requestOf>): Stock {
  const days = daysOf(request, DAYS_PLANNED_ON);
  const { stock } = bestStock(days);
  return new Map(days.shop.goods.map(({ id }, at) => [id, stock[at] ?? 0]));
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

type Gains = {
  /** On fresh days of the fourth fair as it came, and of as many fourth fairs as days. */
  readonly fourth: number;
  readonly anyFourth: number;
  /** Of a plan that knows the vendor's truth, on the fourth fair as it came: no lessons can teach more. */
  readonly known: number;
};

function gainsOf(at: number, without: Stock): Gains {
  const random = randomFor(at);
  const vendor = vendorOf(random);
  const lessons = Array.from({ length: FAIRS_BEFORE }, (_, fair) =>
    lessonsFrom(dayOf(fairOf(vendor, random), random), fair + 1),
  );
  const fourth = fairOf(vendor, random);
  const fresh = Array.from({ length: FRESH_DAYS }, () => dayOf(fourth, random));
  const others = Array.from({ length: FRESH_DAYS }, () => dayOf(fairOf(vendor, random), random));
  const withLoop = stockFor(requestOf(lessons));
  const gain = (stock: Stock, days: typeof fresh): number =>
    mean(days.map((day) => profitOf(stock, day))) / mean(days.map((day) => profitOf(without, day))) - 1;
  return {
    fourth: gain(withLoop, fresh),
    anyFourth: gain(withLoop, others),
    known: gain(stockFor(requestOf([], vendor)), fresh),
  };
}

function run(): readonly Figure[] {
  const without = stockFor(requestOf([]));
  const all = Array.from({ length: VENDORS }, (_, at) => gainsOf(at, without));
  const gains = all.map(({ fourth }) => fourth);
  const sorted = [...gains].sort((a, b) => a - b);
  const worse = (of: readonly number[]): number => of.filter((gain) => gain < -0.01).length / VENDORS;
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
    figure("vendors whom it helps", gains.filter((gain) => gain > 0).length / VENDORS, "share"),
    figure("vendors worse off by more than 1 %", worse(gains), "share", { atMost: 0.05 }),
    figure("the same, over many fourth fairs", worse(all.map(({ anyFourth }) => anyFourth)), "share"),
    figure(
      "the same, by chance alone: with the truth about the vendor known",
      worse(all.map(({ known }) => known)),
      "share",
    ),
    figure("the worst vendor", sorted[0] ?? Number.NaN, "share"),
  ];
}

export const bench: Bench = { name: "loop", run: () => Promise.resolve(run()) };
