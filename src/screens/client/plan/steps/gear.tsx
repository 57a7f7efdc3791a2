/** @jsxImportSource preact */
/** Presses, power, pitch and sheets: the figures of each, most of them the plan's, and its answer under them. */
import type { Json } from "../../kit/json-pointer.ts";
import type { Actions } from "../actions.ts";
import { Form, type Group } from "../form/form.tsx";
import { namesIn, wordAt } from "../groups/names.ts";
import { pitchGroups } from "../groups/pitch.ts";
import { powerGroups } from "../groups/power.ts";
import { pressesGroups } from "../groups/presses.ts";
import { pressingGroups } from "../groups/pressing.ts";
import { sheetGroups } from "../groups/sheets.ts";
import type { Answered, DayPart } from "../messages.ts";
import { Pitch } from "../results/pitch.tsx";
import { Power } from "../results/power.tsx";
import { Presses } from "../results/presses.tsx";
import { SheetOrder } from "../results/sheets.tsx";
import { faultsOf, given, type State, sheetsOf, sheetsPart } from "../state.ts";
import { BySheet } from "./by-sheet.tsx";
import { Standing } from "./standing.tsx";

type Props = { readonly state: State; readonly actions: Actions };

const currencyOf = (state: State): string => wordAt(state.day.plan, "#/currency", "USD");

export function Gear({ state, actions }: Props) {
  const { tab } = state.place;
  switch (tab) {
    case "power":
      return part("power", powerGroups(state.day.power, given(state), currencyOf(state)), state, actions);
    case "pitch":
      return part("pitch", pitchGroups(state.day.pitch, given(state)), state, actions);
    default:
      return (
        <>
          {form("plan", pressingGroups(state.day.plan), state.day.plan, state, actions)}
          {part("presses", pressesGroups(state.day.presses, given(state)), state, actions)}
        </>
      );
  }
}

export function Sheets({ state, actions }: Props) {
  const { day } = state;
  const sheets = sheetsOf(state);
  return (
    <>
      {form("sheets", sheetGroups(day.sheets, given(state), currencyOf(state)), day.sheets, state, actions)}
      <BySheet state={state} actions={actions} />
      <Standing state={state} actions={actions} part={sheetsPart(state)} />
      {sheets === null ? null : (
        <div id="sheets-answer" class="answer">
          <SheetOrder plan={sheets} names={namesIn(day.plan).designs} />
        </div>
      )}
    </>
  );
}

function form(which: DayPart, groups: readonly Group[], request: Json, state: State, actions: Actions) {
  return (
    <Form
      part={which}
      groups={groups}
      request={request}
      change={(pointer, value) => actions.change(which, pointer, value)}
      faults={faultsOf(state, which)}
    />
  );
}

function part(
  which: Exclude<DayPart, "plan" | "sheets">,
  groups: readonly Group[],
  state: State,
  actions: Actions,
) {
  const answered = state.answers[which];
  return (
    <div key={which}>
      {form(which, groups, state.day[which], state, actions)}
      <Standing state={state} actions={actions} part={which} />
      {answered === undefined ? null : (
        <div id={`${which}-answer`} class="answer">
          {resultOf(answered, state)}
        </div>
      )}
    </div>
  );
}

function resultOf({ answer }: Answered, state: State) {
  switch (answer.part) {
    case "presses":
      return <Presses plan={answer.answer} currency={currencyOf(state)} />;
    case "power":
      return <Power plan={answer.answer} />;
    case "pitch":
      return <Pitch plan={answer.answer} />;
    case "plan":
    case "sheets":
    case "taught":
      return null;
    default:
      return answer satisfies never;
  }
}
