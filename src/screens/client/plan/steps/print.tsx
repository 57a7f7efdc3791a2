/** @jsxImportSource preact */
/** The papers of a plan, one at a time. */
import type { ComponentChildren } from "preact";
import { organiserSheet } from "../../../../planning/organiser-sheet.ts";
import { dayInWords } from "../../../../time/day-in-words.ts";
import { valueAt } from "../../kit/json-pointer.ts";
import type { Actions } from "../actions.ts";
import { Form } from "../form/form.tsx";
import { namesIn, wordAt } from "../groups/names.ts";
import { organiserGroups } from "../groups/organiser.ts";
import { BlankOrder, OrganiserPaper, PackingList, QuestionList, TransferOrder } from "../papers/lists.tsx";
import { planOf, type State, sheetsOf, sheetsPart } from "../state.ts";
import { BySheet } from "./by-sheet.tsx";
import { Standing } from "./standing.tsx";

type Props = { readonly state: State; readonly actions: Actions };

export function Print({ state, actions }: Props) {
  const { tab } = state.place;
  const plan = planOf(state);
  const { power } = state.answers;
  const sheets = sheetsOf(state);
  const paper = (drawn: ComponentChildren) => (
    <div key={tab} id={tab} class="answer paper">
      {drawn}
    </div>
  );
  if (tab === "organiser") return <Organiser state={state} actions={actions} />;
  if (plan === null) return <Standing state={state} actions={actions} part="plan" />;
  switch (tab) {
    case "blanks":
      return paper(<BlankOrder plan={plan} day={state.day} />);
    case "transfers":
      return (
        <>
          <Standing state={state} actions={actions} part={sheetsPart(state)} />
          <BySheet state={state} actions={actions} />
          {sheets === null
            ? null
            : paper(
                <TransferOrder sheets={sheets} day={state.day} names={namesIn(state.day.plan).designs} />,
              )}
        </>
      );
    case "questions":
      return paper(<QuestionList plan={plan} day={state.day} />);
    default: {
      const powered = power?.answer.part === "power" ? power.answer.answer : null;
      return paper(<PackingList plan={plan} day={state.day} power={powered} />);
    }
  }
}

function Organiser({ state, actions }: Props) {
  const { day, answers } = state;
  const date = wordAt(day.plan, "#/day");
  const setUpMinutes = valueAt(day.organiser, "#/setUpMinutes");
  const sheet = organiserSheet({
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
      <div id="organiser-answer" class="answer paper">
        <OrganiserPaper sheet={sheet} />
      </div>
    </>
  );
}
