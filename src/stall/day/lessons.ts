/** The evidence of one day, as the file that the planner reads. */

import type { Identity } from "../../fair/reports.ts";
import { watchedCrowd } from "../../lessons/crowd.ts";
import type { Lessons } from "../../model/accounts/lessons.ts";
import type { Platen } from "../../model/menu/catalogue.ts";
import { type Day, hourOf } from "../../time/fair-day.ts";
import { openingsOf } from "../state/account-day.ts";
import { type DayChoice, type DayHour, type DayRows, EMPTY_HOUR } from "../state/day-rows.ts";

const QUARTER = 15 * 60 * 1000;
/** The shortest and longest believable seconds from one pull to the next, as the planner has them. */
const [SHORTEST, LONGEST] = [5, 3600];

/** The id of a day's evidence: the same for the same day and stall, however often it is read. */
const evidenceId = ({ fair, stall }: Identity, day: Day): string => `${fair}/${stall}/${day}`;

/** The seconds that the fair is open in each clock hour of a day. */
function openHours(identity: Identity, day: Day): ReadonlyMap<string, number> {
  const hours = new Map<string, number>();
  // Count in quarter hours: in every time zone the hours begin on a quarter.
  for (const { opens, closes } of openingsOf(identity, day)) {
    for (let at = opens; at < closes; at += QUARTER) {
      const hour = hourOf(at, identity.timeZone);
      hours.set(hour, (hours.get(hour) ?? 0) + Math.min(QUARTER, closes - at) / 1000);
    }
  }
  return hours;
}

function summed<K extends string>(
  choices: readonly DayChoice[],
  keyOf: (choice: DayChoice) => Readonly<Record<K, string>>,
  asksOf: (choice: DayChoice) => number,
): (Readonly<Record<K, string>> & { readonly asks: number })[] {
  const rows = new Map<string, Readonly<Record<K, string>> & { asks: number }>();
  for (const choice of choices) {
    const key = keyOf(choice);
    const name = JSON.stringify(key);
    const row = rows.get(name) ?? { ...key, asks: 0 };
    rows.set(name, { ...row, asks: row.asks + asksOf(choice) });
  }
  return [...rows.values()].filter(({ asks }) => asks > 0);
}

/** The day's crowd: the organiser's figure if there is one, else the crew's count. */
function crowdOf(identity: Identity, day: Day, { totals }: DayRows) {
  const open = openHours(identity, day);
  const names = new Set([...open.keys(), ...Object.keys(totals.hours)]);
  const watched = watchedCrowd(
    [...names].map((hour) => {
      const { watchedSeconds, passersBy: people } = totals.hours[hour] ?? EMPTY_HOUR;
      return { hour, openSeconds: open.get(hour) ?? 0, watchedSeconds, people };
    }),
  );
  return totals.traffic === null ? watched : { ...totals.traffic, hours: watched?.hours ?? new Map() };
}

/** The evidence of one day; null if nobody asked for anything and nothing was pressed. */
export function lessonsOf(identity: Identity, day: Day, rows: DayRows): Lessons | null {
  const { totals, choices } = rows;
  const hours = Object.entries(totals.hours).sort(([one], [other]) => (one < other ? -1 : 1));
  const orders = hours.reduce((sum, [, { visits }]) => sum + visits, 0);
  const wished = choices.some(({ wishes }) => wishes.lines > 0);
  if (!wished && orders === 0 && totals.pressed === 0) return null;
  const crowd = crowdOf(identity, day, rows);
  const passersBy = Math.round(crowd?.passersBy ?? 0);
  const tries = totals.pressed > 0 || totals.spoiled > 0;
  return {
    id: evidenceId(identity, day),
    fair: identity.fairName.slice(0, 40),
    day,
    sizes: summed(
      choices,
      ({ blank, size }) => ({ blank, size }),
      ({ wishes }) => wishes.size,
    ),
    colours: summed(
      choices,
      ({ blank, colour }) => ({ blank, colour }),
      ({ wishes }) => wishes.colour,
    ),
    offers: summed(
      choices,
      ({ offer }) => ({ offer }),
      ({ wishes }) => wishes.lines,
    ),
    ...(crowd === null || passersBy < 1
      ? {}
      : {
          buying: { orders, passersBy, passersByUncertainty: Math.min(2, crowd.uncertainty) },
        }),
    hours: hours.filter(worthTelling).map(([hour, { visits }]) => {
      const seen = crowd?.hours.get(hour);
      return { hour, orders: visits, passersBy: seen === undefined ? null : Math.round(seen) };
    }),
    ...(tries
      ? { spoilage: { pressed: Math.max(0, totals.pressed), spoiled: Math.max(0, totals.spoiled) } }
      : {}),
    handling: Object.entries(totals.handling).map(([platen, { garments, seconds }]) => ({
      platen: platen as Platen, // the record's own keys
      garments,
      seconds: Math.min(LONGEST, Math.max(SHORTEST, seconds / garments)),
    })),
  };
}

const worthTelling = ([, { visits, watchedSeconds }]: readonly [string, DayHour]): boolean =>
  visits > 0 || watchedSeconds > 0;
