/** The papers of a plan, drawn to be printed: orders, packing list, questions. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import type { PowerPlan } from "../../../../model/planning/power.ts";
import type { SheetPlan } from "../../../../model/planning/sheets.ts";
import { inMoney } from "../../../../planning/request/told.ts";
import { drawLayout } from "../../../../planning/sheets/drawing.ts";
import { element } from "../../kit/dom.ts";
import { giveFile } from "../../kit/file.ts";
import type { Day } from "../day/first.ts";
import { tableOf } from "../figures.ts";
import { wordAt } from "../groups/names.ts";
import { printButton } from "../printing.ts";
import { drawn } from "../results/sheets.ts";
import { drawPacking, drawQuestions } from "../results/ways.ts";
import { blankLines, blanksCsv, transferLines, transfersCsv } from "./orders.ts";

/** The head of every paper: its title, the stall, the fair and the day. */
function headOf(day: Day, what: string): HTMLElement {
  const date = wordAt(day.plan, "#/day");
  const fair = wordAt(day.plan, "#/name", "the fair");
  const stall = wordAt(day.organiser, "#/stall", "Our stall");
  return element("h3", {}, `${what}: ${stall}, ${fair}${date === "" ? "" : `, ${date}`}`);
}

const acts = (print: string, name: string, csv: () => string): HTMLElement =>
  element(
    "div",
    { class: "row no-print" },
    printButton(print),
    element("button", { type: "button", onclick: () => giveFile(name, "text/csv", csv()) }, "Save as CSV"),
  );

const unique = (all: readonly string[]): string[] => [...new Set(all)];

/** Style by colour by size, as a supplier's sheet has them, with packs, price and total. */
export function drawBlankOrder(plan: Plan, day: Day): HTMLElement[] {
  const lines = blankLines(plan, day.plan);
  const total = lines.reduce((sum, line) => sum + line.total, 0);
  return [
    headOf(day, "Blanks to order"),
    ...unique(lines.map(({ blank }) => blank)).map((blank) => {
      const of = lines.filter((line) => line.blank === blank);
      const sizes = unique(of.map(({ size }) => size));
      const style = of[0]?.styleNumber ?? "";
      return tableOf(
        `${blank}${style === "" ? "" : `, style ${style}`}`,
        [
          { name: "Colour" },
          ...sizes.map((size) => ({ name: size, isNumber: true })),
          { name: "Pieces", isNumber: true },
          { name: "Total", isNumber: true },
        ],
        unique(of.map(({ colour }) => colour)).map((colour) => {
          const row = of.filter((line) => line.colour === colour);
          return [
            colour,
            ...sizes.map((size) => {
              const line = row.find((one) => one.size === size);
              if (line === undefined) return "–";
              const packs = line.packOf === 1 ? "" : `, ${line.packs} × ${line.packOf}`;
              return `${line.pieces}${packs} at ${inMoney(line.each, plan.currency)}`;
            }),
            String(row.reduce((sum, line) => sum + line.pieces, 0)),
            inMoney(
              row.reduce((sum, line) => sum + line.total, 0),
              plan.currency,
            ),
          ];
        }),
      );
    }),
    element("p", { class: "verdict" }, `In all ${inMoney(total, plan.currency)}, at the prices typed.`),
    acts("Print the order", "blanks-to-order.csv", () => blanksCsv(lines, plan.currency)),
  ];
}

export function drawTransferOrder(
  sheets: SheetPlan,
  day: Day,
  names: ReadonlyMap<string, string>,
): HTMLElement[] {
  const lines = transferLines(sheets, day.sheets, day.plan);
  const sum = (minor: number) => inMoney(minor, sheets.currency);
  return [
    headOf(day, "Transfers to order"),
    tableOf(
      "Layouts",
      [
        { name: "Layout" },
        { name: "Copies", isNumber: true },
        { name: "Each", isNumber: true },
        { name: "Total", isNumber: true },
      ],
      sheets.layouts.map(({ layout, copies, pricePerSheet }) => [
        `Layout ${layout}`,
        String(copies),
        sum(pricePerSheet),
        sum(pricePerSheet * copies),
      ]),
    ),
    tableOf(
      "Designs on them",
      [{ name: "Design" }, { name: "Art" }, { name: "File" }, { name: "Pieces", isNumber: true }],
      lines.map(({ design, file, size, pieces }) => [design, size, file === "" ? "–" : file, String(pieces)]),
    ),
    element("p", { class: "verdict" }, `In all ${sum(sheets.cost.total)}.`),
    acts("Print the order", "transfers-to-order.csv", () => transfersCsv(sheets, lines)),
    ...sheets.layouts.map((layout) =>
      element(
        "figure",
        { class: "layout" },
        drawn(drawLayout(layout, names)),
        element("figcaption", {}, `Layout ${layout.layout}: ${layout.copies} copies.`),
      ),
    ),
  ];
}

const tick = (words: string): HTMLElement =>
  element("li", {}, element("span", { class: "tick", "aria-hidden": "true" }), words);

/** Everything that goes into the vehicle: stock by carton, and what the stall works with. */
export function drawPackingList(
  plan: Plan,
  day: Day,
  names: ReadonlyMap<string, string>,
  power: PowerPlan | null,
): HTMLElement[] {
  const gear = [
    ...(power?.circuits.flatMap(({ loads }) => loads.map(({ load }) => load)) ?? ["presses", "till"]),
    ...(power?.cords.map(({ says }) => says.replace(/^For (.*?), (.*?) is .*$/, "cord for $1: $2")) ?? [
      "cords",
    ]),
    ...EQUIPMENT,
  ];
  return [
    headOf(day, "Packing list"),
    ...drawPacking(plan, names),
    element("h4", {}, "What the stall works with"),
    element("ul", { class: "ticks" }, ...unique(gear).map(tick)),
    printButton("Print the packing list"),
  ];
}
/** Common practice, no source. */
const EQUIPMENT = [
  "ground-fault protection, if the site's sockets have none",
  "cable ramps and tape",
  "fire extinguisher",
  "first-aid kit with burn dressings",
  "heat-proof gloves",
  "cover sheets and a spare platen pad",
  "cutter and rule",
  "lint roller",
  "tent and weights for each leg",
  "tables, rack and counter",
  "float in small change, cash box",
  "tablets, chargers, power bank",
  "bags, tags and pens",
  "signs, menu and poster",
  "permit and insurance papers",
] as const;

export const drawQuestionList = (plan: Plan, day: Day): HTMLElement[] => [
  headOf(day, "Questions to ask before you pay for the pitch"),
  ...drawQuestions(plan),
  printButton("Print the questions"),
];
