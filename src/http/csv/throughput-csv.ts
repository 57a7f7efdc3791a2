/** The pace of a fair as a sheet: a row a stall and one of the whole fair, or a row a stall and quarter. */
import { MINOR_DIGITS, type Money } from "../../model/basics/money.ts";
import type { Quarter, StallPace, Tally, Throughput } from "../../model/fair/throughput.ts";
import { type Cell, csvSheet, type SheetColumn } from "./csv-sheet.ts";

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

const counts = <Row>(of: (row: Row) => Counted): readonly SheetColumn<Row>[] => [
  ...COUNTS.map(([field, heading]) => ({ heading, cell: (row: Row): Cell => of(row)[field] })),
  { heading: "Press-hours", cell: (row) => Math.round(of(row).pressSeconds / 36) / 100 },
  { heading: "Usual wait, minutes (median)", cell: (row) => of(row).waitMinutes.median },
  { heading: "9 in 10 waited at most, minutes", cell: (row) => of(row).waitMinutes.p90 },
  { heading: "Garments still to press", cell: (row) => of(row).backlog },
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

const STALL_COLUMNS: readonly SheetColumn<StallLine>[] = [
  { heading: "Stall", cell: ({ stall }) => stall },
  { heading: "Name", cell: ({ name }) => name },
  ...counts<StallLine>((line) => line),
  { heading: "Backlog pressed by, expected", cell: ({ backlogEnds }) => backlogEnds },
  { heading: "Over the promise by, minutes (median)", cell: ({ overQuote }) => overQuote.medianMinutes },
  { heading: "Garments pressed in the last hour", cell: ({ perHour }) => perHour },
  { heading: "Garments a press-hour", cell: ({ perPressHour }) => perPressHour },
  { heading: "Offers sold out", cell: ({ soldOut }) => soldOut },
  { heading: "Last heard", cell: ({ heardAt }) => heardAt },
  { heading: "Takings, where shared", cell: ({ takings }) => takings.map(decimal).join(" + ") },
  { heading: "Currency", cell: ({ takings }) => takings.map(({ currency }) => currency).join(" + ") },
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
  return csvSheet(STALL_COLUMNS, [...lines, sum]);
}

type QuarterLine = { readonly stall: string; readonly name: string; readonly quarter: Quarter };

const QUARTER_COLUMNS: readonly SheetColumn<QuarterLine>[] = [
  { heading: "Stall", cell: ({ stall }) => stall },
  { heading: "Name", cell: ({ name }) => name },
  { heading: "Date at the fair", cell: ({ quarter }) => quarter.start.slice(0, 10) },
  { heading: "From", cell: ({ quarter }) => quarter.start.slice(11, 16) },
  { heading: "Begins", cell: ({ quarter }) => quarter.start },
  ...counts<QuarterLine>(({ quarter }) => quarter),
];

/** One row for each quarter of each stall that has its own quarters in the answer. */
export function quarterSheet({ stalls }: Throughput): string {
  const lines = stalls.flatMap(({ stall, name, buckets = [] }) =>
    buckets.map((quarter): QuarterLine => ({ stall, name, quarter })),
  );
  return csvSheet(QUARTER_COLUMNS, lines);
}
