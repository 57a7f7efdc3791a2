/** The pace of a fair as a sheet: a row a stall and one of the whole fair, or a row a stall and quarter. */
import { type Cell, type Column, csvOf } from "../../model/basics/csv.ts";
import { MINOR_DIGITS, type Money } from "../../model/basics/money.ts";
import type { Quarter, StallPace, Tally, Throughput } from "../../model/fair/throughput.ts";

const COUNTS: readonly (readonly [field: keyof Tally, heading: string])[] = [
  ["textsIn", "Texts in"],
  ["textsOut", "Texts out"],
  ["segmentsOut", "Text segments out"],
  ["asked", "Garments asked for"],
  ["placed", "Orders placed"],
  ["garments", "Garments ordered"],
  ["pressed", "Garments pressed"],
  ["spoiled", "Garments spoiled"],
  ["collected", "Orders collected"],
  ["dropped", "Orders dropped"],
  ["unmet", "Garments asked for in vain"],
  ["unmetSoldOut", "In vain: sold out"],
  ["unmetClosed", "In vain: closed"],
  ["unmetWait", "In vain: too long a wait"],
  ["promised", "Orders ready, with a promise"],
  ["kept", "Promises kept"],
];

type Counted = Tally & {
  readonly backlog: number;
  readonly waitMinutes: StallPace["waitMinutes"];
};

const counts = <Row>(of: (row: Row) => Counted): readonly Column<Row>[] => [
  ...COUNTS.map(([field, heading]) => [heading, (row: Row): Cell => of(row)[field]] as const),
  ["Press-hours", (row) => Math.round(of(row).pressSeconds / 36) / 100],
  ["Usual wait, minutes (median)", (row) => of(row).waitMinutes.median],
  ["9 in 10 waited at most, minutes", (row) => of(row).waitMinutes.p90],
  ["Garments still to press", (row) => of(row).backlog],
];

/** A sum as digits with its decimal point, as every spreadsheet of the locale "C" reads it. */
const decimal = ({ amount, currency }: Money): string => {
  const digits = MINOR_DIGITS[currency];
  return (amount / 10 ** digits).toFixed(digits);
};

type StallLine = Omit<
  StallPace,
  "stall" | "heardAt" | "crewAt" | "orderedAt" | "paused" | "setUp" | "soldOut" | "takings"
> & {
  readonly stall: string;
  readonly heardAt: string | null;
  readonly soldOut: number | null;
  readonly takings: readonly Money[];
};

const STALL_COLUMNS: readonly Column<StallLine>[] = [
  ["Stall", ({ stall }) => stall],
  ["Name", ({ name }) => name],
  ...counts<StallLine>((line) => line),
  ["Backlog pressed by, expected", ({ backlogEnds }) => backlogEnds],
  ["Over the promise by, minutes (median)", ({ overQuote }) => overQuote.medianMinutes],
  ["Garments pressed in the last hour", ({ perHour }) => perHour],
  ["Garments a press-hour", ({ perPressHour }) => perPressHour],
  ["Offers sold out", ({ soldOut }) => soldOut],
  ["Last heard", ({ heardAt }) => heardAt],
  ["Takings, where shared", ({ takings }) => takings.map(decimal).join(" + ")],
  ["Currency", ({ takings }) => takings.map(({ currency }) => currency).join(" + ")],
];

/** One row a stall, and a last one of the whole fair. */
export function stallSheet({ stalls, total, fair }: Throughput): string {
  const lines = stalls.map(
    (pace): StallLine => ({
      ...pace,
      takings: pace.takings === null ? [] : [pace.takings],
    }),
  );
  const sum: StallLine = { ...total, stall: "(all)", name: fair, heardAt: null, soldOut: null };
  return csvOf(STALL_COLUMNS, [...lines, sum]);
}

type QuarterLine = { readonly stall: string; readonly name: string; readonly quarter: Quarter };

const QUARTER_COLUMNS: readonly Column<QuarterLine>[] = [
  ["Stall", ({ stall }) => stall],
  ["Name", ({ name }) => name],
  ["Date at the fair", ({ quarter }) => quarter.start.slice(0, 10)],
  ["From", ({ quarter }) => quarter.start.slice(11, 16)],
  ["Begins", ({ quarter }) => quarter.start],
  ...counts<QuarterLine>(({ quarter }) => quarter),
];

/** One row for each quarter of each stall that has its own quarters in the answer. */
export function quarterSheet({ stalls }: Throughput): string {
  const lines = stalls.flatMap(({ stall, name, buckets = [] }) =>
    buckets.map((quarter): QuarterLine => ({ stall, name, quarter })),
  );
  return csvOf(QUARTER_COLUMNS, lines);
}
