/** The columns of the organiser's table: the content and the sort key of each. */
import type { StallPace } from "../../../model/fair/throughput.ts";
import { moneyWords } from "../crew/words/money.ts";
import { minutesWords } from "./minutes.ts";
import { type Moment, minutesSince, minutesToClear, rankOf, signsOf } from "./signs.ts";
import { unmetWords } from "./unmet.ts";

export type Column = {
  readonly id: string;
  readonly heading: string;
  readonly isNumber: boolean;
  /** Whether it is about this moment; a sheet of a past day leaves it out. */
  readonly isNow: boolean;
  /** Whether it is hidden until more columns are asked for. */
  readonly isFurther: boolean;
  readonly text: (stall: StallPace, moment: Moment) => string;
  /** The sort key; null goes last in either direction. */
  readonly sortsBy: (stall: StallPace, moment: Moment) => number | string | null;
  /** Whether a first tap puts the greatest first. */
  readonly greatestFirst: boolean;
};

const NONE = "–";
/** Beside the stall and how it goes: what an organiser acts on. */
const MAIN: ReadonlySet<string> = new Set(["backlog", "clears", "perHour", "median"]);

const figure = (
  id: string,
  heading: string,
  of: (stall: StallPace, moment: Moment) => number | null,
  text: (value: number | null, stall: StallPace) => string = (value) => String(value ?? NONE),
): Column => ({
  id,
  heading,
  isNumber: true,
  isNow: false,
  isFurther: !MAIN.has(id),
  text: (stall, moment) => text(of(stall, moment), stall),
  sortsBy: of,
  greatestFirst: true,
});
const now = (column: Column): Column => ({ ...column, isNow: true });

const keptShare = ({ kept, promised }: StallPace): number | null => (promised === 0 ? null : kept / promised);

const toClear = (left: number | null): string => (left === null ? NONE : `${left} min`);

function ago(silent: number | null): string {
  if (silent === null) return "never";
  return silent < 1 ? "just now" : `${silent} min ago`;
}

export const COLUMNS: readonly Column[] = [
  {
    id: "stall",
    heading: "Stall",
    isNumber: false,
    isNow: false,
    isFurther: false,
    text: ({ name }) => name,
    sortsBy: ({ name }) => name.toLowerCase(),
    greatestFirst: false,
  },
  {
    id: "sign",
    heading: "Status",
    isNumber: false,
    isNow: true,
    isFurther: false,
    text: (stall, moment) => signsOf(stall, moment).join(", "),
    sortsBy: rankOf,
    greatestFirst: false,
  },
  now(figure("backlog", "Still to press", ({ backlog }) => backlog)),
  now({
    ...figure("clears", "Cleared in", (stall, moment) => minutesToClear(stall, moment.now), toClear),
    // Work that nothing is done about takes the longest.
    sortsBy: (stall, moment) => minutesToClear(stall, moment.now) ?? Number.POSITIVE_INFINITY,
  }),
  now(figure("crew", "Crew last seen", ({ crewAt }, moment) => minutesSince(crewAt, moment.now), ago)),
  now(figure("perHour", "Pressed an hour", ({ perHour }) => perHour)),
  figure("median", "Usual wait", ({ waitMinutes }) => waitMinutes.median, minutesWords),
  figure("p90", "90 % waited under", ({ waitMinutes }) => waitMinutes.p90, minutesWords),
  {
    ...figure("kept", "Promises kept", keptShare, (share) =>
      share === null ? NONE : `${Math.round(share * 100)} %`,
    ),
    greatestFirst: false,
  },
  figure("placed", "Orders", ({ placed }) => placed),
  figure("pressed", "Pressed", ({ pressed }) => pressed),
  figure("perPressHour", "Per press-hour", ({ perPressHour }) => perPressHour),
  figure("collected", "Handed over", ({ collected }) => collected),
  figure("dropped", "Cancelled", ({ dropped }) => dropped),
  figure(
    "unmet",
    "Turned away",
    ({ unmet }) => unmet,
    (_, stall) => unmetWords(stall),
  ),
  now(figure("soldOut", "Items sold out", ({ soldOut }) => soldOut)),
  figure(
    "texts",
    "Texts in / out",
    ({ textsIn }) => textsIn,
    (_, stall) => `${stall.textsIn} / ${stall.textsOut}`,
  ),
  figure(
    "takings",
    "Takings",
    ({ takings }) => takings?.amount ?? null,
    (_, { takings }) => (takings === null ? "not shared" : moneyWords(takings.amount, takings.currency)),
  ),
];

export type Order = { readonly column: Column; readonly descending: boolean };

/** The stalls in the order asked for; equal ones by backlog, then by name. */
export function sorted(
  stalls: readonly StallPace[],
  { column, descending }: Order,
  moment: Moment,
): StallPace[] {
  const keyed = stalls.map((stall) => ({ stall, key: column.sortsBy(stall, moment) }));
  return keyed
    .sort((one, other) => {
      if (one.key === null || other.key === null)
        return Number(one.key === null) - Number(other.key === null);
      if (one.key !== other.key) return one.key < other.key === descending ? 1 : -1;
      return other.stall.backlog - one.stall.backlog || one.stall.name.localeCompare(other.stall.name);
    })
    .map(({ stall }) => stall);
}
