/** @jsxImportSource preact */
/** The answer's tabs: what to bring, the money, what matters, the ways to run the stall, the hours. */

import type { Actions } from "../actions.ts";
import { Form } from "../form/form.tsx";
import { field, namesIn } from "../groups/names.ts";
import { Hours } from "../results/hours.tsx";
import { Tab, ThreeFigures } from "../results/plan.tsx";
import { faultsOf, planOf, type State } from "../state.ts";
import { FillStall } from "./filling.tsx";

type Props = { readonly state: State; readonly actions: Actions };

const WAY = field("#/way", "How to run the stall", "Sheets, lists and opening stock follow it.", {
  choices: [
    ["the way that earns most", undefined],
    ["press on site", "press-on-site"],
    ["print everything ahead", "print-ahead"],
    ["print the sure sellers ahead, press the rest", "mixed"],
  ],
});

export function AnswerStep({ state, actions }: Props) {
  const plan = planOf(state);
  const { tab } = state.place;
  const way = (
    <Form
      part="plan"
      groups={[{ legend: "How to run the stall", essential: true, fields: [WAY] }]}
      request={state.day.plan}
      change={(pointer, value) => actions.change("plan", pointer, value)}
      faults={faultsOf(state, "plan")}
    />
  );
  if (plan === null) return way;
  if (tab === "hours")
    return (
      <div key="hours" id="hours">
        <Hours plan={plan} />
      </div>
    );
  return (
    <>
      {tab === "ways" || faultsOf(state, "plan").length > 0 ? way : null}
      {tab === "money" || tab === "bring" ? (
        <div key="three">
          <ThreeFigures plan={plan} />
        </div>
      ) : null}
      <div key={tab} id={tab} class="answer">
        <Tab tab={tab} plan={plan} names={namesIn(state.day.plan)} />
      </div>
      {tab === "bring" ? (
        <div key="fill" id="fill">
          <FillStall plan={plan} day={state.day} />
        </div>
      ) : null}
    </>
  );
}
