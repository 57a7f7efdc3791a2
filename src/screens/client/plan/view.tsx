/** @jsxImportSource preact */
/** The planning page as its state is: the steps, the one that is open, and the answer beside it. */

import type { ComponentChildren } from "preact";
import { spelt } from "../kit/spelling.ts";
import type { Actions } from "./actions.ts";
import { takenAsUsual } from "./day/first.ts";
import { about } from "./figures.tsx";
import { Form } from "./form/form.tsx";
import { costGroups } from "./groups/costs.ts";
import { fairGroups } from "./groups/fair.ts";
import { wordAt } from "./groups/names.ts";
import { productGroups } from "./groups/products.ts";
import { Histogram } from "./results/day.tsx";
import { inOneSentence } from "./results/plan.tsx";
import { faultsOf, planOf, STEPS, type State, type Step, standing, TABS } from "./state.ts";
import { AnswerStep } from "./steps/answer.tsx";
import { Gear, Sheets } from "./steps/gear.tsx";
import { LeftOver } from "./steps/left-over.tsx";
import { Plans } from "./steps/plans.tsx";
import { Print } from "./steps/print.tsx";
import { Standing } from "./steps/standing.tsx";
import { Taught } from "./steps/taught.tsx";

type Props = { readonly state: State; readonly actions: Actions };

export function Planner({ state, actions }: Props) {
  const { step } = state.place;
  return (
    <div class="planner">
      <Rail state={state} />
      <section class="step" aria-labelledby="step-heading">
        <StepHead state={state} actions={actions} />
        <p id="plan-note" class="note" role="status">
          {state.note ?? ""}
        </p>
        <Open state={state} actions={actions} />
        {step === "fair" ? <LeftOver state={state} actions={actions} /> : null}
        {step === "fair" ? <Taught state={state} actions={actions} /> : null}
        <Onward step={step} />
      </section>
      {step === "fair" || step === "products" || step === "costs" ? (
        <Beside state={state} actions={actions} />
      ) : null}
    </div>
  );
}

/** The steps in their order, each with its own address; a mark where something has to be mended. */
function Rail({ state }: Pick<Props, "state">) {
  const open = state.place.step;
  return (
    <nav class="rail no-print" aria-label="Steps of the plan">
      <ol>
        {STEPS.map(([step, name], at) => (
          <li key={step}>
            <a href={`#${step}`} aria-current={step === open ? "step" : undefined}>
              <span class="step-number" aria-hidden="true">
                {at + 1}
              </span>
              {spelt(name)}
            </a>
          </li>
        ))}
      </ol>
      <a class="plans-link" href="#plans" aria-current={open === "plans" ? "page" : undefined}>
        All plans
      </a>
    </nav>
  );
}

const HEADINGS: Readonly<Record<Step, string>> = {
  fair: "The fair",
  products: "What you sell",
  costs: "What the day costs",
  answer: "What to bring, and will the day make money?",
  gear: "Presses, power and the pitch",
  sheets: "Sheets of transfers to order",
  print: "Papers to print and send",
  plans: "All plans",
};

function StepHead({ state, actions }: Props) {
  const { step, tab } = state.place;
  const tabs = TABS[step];
  return (
    <>
      <div class="row apart step-head no-print">
        <h2 id="step-heading" tabindex={-1}>
          {HEADINGS[step]}
        </h2>
        {step === "plans" ? null : <p class="plan-name">{wordAt(state.day.plan, "#/name", "Plan")}</p>}
      </div>
      {step === "answer" ? <AnswerHead state={state} actions={actions} /> : null}
      {tabs === undefined ? null : (
        <nav class="tabs no-print" aria-label={HEADINGS[step]}>
          {tabs.map(([one, name]) => (
            <a key={one} href={`#${step}-${one}`} aria-current={one === tab ? "page" : undefined}>
              {spelt(name)}
            </a>
          ))}
        </nav>
      )}
    </>
  );
}

function AnswerHead({ state, actions }: Props) {
  const plan = planOf(state);
  return (
    <div id="plan-answer" hidden={plan === null}>
      {plan === null ? null : (
        <>
          <p class="verdict">{inOneSentence(plan)}</p>
          <ul class="told">
            {[plan.summary[0], plan.summary[2]].map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </>
      )}
      <Standing state={state} actions={actions} part="plan" />
    </div>
  );
}

function Open({ state, actions }: Props): ComponentChildren {
  const { plan } = state.day;
  const form = (groups: ReturnType<typeof fairGroups>) => (
    <Form
      part="plan"
      groups={groups}
      request={plan}
      change={(pointer, value) => actions.change("plan", pointer, value)}
      faults={faultsOf(state, "plan")}
    />
  );
  switch (state.place.step) {
    case "fair":
      return form(fairGroups(plan));
    case "products":
      return form(productGroups(plan));
    case "costs":
      return form(costGroups(plan));
    case "answer":
      return <AnswerStep state={state} actions={actions} />;
    case "gear":
      return <Gear state={state} actions={actions} />;
    case "sheets":
      return <Sheets state={state} actions={actions} />;
    case "print":
      return <Print state={state} actions={actions} />;
    case "plans":
      return <Plans state={state} actions={actions} />;
    default:
      return state.place.step satisfies never;
  }
}

/** The way on: the page's main act on every step but the last. */
function Onward({ step }: { readonly step: Step }) {
  const at = STEPS.findIndex(([one]) => one === step);
  const next = STEPS[at + 1];
  const before = STEPS[at - 1];
  if (step === "plans") return null;
  return (
    <nav class="row apart onward no-print" aria-label="Before and after this step">
      {before === undefined ? null : (
        <a class="button" href={`#${before[0]}`}>
          {before[1]}
        </a>
      )}
      {next === undefined ? null : (
        <a class="button main" href={`#${next[0]}`}>
          Next: {next[1]}
        </a>
      )}
    </nav>
  );
}

/** The answer in short, beside what is typed. */
function Beside({ state, actions }: Props) {
  const plan = planOf(state);
  const usual = takenAsUsual(state.day);
  return (
    <aside class="beside no-print" aria-label="Answer so far">
      {plan === null ? null : (
        <div class={standing(state, "plan") === "now" ? "card answer-slip" : "card answer-slip old"}>
          <p class="verdict">{inOneSentence(plan)}</p>
          <div class="deeper">
            <div>
              <Histogram plan={plan} />
            </div>
            <dl class="figures-row">
              <div>
                <dt>stock to pay for</dt>
                <dd>{about(plan.bring.outlay, plan.currency)}</dd>
              </div>
              <div>
                <dt>highest pitch fee worth paying</dt>
                <dd>{about(plan.money.pitchFee.highest, plan.currency)}</dd>
              </div>
            </dl>
          </div>
        </div>
      )}
      <Standing state={state} actions={actions} part="plan" />
      {usual.length === 0 ? null : (
        <div class="deeper usual">
          <h3>Taken as usual until you change it</h3>
          <ul>
            {usual.map(({ step, words }) => (
              <li key={words}>
                <a href={`#${step}`}>{words}</a>
              </li>
            ))}
          </ul>
        </div>
      )}
    </aside>
  );
}

export const titleOf = (state: State): string =>
  `${HEADINGS[state.place.step]}, ${wordAt(state.day.plan, "#/name", "Plan")}`;
