/** The day's requests, kept in this browser at every keystroke so that a reload loses nothing, and in files. */
import pitch from "../../../../examples/pitch.json";
import plan from "../../../../examples/plan.json";
import power from "../../../../examples/power.json";
import presses from "../../../../examples/presses.json";
import sheets from "../../../../examples/sheets.json";
import { type Json, type Requested, rowsAt, valueAt, withValue } from "../kit/json-pointer.ts";
import { local } from "../kit/texts-kept.ts";
import { PARTS, type Part } from "./messages.ts";

/** Every part's request, and what the organiser's sheet says besides. */
export type Day = Readonly<Record<Part | "organiser", Json>>;

/** The sensible example everybody starts from: an invented fair. */
export const EXAMPLE: Day = {
  plan,
  sheets,
  presses,
  // Its hours and its heat follow the plan.
  power: ["#/hours", "#/pressTemperature"].reduce(
    (request: Json, name) => withValue(request, name, undefined),
    power,
  ),
  pitch,
  organiser: { stall: "Our stall" },
};

const PLACE = "planned day";

export function keepDay(day: Day): void {
  local.setItem(PLACE, JSON.stringify(day));
}

export function keptDay(): Day {
  const kept = local.getItem(PLACE);
  const read = kept === null ? null : dayIn(kept);
  return read?.day ?? EXAMPLE;
}

export type Found = { readonly day: Day; readonly what: string };

/** What a file's text holds: all the requests, one plan request, or lessons, beside the rest of the day; null where none. */
export function dayIn(text: string, rest: Day = EXAMPLE): Found | null {
  let read: Json;
  try {
    read = JSON.parse(text) as Json; // JSON holds nothing else
  } catch {
    return null;
  }
  const lessons = lessonsIn(read);
  if (lessons.length > 0)
    return { day: withLessons(rest, lessons), what: "The lessons are in: see the last group of figures" };
  if (!isRecord(read)) return null;
  if ("offers" in read) return { day: { ...rest, plan: read }, what: "The plan request is loaded" };
  if (!PARTS.some((part) => part in read)) return null;
  const found = read;
  const parts = [...PARTS, "organiser" as const].map((part) => [part, found[part] ?? rest[part]] as const);
  return { day: { ...rest, ...Object.fromEntries(parts) }, what: "All figures are loaded" };
}

const isRecord = (value: Json): value is Requested =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** One day's lessons, or several in a list: told by the fair and the day they are from. */
function lessonsIn(read: Json): readonly Json[] {
  const all: readonly Json[] = Array.isArray(read) ? read : [read];
  const are = all.every(
    (one) => isRecord(one) && ["id", "fair", "day"].every((name) => typeof one[name] === "string"),
  );
  return are ? all : [];
}

/** Lessons beside those there are; the same evidence, told by its id, is not kept twice. */
function withLessons(day: Day, lessons: readonly Json[]): Day {
  const ids = new Set(lessons.map((one) => valueAt(one, "#/id")));
  const others = rowsAt(day.plan, "#/lessons").filter((one) => !ids.has(valueAt(one, "#/id")));
  return { ...day, plan: withValue(day.plan, "#/lessons", [...others, ...lessons]) };
}
