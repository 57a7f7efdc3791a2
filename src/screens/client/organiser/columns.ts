/** The columns of the organiser's table: what each shows, and what it sorts by. */
import type { StallPace } from "../../../model/throughput.ts";
import { minutesSilent, minutesToClear, rankOf, signsOf } from "./signs.ts";

export type Column = {
  readonly id: string;
  readonly heading: string;
  readonly isNumber: boolean;
  readonly text: (stall: StallPace, now: number) => string;
  /** What it sorts by; null goes last either way. */
  readonly sortsBy: (stall: StallPace, now: number) => number | string | null;
  /** Whether a first tap puts the greatest first. */
  readonly greatestFirst: boolean;
};

const NONE = "–";
const minutes = (value: number | null): string => (value === null ? NONE : `${Math.round(value)} min`);

const count = (id: string, heading: string, of: (stall: StallPace) => number): Column => ({
  id,
  heading,
  isNumber: true,
  text: (stall) => String(of(stall)),
  sortsBy: of,
  greatestFirst: true,
});

const wait = (id: string, heading: string, of: (stall: StallPace) => number | null): Column => ({
  id,
  heading,
  isNumber: true,
  text: (stall) => minutes(of(stall)),
  sortsBy: of,
  greatestFirst: true,
});

const keptShare = ({ kept, promised }: StallPace): number | null => (promised === 0 ? null : kept / promised);

function ago(silent: number | null): string {
  if (silent === null) return "never";
  return silent < 1 ? "just now" : `${silent} min ago`;
}

export const COLUMNS: readonly Column[] = [
  {
    id: "stall",
    heading: "Stall",
    isNumber: false,
    text: ({ name }) => name,
    sortsBy: ({ name }) => name.toLowerCase(),
    greatestFirst: false,
  },
  {
    id: "sign",
    heading: "How it goes",
    isNumber: false,
    text: (stall, now) => signsOf(stall, now).join(", "),
    sortsBy: rankOf,
    greatestFirst: false,
  },
  count("backlog", "Still to press", ({ backlog }) => backlog),
  {
    id: "clears",
    heading: "Cleared in",
    isNumber: true,
    text: (stall) => minutes(minutesToClear(stall)),
    // Work that nothing is done about takes the longest.
    sortsBy: (stall) => minutesToClear(stall) ?? Number.POSITIVE_INFINITY,
    greatestFirst: true,
  },
  {
    id: "heard",
    heading: "Last heard",
    isNumber: true,
    text: (stall, now) => ago(minutesSilent(stall, now)),
    sortsBy: minutesSilent,
    greatestFirst: true,
  },
  count("perHour", "Pressed an hour", ({ perHour }) => perHour),
  wait("median", "Usual wait", ({ waitMinutes }) => waitMinutes.median),
  wait("p90", "9 in 10 within", ({ waitMinutes }) => waitMinutes.p90),
  {
    id: "kept",
    heading: "Promises kept",
    isNumber: true,
    text: (stall) => {
      const share = keptShare(stall);
      return share === null ? NONE : `${Math.round(share * 100)} %`;
    },
    sortsBy: keptShare,
    greatestFirst: false,
  },
  count("placed", "Orders", ({ placed }) => placed),
  count("pressed", "Pressed", ({ pressed }) => pressed),
  count("collected", "Handed over", ({ collected }) => collected),
  count("dropped", "Dropped", ({ dropped }) => dropped),
  count("unmet", "Asks unmet", ({ unmet }) => unmet),
  count("soldOut", "Offers gone", ({ soldOut }) => soldOut),
];

export type Order = { readonly column: Column; readonly descending: boolean };

/** The stalls in the order asked for; equal ones by backlog, then by name. */
export function sorted(
  stalls: readonly StallPace[],
  { column, descending }: Order,
  now: number,
): StallPace[] {
  const keyed = stalls.map((stall) => ({ stall, key: column.sortsBy(stall, now) }));
  return keyed
    .sort((one, other) => {
      if (one.key === null || other.key === null)
        return Number(one.key === null) - Number(other.key === null);
      if (one.key !== other.key) return one.key < other.key === descending ? 1 : -1;
      return other.stall.backlog - one.stall.backlog || one.stall.name.localeCompare(other.stall.name);
    })
    .map(({ stall }) => stall);
}
