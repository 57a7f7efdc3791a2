/** A plan in three sentences, its figures rounded to what imagined days can know. */
import type { Plan } from "../../model/planning/plan-answer.ts";
import { minorDigits } from "../request/given.ts";
import { plural } from "./phrases.ts";

type Planned = Pick<Plan, "bring" | "money" | "scenarios" | "currency">;

/** The deviation of a normal spread between its 5 and 95 % points. */
const DEVIATIONS_BETWEEN = 2 * 1.6448536269514722;
const STEPS = [1, 2, 5] as const;

/** The first of 1, 2, 5, 10, 20 … that is at least the standard error of a figure. */
export function honestStep(error: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, error)));
  return (STEPS.find((one) => one * power >= error) ?? 10) * power;
}

/** The sum rounded to the step that its standard error allows, in whole units. */
export function honestly(minor: number, errorMinor: number, currency: string): string {
  const unit = 10 ** minorDigits(currency);
  const step = honestStep(errorMinor / unit);
  const rounded = Math.round(minor / unit / step) * step;
  const form = new Intl.NumberFormat("en", { style: "currency", currency, maximumFractionDigits: 0 });
  // A separate minus sign, so that a loss is not overlooked, and no "-$0".
  return rounded < 0 ? `−\u2060${form.format(-rounded)}` : form.format(Math.abs(rounded));
}

/** The standard error of the expected profit over the days imagined, in minor units. */
export function profitError({ money, scenarios }: Pick<Plan, "money" | "scenarios">): number {
  const { p5, p95 } = money.profit;
  return (p95 - p5) / DEVIATIONS_BETWEEN / Math.sqrt(Math.max(1, scenarios));
}

/** The share of days with a loss, in words: "1 day in 9 loses money". */
export function lossWords(chance: number): string {
  if (chance < 0.005) return "hardly any day loses money";
  if (chance < 0.4) return `1 day in ${Math.round(1 / chance)} loses money`;
  return `${Math.round(chance * 10)} days in 10 lose money`;
}

/** Decorated garments to bring, in words: those to print ahead, and those printed already. */
export function readyWords({ ready }: Pick<Planned["bring"], "ready">): string[] {
  const already = ready.reduce((all, line) => all + line.owned, 0);
  const ahead = ready.reduce((all, line) => all + line.bring - line.owned, 0);
  return [
    ...(ahead === 0 ? [] : [`${plural(ahead, "garment")} printed ahead`]),
    ...(already === 0 ? [] : [`${plural(already, "garment")} printed already`]),
  ];
}

/** What to bring, the expected profit and its certainty, and what would change the answer most. */
export function inThreeSentences({ bring, money, scenarios, currency }: Planned): string[] {
  const error = profitError({ money, scenarios });
  const sum = (minor: number) => honestly(minor, error, currency);
  const blanks = bring.skus.reduce((all, line) => all + line.bring, 0);
  const transfers = bring.transfers.reduce((all, line) => all + line.bring, 0);
  const what = [plural(blanks, "blank"), plural(transfers, "transfer"), ...readyWords(bring)];
  const most = money.swings[0];
  const between =
    most === undefined
      ? "Nothing that was tried changes this much."
      : `What could change this most: ${most.what}. At ${most.low.value} the day makes ${sum(most.low.profit)}, at ${most.high.value} it makes ${sum(most.high.profit)}.`;
  return [
    `Bring ${what.slice(0, -1).join(", ")} and ${what.at(-1)}, for ${honestly(bring.outlay, 0, currency)}.`,
    `Likely profit ${sum(money.expectedProfit)}; ${lossWords(money.oddsOfLoss)}; 9 days in 10 end between ${sum(money.profit.p5)} and ${sum(money.profit.p95)}.`,
    between,
  ];
}
