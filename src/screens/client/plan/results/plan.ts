/** The whole answer of a plan, part by part, each with a heading that can be printed by itself. */

import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { openingStock } from "../../../../planning/plan.ts";
import { planTable } from "../../../../planning/plan-table.ts";
import { element } from "../../kit/dom.ts";
import { giveFile } from "../../kit/file.ts";
import { about, cautions, lossWords, whole } from "../figures.ts";
import { printButton } from "../printing.ts";
import { drawBring } from "./bring.ts";
import { drawDay } from "./day.ts";
import { drawHours } from "./hours.ts";
import { drawOffers } from "./stated.ts";
import { drawPacking, drawQuestions, drawSwings, drawWays } from "./ways.ts";

/** `fill` is what sets a stall from the plan. */
export function drawPlan(
  place: HTMLElement,
  plan: Plan,
  names: ReadonlyMap<string, string>,
  fill: HTMLElement,
): void {
  const hours = drawHours(plan);
  const part = (id: string, heading: string, ...children: readonly Node[]) =>
    element("section", { class: "result", id }, element("h3", {}, heading), ...children);
  place.replaceChildren(
    element("p", { class: "verdict" }, inOneSentence(plan)),
    part("can-it-pay", "Can the day pay?", ...drawDay(plan)),
    part("bring", "What to bring", ...drawBring(plan, names), ...drawOffers(plan, names), files(plan), fill),
    part("ways", "Press there, or print ahead?", drawWays(plan)),
    part("hours", "When the rush comes", ...hours.drawn),
    part("swings", "What the result hangs on", drawSwings(plan)),
    part("packing", "Packing list", ...drawPacking(plan), printButton("Print the packing list")),
    part(
      "questions",
      "Questions to ask before you pay for the pitch",
      ...drawQuestions(plan),
      printButton("Print the questions"),
    ),
    cautions(plan.cautions),
  );
  hours.fit();
}

/** What the day brings, what can go wrong, and what to pack. */
function inOneSentence({ money, bring, currency }: Plan): string {
  const blanks = bring.skus.reduce((sum, line) => sum + line.bring, 0);
  return `Likely ${about(money.expectedProfit, currency)}; ${lossWords(money.oddsOfLoss)}; bring ${whole(blanks)} blanks.`;
}

/** The whole result as a table, and the accepted plan as a stock sheet, the way a stall's stock is counted in. */
function files(plan: Plan): HTMLElement {
  const saveStock = (): void => {
    const { skus, transfers } = openingStock(plan);
    const rows = [
      ...skus.map(({ sku, counted }) => `${sku},${counted}`),
      ...transfers.map(({ design, counted }) => `${design},${counted}`),
    ];
    giveFile("stock.csv", "text/csv", `piece,counted\r\n${rows.join("\r\n")}\r\n`);
  };
  const saveAll = (): void => giveFile("plan.csv", "text/csv", planTable(plan));
  return element(
    "div",
    { class: "row no-print" },
    element("button", { type: "button", onclick: saveAll }, "Save the whole result (CSV)"),
    element("button", { type: "button", onclick: saveStock }, "Save as opening stock (CSV)"),
  );
}
