/** This fair beside an earlier one, from the file that was saved then. Pure. */
import type { Money } from "../../../../model/basics/money.ts";
import { ok, type Result, refused } from "../../../../model/basics/result.ts";
import type { Quarter, Throughput } from "../../../../model/fair/throughput.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { minutesWords } from "../minutes.ts";

const COUNTS = ["placed", "garments", "pressed", "collected", "dropped", "unmet", "textsIn"] as const;
type Counts = Readonly<Record<(typeof COUNTS)[number] | "promised" | "kept", number>>;
const EVERY_COUNT = [...COUNTS, "promised", "kept"] as const;

/** What is kept of an earlier fair. */
export type EarlierFair = {
  readonly fair: string;
  readonly days: readonly string[];
  readonly total: Counts;
  readonly medianWait: number | null;
  readonly takings: readonly Money[];
  /** By the quarter of an hour: its day counted from 0, the time on the fair's clock, and its counts. */
  readonly quarters: readonly (Counts & { readonly day: number; readonly time: string })[];
  readonly stalls: readonly {
    readonly stall: string;
    readonly name: string;
    readonly placed: number;
    readonly pressed: number;
  }[];
};

/** The counts of a tally; one that an older file does not have is 0. */
const countsOf = (tally: Partial<Counts>): Counts => {
  const counts = EVERY_COUNT.map((name) => [name, tally[name] ?? 0]);
  return Object.fromEntries(counts) as Counts; // of just these names
};

/** A quarter's place in its fair: days opened before, and the time on the fair's clock. */
const placeOf = ({ start }: Pick<Quarter, "start">, days: readonly string[]) => ({
  // What happened before the doors opened, or after midnight, belongs to the day before.
  day: Math.max(
    0,
    days.findLastIndex((day) => day <= start.slice(0, 10)),
  ),
  time: start.slice(11, 16),
});

export function earlierFair({ fair, days, total, stalls, buckets }: Throughput): EarlierFair {
  return {
    fair,
    days,
    total: countsOf(total),
    medianWait: total.waitMinutes.median,
    takings: total.takings,
    quarters: buckets.map((quarter) => ({ ...countsOf(quarter), ...placeOf(quarter, days) })),
    stalls: stalls.map(({ stall, name, placed, pressed }) => ({ stall, name, placed, pressed })),
  };
}

/** Reads a saved file: a fair's whole figures, as the button beside this one saves them. */
export function readEarlier(text: string): Result<EarlierFair, string> {
  const notOne = refused(
    "This file has no figures of a fair. Choose the file that “Save this fair’s figures” made.",
  );
  try {
    const saved = JSON.parse(text) as Throughput; // checked by reading: a missing part throws
    const earlier = earlierFair(saved);
    const isWhole = typeof earlier.fair === "string" && typeof saved.total.placed === "number";
    return isWhole ? ok(earlier) : notOne;
  } catch {
    return notOne;
  }
}

/** The counts of an earlier fair up to the same day and time of day. */
function until({ quarters }: EarlierFair, day: number, time: string): Counts {
  const before = quarters.filter((one) => one.day < day || (one.day === day && one.time < time));
  return countsOf(
    Object.fromEntries(EVERY_COUNT.map((name) => [name, before.reduce((sum, one) => sum + one[name], 0)])),
  );
}

export type YearRow = {
  readonly of: string;
  readonly now: string;
  /** The earlier fair by the same day and time; null if that is not known. */
  readonly byNow: string | null;
  /** "+12 %"; null if there is nothing to compare with. */
  readonly change: string | null;
  readonly inAll: string;
};

const NAMES: Readonly<Record<(typeof COUNTS)[number], string>> = {
  placed: "Orders",
  garments: "Garments ordered",
  pressed: "Garments pressed",
  collected: "Orders handed over",
  dropped: "Orders cancelled",
  unmet: "Requests turned away",
  textsIn: "Texts that came in",
};

function changeWords(now: number, then: number): string | null {
  if (then === 0) return null;
  const percent = Math.round(((now - then) / then) * 100);
  return `${percent > 0 ? "+" : percent < 0 ? "−" : "±"}${Math.abs(percent)} %`;
}

const share = ({ kept, promised }: Counts): string =>
  promised === 0 ? "–" : `${Math.round((kept / promised) * 100)} %`;

const moneyOf = (takings: readonly Money[]): string =>
  takings.length === 0
    ? "–"
    : takings.map(({ amount, currency }) => moneyWords(amount, currency)).join(" + ");

/** The clock of a fair at an instant, as "2027-06-12" and "10:15". */
function clockAt(asOf: string, timeZone: string): { readonly date: string; readonly time: string } {
  const shown = new Intl.DateTimeFormat("sv-SE", { timeZone, dateStyle: "short", timeStyle: "short" }).format(
    Date.parse(asOf),
  );
  return { date: shown.slice(0, 10), time: shown.slice(11, 16) };
}

/** A row a figure: this fair so far, the earlier one by the same day and time of day, and the earlier one in all. */
export function yearRows(now: Throughput, earlier: EarlierFair): readonly YearRow[] {
  const { date, time } = clockAt(now.asOf, now.timeZone);
  const day = now.days.findLastIndex((one) => one <= date);
  const then = until(earlier, day, time);
  const mine = countsOf(now.total);
  return [
    ...COUNTS.map((name) => ({
      of: NAMES[name],
      now: String(mine[name]),
      byNow: String(then[name]),
      change: changeWords(mine[name], then[name]),
      inAll: String(earlier.total[name]),
    })),
    { of: "Promises kept", now: share(mine), byNow: share(then), change: null, inAll: share(earlier.total) },
    {
      of: "Usual wait",
      now: minutesWords(now.total.waitMinutes.median),
      byNow: null,
      change: null,
      inAll: minutesWords(earlier.medianWait),
    },
    {
      of: "Takings of stalls that share them",
      now: moneyOf(now.total.takings),
      byNow: null,
      change: null,
      inAll: moneyOf(earlier.takings),
    },
  ];
}

export type StallYears = { readonly name: string; readonly now: string; readonly inAll: string };

/** The garments pressed by each stall of either fair: a stall is the same one if its short name is. */
export function stallYears(now: Throughput, earlier: EarlierFair): readonly StallYears[] {
  const before = new Map(earlier.stalls.map((one) => [one.stall, one]));
  const here = now.stalls.map(({ stall, name, pressed }) => ({
    name,
    now: String(pressed),
    inAll: String(before.get(stall)?.pressed ?? "–"),
  }));
  const present = new Set<string>(now.stalls.map(({ stall }) => stall));
  const gone = earlier.stalls
    .filter(({ stall }) => !present.has(stall))
    .map(({ name, pressed }) => ({ name, now: "–", inAll: String(pressed) }));
  return [...here, ...gone].sort((one, other) => one.name.localeCompare(other.name));
}
