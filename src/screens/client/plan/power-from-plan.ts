/** What the request for power takes from the plan of the day, as long as nothing else is typed there. */
import { hottest, liveHours } from "../../../planning/power-from-plan.ts";
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
    presses: rowsAt(plan, "#/presses").flatMap((planned) => missing(planned, loads)),
  };
}

/** Presses are known by their names: a "flat press" has a flat platen. */
function missing(planned: Json, loads: readonly Json[]): FromPlan["presses"] {
  const platen = wordAt(planned, "#/platen");
  const listed = loads.filter(
    (load) => valueAt(load, "#/kind") === "press" && wordAt(load, "#/load").split(" ").includes(platen),
  );
  const like = listed.at(-1);
  if (like === undefined) return [];
  const more = Math.min(MOST_ADDED, Math.max(0, Number(wordAt(planned, "#/count")) - listed.length)) || 0;
  return Array.from({ length: more }, (_, at) => ({
    load: `${platen} press ${listed.length + at + 1} from the plan`,
    as: like,
  }));
}
/** Presses of one platen that are added; more than this is a slip of the finger. */
const MOST_ADDED = 20;

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
