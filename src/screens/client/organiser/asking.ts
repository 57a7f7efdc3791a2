/** The organiser's query: a stretch of time, and perhaps one stall's own quarters. */
import type { Throughput } from "../../../model/fair/throughput.ts";

/** "now", "today", "all", or a day of the fair. */
export type When = string;

const dayWords = (day: string): string =>
  new Intl.DateTimeFormat(undefined, {
    weekday: "long",
    day: "numeric",
    month: "long",
    year: "numeric",
    timeZone: "UTC",
  }).format(Date.parse(`${day}T12:00:00Z`));

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
  return dayWords(when === "today" ? today : when);
}

/** The days that have begun and are over: today is offered by its own name. */
const pastDays = ({ days, today }: Pick<Throughput, "days" | "today">): readonly string[] =>
  days.filter((day) => day < today).toReversed();

/** The stretches that can be asked for, by their values. */
export const stretches = (pace: Pick<Throughput, "days" | "today">): readonly (readonly [When, string])[] => [
  ["today", `Today, ${dayWords(pace.today)}`],
  ["now", "The last hour"],
  ...pastDays(pace).map((day) => [day, dayWords(day)] as const),
  ["all", "The whole fair"],
];
