/** A day's requests, kept in this browser at every keystroke so that a reload loses nothing, and in files. */
import { isRecord, type Json, rowsAt, valueAt, withValue } from "../../kit/json-pointer.ts";
import { local } from "../../kit/texts-kept.ts";
import { PARTS } from "../messages.ts";
import { type Day, FIRST } from "./first.ts";
import { withDesigns } from "./parts.ts";

/** A plan as this browser keeps it. */
export type KeptPlan = { readonly id: string; readonly day: Day };

const DAY = "planned day ";
const OPEN = "plan open";

export function keepDay({ id, day }: KeptPlan): void {
  local.setItem(DAY + id, JSON.stringify(day));
  local.setItem(OPEN, id);
}

export const forgetDay = (id: string): void => local.removeItem(DAY + id);

/** Every plan that is kept here, the one looked at last first. */
export function keptPlans(): readonly KeptPlan[] {
  const open = local.getItem(OPEN);
  return local
    .entries()
    .flatMap(([name, text]): KeptPlan[] => {
      if (!name.startsWith(DAY)) return [];
      const read = dayIn(text);
      return read === null ? [] : [{ id: name.slice(DAY.length), day: read.day }];
    })
    .sort((a, b) => Number(b.id === open) - Number(a.id === open) || a.id.localeCompare(b.id));
}

const FORMAT = "stallpress-plans";

/** Every plan as one file. */
export const fileOfPlans = (plans: readonly KeptPlan[]): string =>
  JSON.stringify({ format: FORMAT, version: 1, plans: plans.map(({ day }) => day) }, null, 2);

/** The plans of such a file that are not kept yet; null if it is none. */
export function plansIn(text: string, have: readonly KeptPlan[]): readonly Day[] | null {
  let read: Json;
  try {
    read = JSON.parse(text) as Json; // JSON holds nothing else
  } catch {
    return null;
  }
  if (valueAt(read, "#/format") !== FORMAT) return null;
  const known = new Set(have.map(({ day }) => JSON.stringify(day)));
  return rowsAt(read, "#/plans").flatMap((one) => {
    const day = dayIn(JSON.stringify(one))?.day;
    return day === undefined || known.has(JSON.stringify(day)) ? [] : [day];
  });
}

export type Found = { readonly day: Day; readonly what: string };

/** The contents of a file: all the requests, one plan request, or lessons, merged into the day; null if none. */
export function dayIn(text: string, rest: Day = FIRST): Found | null {
  let read: Json;
  try {
    read = JSON.parse(text) as Json; // JSON holds nothing else
  } catch {
    return null;
  }
  const lessons = lessonsIn(read);
  if (lessons.length > 0)
    return {
      day: { ...rest, plan: withLessons(rest.plan, lessons) },
      what: "The lessons are in: see them under Costs",
    };
  if (!isRecord(read)) return null;
  if ("offers" in read)
    return { day: withDesigns({ ...rest, plan: read }), what: "The plan request is loaded" };
  if (!PARTS.some((part) => part in read)) return null;
  const parts = [...PARTS, "organiser" as const].map((part) => [part, read[part] ?? rest[part]] as const);
  return { day: { ...rest, ...Object.fromEntries(parts) }, what: "All figures are loaded" };
}

/** One day's lessons, or a list of several. */
function lessonsIn(read: Json): readonly Json[] {
  const all: readonly Json[] = Array.isArray(read) ? read : [read];
  const are = all.every(
    (one) => isRecord(one) && ["id", "fair", "day"].every((name) => typeof one[name] === "string"),
  );
  return are ? all : [];
}

/** Adds lessons to a plan request; the same evidence, by its id, is kept once. */
export function withLessons(plan: Json, lessons: readonly Json[]): Json {
  const ids = new Set(lessons.map((one) => valueAt(one, "#/id")));
  const others = rowsAt(plan, "#/lessons").filter((one) => !ids.has(valueAt(one, "#/id")));
  return withValue(plan, "#/lessons", [...others, ...lessons]);
}
