/** @jsxImportSource preact */
/** The papers of a plan, one at a time. */
import { organiserSheet } from "../../../../planning/organiser-sheet.ts";
import { dayInWords } from "../../../../time/day-in-words.ts";
import { valueAt } from "../../kit/json-pointer.ts";
import type { Actions } from "../actions.ts";
import { Drawn } from "../drawn.tsx";
import { Form } from "../form/form.tsx";
import { namesIn, wordAt } from "../groups/names.ts";
import { organiserGroups } from "../groups/organiser.ts";
import {
  drawBlankOrder,
  drawOrganiserSheet,
  drawPackingList,
  drawQuestionList,
  drawTransferOrder,
} from "../papers/lists.ts";
import { planOf, type State, sheetsOf, sheetsPart } from "../state.ts";
import { BySheet } from "./by-sheet.tsx";
import { Standing } from "./standing.tsx";

type Props = { readonly state: State; readonly actions: Actions };

export function Print({ state, actions }: Props) {
  const { tab } = state.place;
  const plan = planOf(state);
  const { power } = state.answers;
  const sheets = sheetsOf(state);
  const paper = (draw: () => readonly Node[], ...of: readonly unknown[]) => (
    <Drawn key={tab} id={tab} class="answer paper" of={[state.day, ...of]} draw={draw} />
  );
  if (tab === "organiser") return <Organiser state={state} actions={actions} />;
  if (plan === null) return <Standing state={state} actions={actions} part="plan" />;
  switch (tab) {
    case "blanks":
      return paper(() => drawBlankOrder(plan, state.day), plan);
    case "transfers":
      return (
        <>
          <Standing state={state} actions={actions} part={sheetsPart(state)} />
          <BySheet state={state} actions={actions} />
          {sheets === null
            ? null
            : paper(() => drawTransferOrder(sheets, state.day, namesIn(state.day.plan).designs), sheets)}
        </>
      );
    case "questions":
      return paper(() => drawQuestionList(plan, state.day), plan);
    default: {
      const powered = power?.answer.part === "power" ? power.answer.answer : null;
      return paper(() => drawPackingList(plan, state.day, powered), plan, powered);
    }
  }
}

function Organiser({ state, actions }: Props) {
  const { day, answers } = state;
  const date = wordAt(day.plan, "#/day");
  const setUpMinutes = valueAt(day.organiser, "#/setUpMinutes");
  const sheet = () =>
    organiserSheet({
      stall: wordAt(day.organiser, "#/stall", "Our stall"),
      fair: wordAt(day.plan, "#/name", "the fair"),
      ...(date === "" ? {} : { day: dayInWords(date) }),
      opens: wordAt(day.plan, "#/opens", "10:00"),
      closes: wordAt(day.plan, "#/closes", "18:00"),
      ...(typeof setUpMinutes === "number" ? { setUpMinutes } : {}),
      pitch: answers.pitch?.answer.part === "pitch" ? answers.pitch.answer.answer : null,
      power: answers.power?.answer.part === "power" ? answers.power.answer.answer : null,
    });
  return (
    <>
      <Form
        part="organiser"
        groups={organiserGroups()}
        request={day.organiser}
        change={(pointer, value) => actions.change("organiser", pointer, value)}
        faults={[]}
      />
      <Drawn
        id="organiser-answer"
        class="answer paper"
        of={[day, answers.pitch, answers.power]}
        draw={() => drawOrganiserSheet(sheet())}
      />
    </>
  );
}
