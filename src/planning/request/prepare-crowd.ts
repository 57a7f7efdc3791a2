import type { Lessons } from "../../model/accounts/lessons.ts";
import type { WeightGiven } from "../../model/planning/plan-given.ts";
import type { PlanRequest } from "../../model/planning/plan-request.ts";
import { buyingRate, spreadOut } from "./buying-rate.ts";
import type { FaultPath, Faults } from "./faults.ts";
import type { GivenRange, Reader } from "./given.ts";
import { type Buying, DAY_MINUTES, type Hour, type Weather } from "./prepared.ts";

/** Standard normal 95 % point: low and high are 5 and 95 % points. */
const Z95 = 1.6448536269514722;
/** The spread if only one figure was given; common practice, no source. */
/** A low share below this part of the high one says no more about how fairs differ. */
const LEAST_PART = 0.02;
const LONE_CROWD = { known: { low: 0.7, high: 1.4 }, fresh: { low: 0.5, high: 1.8 } };
const LONE_BUYING = { known: 0.2, fresh: 0.35 };
/** The extra uncertainty of a crew that was never there; common practice, no source. */
const NEW_FAIR_WIDENS = 1.4;

/** A weight as given, and its place in the request. */
type Weighed = { readonly given: WeightGiven; readonly at: FaultPath };

/** Weights as shares of their sum. Refuses a list of nothing but 0, and one of per cents beside bare numbers above 1. */
export function sharesOf(
  rows: readonly Weighed[],
  path: FaultPath,
  what: string,
  read: Reader,
  faults: Faults,
): number[] {
  const weights = rows.map(({ given, at }) => read.weight(given, at));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  if (sum === 0) faults.add(path, `${what} are all 0`, "give at least one of them more than 0");
  const isPercent = ({ given }: Weighed) => typeof given === "string" && given.includes("%");
  const bare = rows.find((row, at) => !isPercent(row) && (weights[at] ?? 0) > 1);
  if (bare !== undefined && rows.some(isPercent))
    faults.add(
      bare.at,
      `${bare.given} is no per cent, and others of the list are`,
      "write a % behind all of them or behind none",
    );
  return weights.map((weight) => (sum > 0 ? weight / sum : 0));
}

export type PreparedCrowd = { readonly crowd: GivenRange; readonly hours: readonly Hour[] };

/** The passers-by of a usual day, and the hours of every day of the fair. */
export function prepareCrowd(request: PlanRequest, read: Reader, faults: Faults): PreparedCrowd {
  const { crowd, hours } = prepareDay(request, read, faults);
  const days = Math.max(1, request.days.length);
  const every = Array.from({ length: days }, (_, day) =>
    hours.map((hour) => ({ ...hour, day, startMinute: hour.startMinute + day * DAY_MINUTES })),
  );
  return { crowd, hours: every.flat() };
}

function prepareDay(request: PlanRequest, read: Reader, faults: Faults): PreparedCrowd {
  const opens = read.clock(request.opens);
  const closes = read.clock(request.closes);
  if (closes <= opens) {
    faults.add(
      ["closes"],
      `closes at ${request.closes}, before it opens at ${request.opens}`,
      "put closing after opening; plan a fair over midnight as two days",
    );
  }
  const { traffic } = request;
  if (traffic === undefined)
    return { crowd: { low: 0, likely: 0, high: 0 }, hours: wholeHours(opens, closes) };

  if (traffic.kind === "total") {
    const crowd = crowdOf([traffic.passersBy], [["traffic", "passersBy"]], request.newFair, read);
    if (traffic.profile === undefined) return { crowd, hours: wholeHours(opens, closes) };
    const path = ["traffic", "profile"];
    const given = traffic.profile.map(({ share }, index) => ({
      given: share,
      at: [...path, index, "share"],
    }));
    const shares = sharesOf(given, path, "the hours' shares of the crowd", read, faults);
    return {
      crowd,
      hours: hoursFrom(
        traffic.profile.map((hour) => hour.from),
        shares,
        request,
        path,
        read,
        faults,
      ),
    };
  }
  const path = ["traffic", "hours"];
  const counts = traffic.hours.map(
    (hour, index) => read.passersBy(hour.passersBy, [...path, index, "passersBy"]).likely,
  );
  const sum = counts.reduce((total, count) => total + count, 0);
  const crowd = crowdOf(
    traffic.hours.map((hour) => hour.passersBy),
    traffic.hours.map((_, index) => [...path, index, "passersBy"]),
    request.newFair,
    read,
  );
  const shares = counts.map((count) => (sum > 0 ? count / sum : 0));
  return {
    crowd,
    hours: hoursFrom(
      traffic.hours.map((hour) => hour.from),
      shares,
      request,
      path,
      read,
      faults,
    ),
  };
}

type PassersByGiven = Parameters<Reader["passersBy"]>[0];

