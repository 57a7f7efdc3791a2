/** The history of a crew's fairs: closed days in short, merged, and their totals. Pure. */
import type { Closeout } from "../../../model/accounts/closeout.ts";
import { type PastDay, PastDays } from "../../../model/accounts/past-day.ts";
import { type Column, csvOf } from "../../../model/basics/csv.ts";
import { MINOR_DIGITS } from "../../../model/basics/minor-digits.ts";

/** A closed day; null for one that is still open. `place` is "fair/stall". */
export function pastDay(place: string, account: Closeout): PastDay | null {
  if (account.stage !== "closed") return null;
  const { fair, stall, day, currency, money, sales, skus, transfers, costs } = account;
  const { difference, givenBack, tax, blanks, fees, wages, cardFees, openHours } = money;
  const part = (at: number) =>
    grouped(skus.map((sku) => ({ ...sku, name: sku.name.split(", ").at(at) ?? sku.name })));
  return {
    place,
    fair,
    stall,
    day,
    currency,
    openHours,
    profit: costs === null ? null : money.profit,
    sales: money.sales,
    difference,
    givenBack,
    tax,
    blanks,
    transfers: money.transfers,
    fees,
    wages,
    cardFees,
    tenders: sales.tenders.map(({ tender, amount, givenBack: back }) => ({
      tender,
      amount,
      givenBack: back,
    })),
    offers: sales.offers.map(({ name, garments, returned }) => ({ name, garments: garments - returned })),
    designs: grouped(transfers),
    colours: part(-2),
    sizes: part(-1),
    mistakes: mistakesOf([...skus, ...transfers]),
  };
}

type Pieces = PastDay["designs"];
type Piece = Closeout["skus"][number] | Closeout["transfers"][number];

/** Pieces pressed and left, by name; those never there are left out. */
function grouped(
  all: readonly { readonly name: string; readonly pressed: number; readonly left: number }[],
): Pieces {
  const names = new Map<string, Pieces[number]>();
  for (const { name, pressed, left } of all) {
    if (pressed === 0 && left === 0) continue;
    const before = names.get(name) ?? { name, used: 0, left: 0 };
    names.set(name, { name, used: before.used + pressed, left: before.left + left });
  }
  return [...names.values()];
}

function mistakesOf(all: readonly Piece[]): PastDay["mistakes"] {
  const reasons = new Map<string, PastDay["mistakes"][number]>();
  for (const { spoiled, unitCost } of all)
    for (const [name, pieces] of Object.entries(spoiled)) {
      const reason = name as PastDay["mistakes"][number]["reason"]; // the record's own keys
      const before = reasons.get(reason) ?? { reason, pieces: 0, cost: 0 };
      reasons.set(reason, {
        reason,
        pieces: before.pieces + pieces,
        cost: before.cost + pieces * (unitCost ?? 0),
      });
    }
  return [...reasons.values()];
}

const keyOf = ({ place, day }: Pick<PastDay, "place" | "day">): string => `${place} ${day}`;

/** Merges days, each once: the later version of a day wins. The latest day first. */
export const together = (before: readonly PastDay[], more: readonly PastDay[]): readonly PastDay[] =>
  [...new Map([...before, ...more].map((day) => [keyOf(day), day])).values()].sort(
    (one, other) => other.day.localeCompare(one.day) || one.place.localeCompare(other.place),
  );

export const isKnown = (days: readonly PastDay[], place: string, day: string): boolean =>
  days.some((one) => one.place === place && one.day === day);

/** The days of a file; null if it is no history. */
export function daysIn(text: string): readonly PastDay[] | null {
  try {
    const read = PastDays.safeParse(JSON.parse(text));
    return read.success ? read.data.days : null;
  } catch {
    return null;
  }
}

export const fileOf = (days: readonly PastDay[]): string =>
  JSON.stringify({ format: "stallpress-fairs", version: 1, days }, null, 2);

/** By currency: sums are never added over two. */
export function byCurrency(
  days: readonly PastDay[],
): readonly (readonly [currency: PastDay["currency"], days: readonly PastDay[]])[] {
  const all = [...new Set(days.map(({ currency }) => currency))].sort();
  return all.map((currency) => [currency, days.filter((day) => day.currency === currency)]);
}

export type SoldThrough = { readonly name: string; readonly used: number; readonly share: number };

/**
 * How much of the stock was pressed, most pressed first. What is left after a fair's last day counts; what is left
 * between its days is sold on the next.
 */
