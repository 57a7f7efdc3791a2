/** What the other parts of a day take from its plan, as long as nothing else is typed there. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import {
  handsFor,
  hottest,
  liveHours,
  type MissingPress,
  missingPresses,
  queueFromPlan,
  transfersToBuy,
} from "../../../../planning/parts-from-plan.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { wordAt } from "../groups/names.ts";
import { minuteOf } from "./clock.ts";
import type { Day } from "./first.ts";

export type FromPlan = {
  readonly hours: number | undefined;
  readonly pressTemperature: Json | undefined;
  readonly queue: number | undefined;
  /** The most people to try at the presses; undefined while none are planned. */
  readonly hands: number | undefined;
  /** Presses that are planned and not listed: each like the last one listed of its platen. */
  readonly loads: readonly MissingPress[];
  readonly pieces: readonly MissingPress[];
  /** By design: transfers to buy, and what one more is worth in minor units. */
  readonly transfers: ReturnType<typeof transfersToBuy>;
};

/** `plan` is the answer of the day's plan, as soon as there is one. */
export function fromPlan(day: Day, plan: Plan | null): FromPlan {
  const [opens, closes] = [minuteOf(valueAt(day.plan, "#/opens")), minuteOf(valueAt(day.plan, "#/closes"))];
  const presses = rowsAt(day.plan, "#/presses").map((row) => ({
    count: Number(wordAt(row, "#/count", "1")),
  }));
  const warmUps = rowsAt(day.power, "#/loads").map((load) => Number(valueAt(load, "#/warmUpMinutes") ?? 0));
  const degrees = rowsAt(day.presses, "#/handling").flatMap((one) => {
    const [value, unit] = [valueAt(one, "#/temperature/value"), valueAt(one, "#/temperature/unit")];
    return typeof value === "number" && (unit === "C" || unit === "F") ? [{ value, unit } as const] : [];
  });
  return {
    hours:
      opens === null || closes === null || closes <= opens ? undefined : liveHours(opens, closes, warmUps),
    pressTemperature: hottest(degrees),
    queue: plan === null ? undefined : queueFromPlan(plan),
    hands: presses.length === 0 ? undefined : handsFor(presses),
    loads: missing(day, rowsAt(day.power, "#/loads"), "load"),
    pieces: missing(day, rowsAt(day.pitch, "#/pieces"), "piece"),
    transfers: plan === null ? new Map() : transfersToBuy(plan.bring),
  };
}

function missing(day: Day, listed: readonly Json[], name: "load" | "piece"): readonly MissingPress[] {
  return missingPresses(
    rowsAt(day.plan, "#/presses").map((row) => ({
      platen: wordAt(row, "#/platen"),
      count: Number(wordAt(row, "#/count")),
    })),
    listed.map((row) => ({
      name: wordAt(row, `#/${name}`),
      isPress: valueAt(row, "#/kind") === "press",
    })),
  );
}

const filled = (request: Json, pointer: string, value: Json | undefined): Json =>
  valueAt(request, pointer) === undefined ? withValue(request, pointer, value) : request;

const withPresses = (request: Json, list: string, name: string, more: readonly MissingPress[]): Json => {
  const rows = rowsAt(request, list);
  return withValue(request, list, [
    ...rows,
    ...more.flatMap(({ name: called, like }) => {
      const one = rows[like];
      return one === undefined ? [] : [withValue(one, `#/${name}`, called)];
    }),
  ]);
};

export function powerFor({ power, plan }: Day, given: FromPlan): Json {
  const priced = withValue(power, "#/currency", wordAt(plan, "#/currency", "USD"));
  const known = filled(filled(priced, "#/hours", given.hours), "#/pressTemperature", given.pressTemperature);
  return withPresses(known, "#/loads", "load", given.loads);
}

/** People who queue if the plan has no answer yet. */
const USUAL_QUEUE = 6;

export function pitchFor({ pitch }: Day, given: FromPlan): Json {
  const people = filled(pitch, "#/queue/people", given.queue ?? USUAL_QUEUE);
  return withPresses(filled(people, "#/queue/where", "outside"), "#/pieces", "piece", given.pieces);
}

/** The sheets' designs with the plan's names, counts and worths; one of which none is bought is left out. */
export function sheetsFor({ sheets, plan }: Day, given: FromPlan): Json {
  const names = new Map(rowsAt(plan, "#/designs").map((row) => [wordAt(row, "#/id"), wordAt(row, "#/name")]));
  const designs = rowsAt(sheets, "#/designs").flatMap((design): Json[] => {
    const id = wordAt(design, "#/id");
    const wanted = given.transfers.get(id);
    const known = filled(
      filled(design, "#/count", wanted?.count),
      "#/valueOfOneMore",
      wanted === undefined ? undefined : wanted.oneMore,
    );
    if (valueAt(known, "#/count") === 0) return [];
    const name = names.get(id) ?? "";
    return [name === "" ? known : withValue(known, "#/name", name)];
  });
  return withValue(withValue(sheets, "#/designs", designs), "#/currency", wordAt(plan, "#/currency", "USD"));
}

/** The place of the tick that lets the sheets decide what the plan's transfers cost. */
export const BY_SHEET = "#/bySheet";

/** Whether the plan buys its transfers on the sheets of the day. */
export const isBySheet = ({ organiser, sheets }: Day): boolean =>
  valueAt(organiser, BY_SHEET) === true && wordAt(sheets, "#/question/ask", "least-cost") === "least-cost";

/** The plan request with the sheets that its transfers are bought on; the plan itself gives their counts. */
export function onSheets(plan: Json, day: Day): Json {
  if (!isBySheet(day)) return plan;
  const designs = rowsAt(day.sheets, "#/designs").map((design) => filled(design, "#/count", 1));
  const priced = withValue(day.sheets, "#/currency", wordAt(plan, "#/currency", "USD"));
  return withValue(plan, "#/parts/sheets", withValue(priced, "#/designs", designs));
}

/** Inches; from memory of what a full front takes. */
const USUAL_ART = 10;
const CENTIMETRES = 2.54;

/** Designs that are printed along and that the plan does not sell. */
const BESIDES = /^other-\d+$/;

/** The day with a row of the sheets for every design of the plan, in the plan's order, and for none that it lost. */
export function withDesigns(day: Day): Day {
  const rows = rowsAt(day.sheets, "#/designs");
  const side = wordAt(day.sheets, "#/unit", "in") === "cm" ? Math.round(USUAL_ART * CENTIMETRES) : USUAL_ART;
  const wanted = rowsAt(day.plan, "#/designs").map((design) => wordAt(design, "#/id"));
  const next = [
    ...wanted.map(
      (id): Json =>
        rows.find((row) => wordAt(row, "#/id") === id) ?? { id, name: id, width: side, height: side },
    ),
    ...rows.filter((row) => BESIDES.test(wordAt(row, "#/id")) && !wanted.includes(wordAt(row, "#/id"))),
  ];
  const same = next.length === rows.length && next.every((row, at) => row === rows[at]);
  return same ? day : { ...day, sheets: withValue(day.sheets, "#/designs", next) };
}