/** The sum of counts that rise and fall together, since a good day is good at every hour. */
function crowdOf(
  given: readonly PassersByGiven[],
  paths: readonly FaultPath[],
  newFair: boolean,
  read: Reader,
): GivenRange {
  const lone = newFair ? LONE_CROWD.fresh : LONE_CROWD.known;
  const widen = newFair ? NEW_FAIR_WIDENS : 1;
  let low = 0;
  let likely = 0;
  let high = 0;
  given.forEach((count, index) => {
    const range =
      typeof count === "object"
        ? read.passersBy(count, paths[index] ?? [])
        : { low: count * lone.low, likely: count, high: count * lone.high };
    const stretch = typeof count === "object" ? widen : 1;
    likely += range.likely;
    low += range.likely === 0 ? 0 : range.likely * (Math.max(range.low, 1e-9) / range.likely) ** stretch;
    high += range.likely === 0 ? 0 : range.likely * (range.high / range.likely) ** stretch;
  });
  return { low, likely, high };
}

function wholeHours(opens: number, closes: number): Hour[] {
  const hours: Hour[] = [];
  for (let start = opens; start < closes; start += 60) {
    const minutes = Math.min(60, closes - start);
    hours.push({ day: 0, startMinute: start, minutes, share: minutes / (closes - opens) });
  }
  return hours;
}

function hoursFrom(
  froms: readonly string[],
  shares: readonly number[],
  request: PlanRequest,
  path: FaultPath,
  read: Reader,
  faults: Faults,
): Hour[] {
  const opens = read.clock(request.opens);
  const closes = read.clock(request.closes);
  const starts = froms.map((from) => read.clock(from));
  return starts.map((start, index) => {
    const end = starts[index + 1] ?? closes;
    if (start < opens || start >= closes) {
      faults.add(
        [...path, index, "from"],
        `${froms[index]} is outside opening, ${request.opens} to ${request.closes}`,
        "take the hour out or change the opening",
      );
    } else if (end <= start) {
      faults.add(
        [...path, index + 1, "from"],
        `${froms[index + 1]} does not come after ${froms[index]}`,
        "put the hours in order, each once",
      );
    }
    return { day: 0, startMinute: start, minutes: Math.max(1, end - start), share: shares[index] ?? 0 };
  });
}

/** Weather as cumulative chances; fair weather if none is given. */
export function prepareWeather(request: PlanRequest, read: Reader, faults: Faults): Weather[] {
  if (request.weather.length === 0) return [{ name: "usual", upTo: 1, crowd: 1 }];
  const given = request.weather.map(({ chance }, index) => ({
    given: chance,
    at: ["weather", index, "chance"],
  }));
  let upTo = 0;
  const shares = sharesOf(given, ["weather"], "the chances of the weather", read, faults);
  return request.weather.map(({ name, crowd }, index) => {
    upTo += shares[index] ?? 0;
    return { name, upTo, crowd };
  });
}

/** The share who stop and buy, sharpened by what earlier fairs counted. */
export function prepareBuying(
  request: PlanRequest,
  fairs: readonly (readonly Lessons[])[],
  read: Reader,
  faults: Faults,
): Buying | null {
  const { buying } = request;
  if (buying === undefined) return null;
  const range = read.shareRange(buying.share, ["buying", "share"]);
  const path = ["buying", "garmentsPerOrder"];
  const given = buying.garmentsPerOrder.map(({ share }, index) => ({
    given: share,
    at: [...path, index, "share"],
  }));
  const shares = sharesOf(given, path, "the shares of garments per order", read, faults);
  let upTo = 0;
  const garments = buying.garmentsPerOrder.map((row, index) => {
    upTo += shares[index] ?? 0;
    return { garments: row.garments, upTo };
  });
  const meanGarments = buying.garmentsPerOrder.reduce(
    (sum, row, index) => sum + row.garments * (shares[index] ?? 0),
    0,
  );

  const lone = request.newFair ? LONE_BUYING.fresh : LONE_BUYING.known;
  const widen = request.newFair ? NEW_FAIR_WIDENS : 1;
  const rest = { garments, meanGarments, bunching: buying.bunching };
  if (range.likely === 0 || (typeof buying.share === "object" && range.low === range.high))
    return { rate: range.likely, ...rest };
  const spread =
    typeof buying.share === "object"
      ? {
          low: range.likely * (range.low / range.likely) ** widen,
          high: range.likely * (range.high / range.likely) ** widen,
        }
      : { low: range.likely * Math.exp(-Z95 * lone), high: range.likely * Math.exp(Z95 * lone) };
  // Fairs differ by as much as the guess is in doubt, so the next one strays as far however many were counted.
  const strays = Math.log(spread.high / Math.max(spread.low, LEAST_PART * spread.high)) / (2 * Z95);
  const counted = fairs.flatMap((days) => {
    const seen = days.flatMap(({ buying: one }) => one ?? []);
    const orders = seen.reduce((sum, day) => sum + day.orders, 0);
    const passersBy = seen.reduce((sum, day) => sum + day.passersBy, 0);
    if (orders === 0) return [];
    const uncertainty = Math.max(...seen.map((day) => day.passersByUncertainty));
    // A crowd that was only guessed teaches less: as many orders as would be that uncertain by chance alone.
    const worth = 1 / (1 / orders + uncertainty ** 2 + strays ** 2);
    return [{ orders: worth, passersBy: (worth * passersBy) / orders }];
  });
  const usual = buyingRate({ ...spread, likely: range.likely }, counted);
  return { rate: counted.length === 0 ? usual : spreadOut(usual, strays), ...rest };
}
