/** The planning page: four parts, each a request, a form over it, and an answer worked out in the worker. */

import type { PitchPlan } from "../../../model/planning/pitch.ts";
import type { Plan } from "../../../model/planning/plan-answer.ts";
import type { PowerPlan } from "../../../model/planning/power.ts";
import { organiserSheet } from "../../../planning/organiser-sheet.ts";
import { byId } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";
import { type Json, valueAt, withValue } from "../kit/json-pointer.ts";
import { fillStall } from "./filling.ts";
import { withFollowing } from "./following.ts";
import { type Form, formFor } from "./form.ts";
import { rowsOf, wordAt } from "./groups/names.ts";
import { organiserGroups } from "./groups/organiser.ts";
import { pitchGroups } from "./groups/pitch.ts";
import { planGroups } from "./groups/plan.ts";
import { powerGroups } from "./groups/power.ts";
import { pressesGroups } from "./groups/presses.ts";
import { sheetGroups } from "./groups/sheets.ts";
import { type Day, dayIn, EXAMPLE, keepDay, keptDay } from "./keeping.ts";
import { type Answer, PARTS, type Part } from "./messages.ts";
import { followingPlan, fromPlan } from "./power-from-plan.ts";
import { drawOrganiserSheet } from "./results/organiser.ts";
import { drawPitch } from "./results/pitch.ts";
import { drawPlan } from "./results/plan.ts";
import { drawPower } from "./results/power.ts";
import { drawPresses } from "./results/presses.ts";
import { drawSheets } from "./results/sheets.ts";
import { sheetsFor } from "./transfers.ts";
import { type Outcome, type Progress, planningDesk } from "./work.ts";

const GROUPS = {
  plan: planGroups,
  sheets: sheetGroups,
  presses: pressesGroups,
  power: (request: Json) => powerGroups(request, fromPlan({ ...day, power: request })),
  pitch: pitchGroups,
  organiser: organiserGroups,
} as const;
const FORMS = [...PARTS, "organiser"] as const;

let day: Day = keptDay();
let power: PowerPlan | null = null;
let pitch: PitchPlan | null = null;
const desk = planningDesk();

const text = byId<HTMLTextAreaElement>("plan-text");
const showText = (): void => {
  text.value = JSON.stringify(day.plan, null, 2);
  byId("plan-text-fault").textContent = "";
};

function change(part: keyof Day, request: Json): void {
  day = { ...day, [part]: request };
  keepDay(day);
}

const forms = Object.fromEntries(
  FORMS.map((part) => [
    part,
    formFor(
      part,
      { fields: byId(`${part}-fields`), faults: byId(`${part}-faults`) },
      GROUPS[part],
      (at, value) => {
        const into = part === "plan" ? withFollowing : withValue;
        change(part, into(day[part], at, value));
        if (part === "plan") showText();
        if (part === "plan" || part === "presses") forms.power.draw(day.power);
        if (part === "plan" || part === "organiser") drawOrganiser();
        return day[part];
      },
    ),
  ]),
) as Record<keyof Day, Form>; // one for each part

function drawAll(): void {
  for (const part of FORMS) {
    forms[part].draw(day[part]);
    forms[part].showFaults([]);
  }
  showText();
  drawOrganiser();
}

const namesOf = (request: Json, lists: readonly string[]): ReadonlyMap<string, string> =>
  new Map(
    lists.flatMap((list) =>
      rowsOf(request, list).map(({ at, name }) => [wordAt(request, `${at}/id`), name] as const),
    ),
  );

function drawOrganiser(): void {
  const setUpMinutes = valueAt(day.organiser, "#/setUpMinutes");
  const sheet = organiserSheet({
    stall: wordAt(day.organiser, "#/stall", "Our stall"),
    fair: wordAt(day.plan, "#/name", "the fair"),
    opens: wordAt(day.plan, "#/opens", "10:00"),
    closes: wordAt(day.plan, "#/closes", "18:00"),
    ...(typeof setUpMinutes === "number" ? { setUpMinutes } : {}),
    pitch,
    power,
  });
  byId("organiser-answer").replaceChildren(...drawOrganiserSheet(sheet));
}

/** The transfers of the plan, with what one more of each is worth, become the wish for sheets. */
function handOn(plan: Plan): void {
  change("sheets", sheetsFor(day.sheets, plan, namesOf(day.plan, ["#/designs"])));
  forms.sheets.draw(day.sheets);
}

