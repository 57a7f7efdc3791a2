/** What the request for power takes from the plan of the day, as long as nothing else is typed there. */
import { hottest, liveHours, missingPresses } from "../../../planning/parts-from-plan.ts";
import { type Json, rowsAt, valueAt, withValue } from "../kit/json-pointer.ts";
import { wordAt } from "./groups/names.ts";

export type FromPlan = {
  readonly hours?: number;
  readonly pressTemperature?: { readonly value: number; readonly unit: "C" | "F" };
  /** Presses that are planned and not listed: each like the last one listed of its platen. */
  readonly presses: readonly { readonly load: string; readonly as: Json }[];
};

type Requests = { readonly plan: Json; readonly presses: Json; readonly power: Json };

const minuteOf = (clock: string): number | null => {
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})$/.exec(clock) ?? [];
  return hours === undefined || minutes === undefined ? null : Number(hours) * 60 + Number(minutes);
};

export function fromPlan({ plan, presses, power }: Requests): FromPlan {
  const [opens, closes] = [minuteOf(wordAt(plan, "#/opens")), minuteOf(wordAt(plan, "#/closes"))];
  const loads = rowsAt(power, "#/loads");
  const warmUps = loads.map((load) => Number(valueAt(load, "#/warmUpMinutes") ?? 0));
  const degrees = rowsAt(presses, "#/handling").flatMap((one) => {
    const [value, unit] = [valueAt(one, "#/temperature/value"), valueAt(one, "#/temperature/unit")];
    return typeof value === "number" && (unit === "C" || unit === "F") ? [{ value, unit } as const] : [];
  });
  const pressTemperature = hottest(degrees);
  return {
    ...(opens === null || closes === null || closes <= opens
      ? {}
      : { hours: liveHours(opens, closes, warmUps) }),
    ...(pressTemperature === undefined ? {} : { pressTemperature }),
    presses: missingPresses(
      rowsAt(plan, "#/presses").map((row) => ({
        platen: wordAt(row, "#/platen"),
        count: Number(wordAt(row, "#/count")),
      })),
      loads.map((load) => ({
        name: wordAt(load, "#/load"),
        isPress: valueAt(load, "#/kind") === "press",
      })),
    ).flatMap(({ name, like }) => {
      const as = loads[like];
      return as === undefined ? [] : [{ load: name, as }];
    }),
  };
}

/** The request for power with what the plan gives wherever nothing is typed. */
export function followingPlan(power: Json, given: FromPlan): Json {
  const filled = (["hours", "pressTemperature"] as const).reduce(
    (request: Json, name) =>
      valueAt(request, `#/${name}`) === undefined ? withValue(request, `#/${name}`, given[name]) : request,
    power,
  );
  const loads = rowsAt(power, "#/loads");
  return withValue(filled, "#/loads", [
    ...loads,
    ...given.presses.map(({ load, as }) => withValue(as, "#/load", load)),
  ]);
}
