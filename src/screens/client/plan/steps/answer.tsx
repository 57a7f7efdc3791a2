/** @jsxImportSource preact */
/** The answer's tabs: what to bring, the money, what matters, the ways to run the stall, the hours. */

import type { Actions } from "../actions.ts";
import { Drawn } from "../drawn.tsx";
import { Form } from "../form/form.tsx";
import { field, namesIn } from "../groups/names.ts";
import { drawHours } from "../results/hours.ts";
import { drawTab, threeFigures } from "../results/plan.ts";
import { faultsOf, planOf, type State } from "../state.ts";
import { fillStall } from "./filling.ts";

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
  if (tab === "hours") {
    const hours = drawHours(plan);
    return <Drawn key="hours" id="hours" of={[plan]} draw={() => hours.drawn} then={hours.fit} />;
  }
  return (
    <>
      {tab === "ways" || faultsOf(state, "plan").length > 0 ? way : null}
      {tab === "money" || tab === "bring" ? (
        <Drawn key="three" of={[plan]} draw={() => [threeFigures(plan)]} />
      ) : null}
      <Drawn
        key={tab}
        id={tab}
        class="answer"
        of={[plan, state.day.plan]}
        draw={() => drawTab[tab]?.(plan, namesIn(state.day.plan)) ?? []}
      />
      {tab === "bring" ? (
        <Drawn key="fill" id="fill" of={[plan, state.day]} draw={() => [fillStall(plan, state.day)]} />
      ) : null}
    </>
  );
}