export function soldThrough(
  days: readonly PastDay[],
  part: "designs" | "colours" | "sizes",
): readonly SoldThrough[] {
  const sums = new Map<string, { used: number; left: number }>();
  const last = new Map<string, string>();
  for (const { place, day } of days) if ((last.get(place) ?? "") < day) last.set(place, day);
  for (const day of days)
    for (const { name, used, left } of day[part]) {
      const sum = sums.get(name) ?? { used: 0, left: 0 };
      const home = last.get(day.place) === day.day ? left : 0;
      sums.set(name, { used: sum.used + used, left: sum.left + home });
    }
  return [...sums]
    .map(([name, { used, left }]) => ({ name, used, share: used + left > 0 ? used / (used + left) : 0 }))
    .sort((one, other) => other.used - one.used || one.name.localeCompare(other.name));
}

export function mistakes(days: readonly PastDay[]): PastDay["mistakes"] {
  const sums = new Map<string, PastDay["mistakes"][number]>();
  for (const { mistakes: all } of days)
    for (const one of all) {
      const before = sums.get(one.reason);
      sums.set(one.reason, {
        ...one,
        pieces: one.pieces + (before?.pieces ?? 0),
        cost: one.cost + (before?.cost ?? 0),
      });
    }
  return [...sums.values()].sort((one, other) => other.cost - one.cost || other.pieces - one.pieces);
}

/** The calendar quarter of a day: "2027, April to June". */
const MONTHS = ["January to March", "April to June", "July to September", "October to December"] as const;
const periodOf = (day: string): string =>
  `${day.slice(0, 4)}, ${MONTHS[Math.floor((Number(day.slice(5, 7)) - 1) / 3)] ?? ""}`;

export type Taxed = {
  readonly fair: string;
  readonly period: string;
  readonly sales: number;
  readonly tax: number;
};

/** Sales less refunds, and the tax collected, by fair and quarter, the latest first. */
export function taxes(days: readonly PastDay[]): readonly Taxed[] {
  const sums = new Map<string, Taxed>();
  for (const { fair, day, sales, difference, givenBack, tax } of days) {
    const period = periodOf(day);
    const before = sums.get(`${period} ${fair}`) ?? { fair, period, sales: 0, tax: 0 };
    sums.set(`${period} ${fair}`, {
      ...before,
      sales: before.sales + sales + difference - givenBack,
      tax: before.tax + tax,
    });
  }
  return [...sums.values()];
}

/** Garments sold of each product at each fair: the fairs, and a row a product, best sellers first. */
export function sellsWhere(days: readonly PastDay[]): {
  readonly fairs: readonly string[];
  readonly rows: readonly { readonly name: string; readonly garments: readonly number[] }[];
} {
  const fairs = [...new Set(days.map(({ fair }) => fair))];
  const names = [...new Set(days.flatMap(({ offers }) => offers.map(({ name }) => name)))];
  const total = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);
  const rows = names.map((name) => ({
    name,
    garments: fairs.map((fair) =>
      total(
        days
          .filter((day) => day.fair === fair)
          .flatMap(({ offers }) => offers.filter((offer) => offer.name === name))
          .map(({ garments }) => garments),
      ),
    ),
  }));
  return { fairs, rows: rows.sort((one, other) => total(other.garments) - total(one.garments)) };
}

const TENDERS = ["cash", "card", "other", "not-noted"] as const;
/** A row for each day, for bookkeeping; amounts in whole units. */
export function booksCsv(days: readonly PastDay[]): string {
  const sum = (name: string, minor: (day: PastDay) => number | null): Column<PastDay> => [
    name,
    (day) => {
      const [amount, digits] = [minor(day), MINOR_DIGITS[day.currency]];
      return amount === null ? "" : (amount / 10 ** digits).toFixed(digits);
    },
  ];
  const by = (tender: (typeof TENDERS)[number]) => (day: PastDay) =>
    day.tenders.find((one) => one.tender === tender);
  return csvOf<PastDay>(
    [
      ["day", ({ day }) => day],
      ["fair", ({ fair }) => fair],
      ["stall", ({ stall }) => stall],
      ["currency", ({ currency }) => currency],
      sum("sales before tax", ({ sales }) => sales),
      sum("paid beyond the prices", ({ difference }) => difference),
      sum("given back", ({ givenBack }) => givenBack),
      sum("tax collected", ({ tax }) => tax),
      sum("blanks", ({ blanks }) => blanks),
      sum("transfers", ({ transfers }) => transfers),
      sum("fees", ({ fees }) => fees),
      sum("wages", ({ wages }) => wages),
      sum("card fees", ({ cardFees }) => cardFees),
      sum("profit", ({ profit }) => profit),
      ["open hours", ({ openHours }) => openHours],
      ...TENDERS.flatMap((tender) => {
        const name = tender === "not-noted" ? "not noted" : tender;
        return [
          sum(`${name}, tax included`, (day) => by(tender)(day)?.amount ?? 0),
          sum(`${name}, given back`, (day) => by(tender)(day)?.givenBack ?? 0),
        ];
      }),
    ],
    days,
  );
}
