/** The whole answer of a plan, part by part, each with a heading that can be printed by itself. */

import type { Plan } from "../../../../model/plan-answer.ts";
import { openingStock } from "../../../../planning/plan.ts";
import { element } from "../../kit/dom.ts";
import { giveFile } from "../../kit/file.ts";
import { cautions } from "../figures.ts";
import { printButton } from "../printing.ts";
import { drawBring } from "./bring.ts";
import { drawDay } from "./day.ts";
import { drawHours } from "./hours.ts";
import { drawPacking, drawQuestions, drawSwings, drawWays } from "./ways.ts";

export function drawPlan(place: HTMLElement, plan: Plan, names: ReadonlyMap<string, string>): void {
  const hours = drawHours(plan);
  const part = (id: string, heading: string, ...children: readonly Node[]) =>
    element("section", { class: "result", id }, element("h3", {}, heading), ...children);
  place.replaceChildren(
    part("can-it-pay", "Can the day pay?", ...drawDay(plan)),
    part("bring", "What to bring", ...drawBring(plan, names), stockFile(plan)),
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

/** The accepted plan as a stock sheet, the way a stall's stock is counted in. */
function stockFile(plan: Plan): HTMLElement {
  const save = (): void => {
    const { skus, transfers } = openingStock(plan);
    const rows = [
      ...skus.map(({ sku, counted }) => `${sku},${counted}`),
      ...transfers.map(({ design, counted }) => `${design},${counted}`),
    ];
    giveFile("stock.csv", "text/csv", `piece,counted\r\n${rows.join("\r\n")}\r\n`);
  };
  return element(
    "div",
    { class: "acts no-print" },
    element("button", { type: "button", onclick: save }, "Save as opening stock (CSV)"),
  );
}
