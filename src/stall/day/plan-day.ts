/** The days of a plan on the fair's own calendar. */
import type { Identity } from "../../fair/reports.ts";
import type { KeptPlan } from "../../model/planning/kept-plan.ts";
import { type Day, dayOf } from "../../time/fair-day.ts";

/** Which of the plan's days a day of the fair is, from 1: the fair's open days are counted from the plan's date on. */
export function planDayOf(plan: KeptPlan, { openings, timeZone }: Identity, day: Day): number {
  const open = new Set([...openings.map(({ opens }) => dayOf(opens, timeZone)), day]);
  const count = [...open].filter((one) => one <= day && (plan.day === null || one >= plan.day)).length;
  return Math.min(plan.days ?? 1, Math.max(1, count));
}

/** The plan with the hours and the garments of one of its days; all other figures stay those of the whole plan. */
export function ofDay(plan: KeptPlan, planDay: number): KeptPlan {
  if (plan.days === undefined) return plan;
  const hours = plan.hours.filter(({ day }) => day === planDay);
  return { ...plan, hours, garments: hours.at(-1)?.soldBy ?? plan.garments };
}
