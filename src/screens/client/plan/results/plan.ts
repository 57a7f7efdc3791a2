/** A plan's answer, part by part. */
import { csvOf } from "../../../../model/basics/csv.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { openingStock } from "../../../../planning/plan.ts";
import { planTable } from "../../../../planning/plan-table.ts";
import { honestly, lossWords, profitError, readyWords } from "../../../../planning/words/summary.ts";
import { element } from "../../kit/dom.ts";
import { cautions, facts, whole } from "../figures.ts";
import type { Names } from "../groups/names.ts";
import { csvButton } from "../printing.ts";
import { drawBring } from "./bring.ts";
import { drawDay } from "./day.ts";
import { drawOffers } from "./stated.ts";
import { drawSwings, drawWays } from "./ways.ts";

/** The day's profit, its risk, and what to pack. */
export function inOneSentence({ money, bring, currency, scenarios }: Plan): string {
  const blanks = bring.skus.reduce((sum, line) => sum + line.bring, 0);
  const ready = readyWords(bring);
  const parts = [...(blanks > 0 || ready.length === 0 ? [`${whole(blanks)} blanks`] : []), ...ready];
  const what = new Intl.ListFormat("en").format(parts);
  const likely = honestly(money.expectedProfit, profitError({ money, scenarios }), currency);
  return `Likely ${likely}; ${lossWords(money.oddsOfLoss)}; bring ${what}.`;
}

/** The three figures under the sentence. */
export function threeFigures(plan: Plan): HTMLElement {
  const error = profitError(plan);
  const { profit, pitchFee } = plan.money;
  return facts([
    ["a bad day: 1 in 20 is worse", honestly(profit.p5, error, plan.currency)],
    ["a good day: 1 in 20 is better", honestly(profit.p95, error, plan.currency)],
    ["highest pitch fee worth paying", honestly(pitchFee.highest, error, plan.currency)],
  ]);
}

export const drawTab: Readonly<Record<string, (plan: Plan, names: Names) => readonly HTMLElement[]>> = {
  bring: (plan, names) => [...drawBring(plan, names), ...drawOffers(plan, names.offers), files(plan)],
  money: (plan) => drawDay(plan),
  matters: (plan) => [drawSwings(plan), cautions(plan.cautions)],
  ways: (plan) => [element("p", { class: "verdict" }, plan.advice), drawWays(plan)],
};

/** The accepted plan as a stock sheet, the way a stall's stock is counted in. */
function stockSheet(plan: Plan): string {
  const { skus, transfers } = openingStock(plan);
  return csvOf(
    [
      ["piece", ({ piece }) => piece],
      ["counted", ({ counted }) => counted],
    ],
    [
      ...skus.map(({ sku, counted }) => ({ piece: sku, counted })),
      ...transfers.map(({ design, counted }) => ({ piece: design, counted })),
    ],
  );
}

const files = (plan: Plan): HTMLElement =>
  element(
    "div",
    { class: "row no-print" },
    csvButton("Save the whole result (CSV)", "plan.csv", () => planTable(plan)),
    csvButton("Save as opening stock (CSV)", "stock.csv", () => stockSheet(plan)),
  );
