/** The money on the counter: how it is paid, who takes it, and what to give back. */
import type { CurrencyCode } from "../../../model/basics/minor-digits.ts";
import type { Tender } from "../../../model/orders/order.ts";
import { minorUnitsTyped, moneyWords } from "../crew/words/money.ts";
import { local } from "../kit/texts-kept.ts";

export const TENDERS: readonly (readonly [tender: Tender, label: string])[] = [
  ["cash", "Cash"],
  ["card", "Card"],
  ["other", "Other"],
];

/** How something is paid: by one tender or in parts, and the tip. Amounts in minor units. */
export type Paying = {
  /** Of the first part. */
  readonly tender: Tender;
  readonly parts?: readonly { readonly tender: Tender; readonly amount: number }[];
  readonly tip?: number;
};

export const payingBy = (tender: Tender, tip: number): Paying => ({ tender, ...(tip > 0 ? { tip } : {}) });

/** Some of it in cash, and the rest, with the tip, by another tender. */
export const inParts = (cash: number, amount: number, rest: Tender, tip: number): Paying => ({
  ...payingBy(rest, tip),
  parts: [
    { tender: rest, amount: amount - cash },
    { tender: "cash", amount: cash },
  ],
});

/** "cash", or "card and cash". */
export const tendersIn = ({ tender, parts }: Paying): string =>
  parts === undefined ? tender : parts.map((part) => part.tender).join(" and ");

/** "Change: $4.26." for the typed amount; empty if nothing is typed. */
export function changeDue(typed: string, amount: number, currency: CurrencyCode): string {
  if (typed.trim() === "") return "";
  const sum = minorUnitsTyped(typed, currency);
  if (sum === null) return "Type a sum like 30 or 25.80.";
  return sum < amount
    ? `${moneyWords(amount - sum, currency)} short.`
    : `Change: ${moneyWords(sum - amount, currency)}.`;
}

const ROUND = [1, 2, 5, 10, 20];
const OFFERED = 3;
/** Nobody hands over more than this many times the amount due. */
const TIMES_DUE = 3;

/** The round sums above an amount that are most likely handed over for it, in minor units: 30, 40 and 50 for 25.74. */
export function roundSums(amount: number): readonly number[] {
  if (amount <= 0) return [];
  const digit = 10 ** (String(amount).length - 1);
  const sums = ROUND.map((round) => Math.ceil(amount / (round * digit)) * round * digit);
  return [...new Set(sums)].filter((sum) => sum > amount && sum < TIMES_DUE * amount).slice(0, OFFERED);
}

/** The name of the person at this tablet, known on it alone, until another name is typed. */
const TAKER = "who takes the money";

export const takerName = (): string | null => local.getItem(TAKER) || null;

export const setTaker = (name: string): void => local.setItem(TAKER, name.trim());

/** The change for a sum handed over; empty if it is exact, or unknown. */
export const changeWords = (given: number | null, amount: number, currency: CurrencyCode): string =>
  given === null || given <= amount ? "" : `Change: ${moneyWords(given - amount, currency)}.`;