function show(told: Extract<Answer, { kind: "answer" }>): void {
  const place = byId(`${told.part}-answer`);
  place.hidden = false;
  switch (told.part) {
    case "plan":
      drawPlan(
        place,
        told.answer,
        namesOf(day.plan, ["#/blanks", "#/designs", "#/offers"]),
        fillStall(told.answer, day),
      );
      handOn(told.answer);
      return;
    case "sheets":
      place.replaceChildren(...drawSheets(told.answer, namesOf(day.sheets, ["#/designs"])));
      return;
    case "presses":
      place.replaceChildren(...drawPresses(told.answer, wordAt(day.plan, "#/currency", "USD")));
      return;
    case "power":
      power = told.answer;
      place.replaceChildren(...drawPower(told.answer));
      drawOrganiser();
      return;
    case "pitch":
      pitch = told.answer;
      place.replaceChildren(...drawPitch(told.answer));
      drawOrganiser();
      return;
    default:
      told satisfies never;
  }
}

const STAGES = ["demand", "what to bring", "smaller menu", "money", "other parts"];

function say(part: Part, words: string): void {
  byId(`${part}-progress`).textContent = words;
}

const told = ({ stage, steps }: Progress): string =>
  `Working: ${stage} (part ${STAGES.indexOf(stage) + 1} of ${STAGES.length - 1}), ${(steps / 1e6).toFixed(1)} million asks lived through.`;

function end(part: Part, outcome: Outcome): void {
  byId(`${part}-stop`).hidden = true;
  switch (outcome.kind) {
    case "answer":
      forms[part].showFaults([]);
      show(outcome);
      say(part, "Done. The answer is below.");
      // The form is long, and the answer stands under all of it.
      byId(`${part}-answer`).scrollIntoView({ block: "start" });
      return;
    case "faults":
      byId(`${part}-answer`).hidden = true;
      forms[part].showFaults(outcome.faults);
      say(part, "");
      return;
    case "stopped":
      say(part, "Stopped. Nothing you typed is lost.");
      return;
    case "broken":
      say(part, `The planner broke off: ${outcome.detail}. Your figures are kept; try again.`);
      return;
    default:
      outcome satisfies never;
  }
}

for (const part of PARTS) {
  byId(`${part}-form`).addEventListener("submit", (event) => {
    event.preventDefault();
    say(part, "Working…");
    byId(`${part}-stop`).hidden = false;
    void desk
      .ask(
        {
          part,
          request: part === "power" ? followingPlan(day.power, fromPlan(day)) : day[part],
          plan: day.plan,
        },
        (progress) => say(part, told(progress)),
      )
      .then((outcome) => end(part, outcome));
  });
  byId(`${part}-stop`).addEventListener("click", desk.stop);
}

text.addEventListener("input", () => {
  const fault = byId("plan-text-fault");
  try {
    change("plan", JSON.parse(text.value) as Json); // JSON holds nothing else
    fault.textContent = "";
    forms.plan.draw(day.plan);
    forms.power.draw(day.power);
  } catch (error) {
    fault.textContent = `Not well-formed JSON yet, so the figures above still stand: ${String(error)}`;
  }
});

byId("save-day").addEventListener("click", () =>
  giveFile("fair-day.json", "application/json", JSON.stringify(day, null, 2)),
);
byId("save-plan").addEventListener("click", () =>
  giveFile("plan.json", "application/json", JSON.stringify(day.plan, null, 2)),
);
byId("start-over").addEventListener("click", () => {
  day = EXAMPLE;
  keepDay(day);
  drawAll();
  byId("file-told").textContent = "The example's figures are back.";
});
byId("load").addEventListener("change", (event) => {
  const input = event.target as HTMLInputElement; // the file input of the shell
  const [file] = input.files ?? [];
  void file?.text().then((contents) => {
    const read = dayIn(contents, day);
    byId("file-told").textContent =
      read === null
        ? `${file.name} holds no plan request and no lessons: nothing was changed. Choose a file saved here.`
        : `${read.what} (${file.name}).`;
    input.value = "";
    if (read === null) return;
    day = read.day;
    keepDay(day);
    drawAll();
  });
});

drawAll();
