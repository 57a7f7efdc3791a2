/** The organiser's query: a stretch of time, and perhaps one stall's own quarters. */
import type { Throughput } from "../../../model/fair/throughput.ts";
import { dayInWords } from "../../../time/day-in-words.ts";

/** "now", "today", "all", or a day of the fair. */
export type When = string;

/** The query that asks for it. */
export function queryOf(when: When, stall: string | null): string {
  const query = new URLSearchParams(/^\d/.test(when) ? { day: when } : { span: when });
  if (stall !== null) query.set("stall", stall);
  return query.toString();
}

/** The stretch in words, as a sheet of it is headed. */
export function whenWords(when: When, { today }: Pick<Throughput, "today">): string {
  if (when === "now") return "The last hour";
  if (when === "all") return "The whole fair";
  return dayInWords(when === "today" ? today : when);
}

/** The days that have begun and are over: today is offered by its own name. */
const pastDays = ({ days, today }: Pick<Throughput, "days" | "today">): readonly string[] =>
  days.filter((day) => day < today).toReversed();

/** The stretches that can be asked for, by their values. */
export const stretches = (pace: Pick<Throughput, "days" | "today">): readonly (readonly [When, string])[] => [
  ["today", `Today, ${dayInWords(pace.today)}`],
  ["now", "The last hour"],
  ...pastDays(pace).map((day) => [day, dayInWords(day)] as const),
  ["all", "The whole fair"],
];
