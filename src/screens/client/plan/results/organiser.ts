/** The page to hand to the organiser. */
import type { OrganiserSheet } from "../../../../model/planning/organiser-sheet.ts";
import { csv } from "../../../../planning/csv.ts";
import { element } from "../../kit/dom.ts";
import { giveFile } from "../../kit/file.ts";
import { cautions, sentences, tableOf } from "../figures.ts";
import { printButton } from "../printing.ts";

export function drawOrganiserSheet(sheet: OrganiserSheet): HTMLElement[] {
  const about = [...new Set(sheet.questions.map((question) => question.about))];
  return [
    element("h3", {}, sheet.title),
    ...(sheet.pitch.length === 0 ? [] : [element("h4", {}, "Pitch"), sentences(sheet.pitch)]),
    ...(sheet.power.length === 0 ? [] : [element("h4", {}, "Power"), sentences(sheet.power)]),
    element("h4", {}, "What we have to know"),
    element(
      "dl",
      { class: "asks" },
      ...about.flatMap((one) => [
        element("dt", {}, one),
        ...sheet.questions
          .filter((question) => question.about === one)
          .map(({ ask }) => element("dd", {}, ask)),
      ]),
    ),
    tableOf(
      "Our day",
      ["At", { words: "What" }],
      sheet.timetable.map(({ at, what }) => [at, what]),
    ),
    cautions(sheet.cautions),
    element(
      "div",
      { class: "row no-print" },
      printButton("Print this page"),
      element(
        "button",
        { type: "button", onclick: () => giveFile("organiser-sheet.csv", "text/csv", organiserCsv(sheet)) },
        "Save as CSV",
      ),
    ),
  ];
}

/** What the stall needs, what it has to know, and its day: a row for each sentence. */
const organiserCsv = ({ pitch, power, questions, timetable }: OrganiserSheet): string =>
  csv(
    ["part", "about", "what", "answer"],
    [
      ...pitch.map((one) => ["need", "pitch", one, ""]),
      ...power.map((one) => ["need", "power", one, ""]),
      ...questions.map(({ about, ask }) => ["question", about, ask, ""]),
      ...timetable.map(({ at, what }) => ["our day", at, what, ""]),
    ],
  );
