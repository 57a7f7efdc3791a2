/** The money on the counter: who takes it, and what to give back. */
import type { CurrencyCode } from "../../../model/basics/minor-digits.ts";
import { minorUnitsTyped, moneyWords } from "../crew/words/money.ts";
import { local } from "../kit/texts-kept.ts";

/** "Give back $4.26." for what was typed; nothing while nothing was. */
export function changeDue(typed: string, amount: number, currency: CurrencyCode): string {
  if (typed.trim() === "") return "";
  const sum = minorUnitsTyped(typed, currency);
  if (sum === null) return "Type a sum like 30 or 25.80.";
  return sum < amount
    ? `${moneyWords(amount - sum, currency)} is missing.`
    : `Give back ${moneyWords(sum - amount, currency)}.`;
}

/** Who stands at this tablet is known on it alone, until somebody else types another name. */
const TAKER = "who takes the money";

export const takerName = (): string | null => local.getItem(TAKER) || null;

export const setTaker = (name: string): void => local.setItem(TAKER, name.trim());
