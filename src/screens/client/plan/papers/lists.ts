/** The papers of a plan, drawn to be printed: orders, packing list, questions. */
import type { OrganiserSheet } from "../../../../model/planning/organiser-sheet.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import type { PowerPlan } from "../../../../model/planning/power.ts";
import type { SheetPlan } from "../../../../model/planning/sheets.ts";
import { drawLayout } from "../../../../planning/sheets/drawing.ts";
import { inMoney } from "../../../../planning/words/amounts.ts";
import { dayInWords } from "../../../../time/day-in-words.ts";
import { element } from "../../kit/dom.ts";
import { spelt } from "../../kit/spelling.ts";
import type { Day } from "../day/first.ts";
import { cautions, folded, sentences, tableOf, unique } from "../figures.ts";
import { namesIn, wordAt } from "../groups/names.ts";
import { acts } from "../printing.ts";
import { drawn } from "../results/sheets.ts";
import { blankLines, blanksCsv, layoutLines, transferLines, transfersCsv } from "./orders.ts";
import { drawPacked, drawQuestions, organiserCsv, packedCsv, packingOf, questionsCsv } from "./packing.ts";

/** The head of every paper: its title, the stall, the fair and the day. */
function headOf(day: Day, what: string): HTMLElement {
  const date = wordAt(day.plan, "#/day");
  const fair = wordAt(day.plan, "#/name", "the fair");
  const stall = wordAt(day.organiser, "#/stall", "Our stall");
  return element("h3", {}, `${what}: ${stall}, ${fair}${date === "" ? "" : `, ${dayInWords(date)}`}`);
}

/** Style by colour by size, as a supplier's sheet has them, with packs, price and total. */
export function drawBlankOrder(plan: Plan, day: Day): HTMLElement[] {
  const lines = blankLines(plan, day.plan);
  const total = lines.reduce((sum, line) => sum + line.total, 0);
  const pieces = lines.reduce((sum, line) => sum + line.pieces, 0);
  return [
    headOf(day, "Blanks to order"),
    ...unique(lines.map(({ blank }) => blank)).map((blank) => {
      const of = lines.filter((line) => line.blank === blank);
      const sizes = unique(of.map(({ size }) => size));
      const style = of[0]?.styleNumber ?? "";
      return tableOf(
        `${blank}${style === "" ? "" : `, style ${style}`}`,
        ["Colour", ...sizes, "Pieces", "Total"],
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
    element(
      "p",
      { class: "verdict" },
      `In all ${pieces} pieces for ${inMoney(total, plan.currency)}, at the prices typed.`,
    ),
    acts("Print the order", "blanks-to-order.csv", () => blanksCsv(lines, plan.currency)),
  ];
}

export function drawTransferOrder(
  sheets: SheetPlan,
  day: Day,
  names: ReadonlyMap<string, string>,
): HTMLElement[] {
  const lines = transferLines(sheets, day.sheets, day.plan);
  const layouts = layoutLines(sheets, day.sheets, names);
  const sum = (minor: number) => inMoney(minor, sheets.currency);
  return [
    headOf(day, "Transfers to order"),
    tableOf(
      "Layouts",
      ["Layout", { words: "Sheet" }, { words: "On each" }, "Copies", "Each", "Total"],
      layouts.map(({ name, size, on, copies, each, total }) => [
        name,
        size,
        on.map(({ design, pieces }) => `${pieces} × ${design}`).join(", "),
        copies === null ? "–" : String(copies),
        each === null ? "–" : sum(each),
        sum(total),
      ]),
      "wide stacked",
    ),
    tableOf(
      "Designs on them",
      ["Design", { words: "Art" }, { words: "File" }, "Pieces"],
      lines.map(({ design, file, size, pieces }) => [design, size, file === "" ? "–" : file, String(pieces)]),
    ),
    element("p", { class: "verdict" }, `In all ${sum(sheets.cost.total)}.`),
    acts("Print the order", "transfers-to-order.csv", () => transfersCsv(layouts, lines, sheets.currency)),
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

/** Everything that goes into the vehicle: stock by carton, and what the stall works with. */
export function drawPackingList(plan: Plan, day: Day, power: PowerPlan | null): HTMLElement[] {
  const packed = packingOf(plan, namesIn(day.plan), power);
  return [
    headOf(day, "Packing list"),
    ...drawPacked(packed),
    acts("Print the packing list", "packing-list.csv", () => packedCsv(packed)),
  ];
}

export const drawQuestionList = (plan: Plan, day: Day): HTMLElement[] => [
  headOf(day, "Questions to ask before you pay for the pitch"),
  ...drawQuestions(plan),
  acts("Print the questions", "questions.csv", () => questionsCsv(plan)),
];

/** The page to hand to the organiser. */
export function drawOrganiserSheet(sheet: OrganiserSheet): HTMLElement[] {
  const about = unique(sheet.questions.map((question) => question.about));
  return [
    element("h3", {}, sheet.title),
    ...(sheet.pitch.length === 0 ? [] : [element("h4", {}, "Pitch"), sentences(sheet.pitch)]),
    ...(sheet.power.length === 0 ? [] : [element("h4", {}, "Power"), sentences(sheet.power)]),
    folded(
      "What we have to know",
      element(
        "dl",
        { class: "asks" },
        ...about.flatMap((one) => [
          element("dt", {}, one),
          ...sheet.questions
            .filter((question) => question.about === one)
            .map(({ ask }) => element("dd", {}, spelt(ask))),
        ]),
      ),
    ),
    tableOf(
      "Our day",
      ["At", { words: "What" }],
      sheet.timetable.map(({ at, what }) => [at, spelt(what)]),
    ),
    cautions(sheet.cautions),
    acts("Print this page", "organiser-sheet.csv", () => organiserCsv(sheet)),
  ];
}
