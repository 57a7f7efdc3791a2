/** @jsxImportSource preact */
/** Every plan kept in this browser, side by side: opened, copied, taken out, saved and loaded. */
import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { giveFile } from "../../kit/file.ts";
import { type Json, withValue } from "../../kit/json-pointer.ts";
import type { Actions } from "../actions.ts";
import { keptAnswers } from "../day/answers.ts";
import { EXAMPLE, FIRST } from "../day/first.ts";
import { fileOfPlans, type KeptPlan } from "../day/keeping.ts";
import { about, odds, whole } from "../figures.tsx";
import { rowsOf, wordAt } from "../groups/names.ts";
import { planOf, type State } from "../state.ts";

type Props = { readonly state: State; readonly actions: Actions };

const nameOf = ({ day }: KeptPlan): string => wordAt(day.plan, "#/name", "Plan");

/** What plans are compared by. */
const ROWS: readonly (readonly [name: string, (plan: Plan, request: Json) => string])[] = [
  ["Likely profit", ({ money, currency }) => about(money.expectedProfit, currency)],
  ["Bad day, 1 in 20 is worse", ({ money, currency }) => about(money.profit.p5, currency)],
  ["Good day, 1 in 20 is better", ({ money, currency }) => about(money.profit.p95, currency)],
  ["Odds of a loss", ({ money }) => odds(money.oddsOfLoss)],
  ["Stock to pay for", ({ bring, currency }) => about(bring.outlay, currency)],
  ["Highest pitch fee worth paying", ({ money, currency }) => about(money.pitchFee.highest, currency)],
  [
    "Garments sold, on average",
    ({ manners, best }) => whole(manners.find(({ manner }) => manner === best)?.garmentsSold ?? 0),
  ],
  ["Blanks to bring", ({ bring }) => whole(bring.skus.reduce((sum, line) => sum + line.bring, 0))],
  ["Transfers to bring", ({ bring }) => whole(bring.transfers.reduce((sum, line) => sum + line.bring, 0))],
  ["People", (_, request) => wordAt(request, "#/costs/crew/people", "–")],
  [
    "Presses",
    (_, request) =>
      rowsOf(request, "#/presses")
        .map(({ at }) => `${wordAt(request, `${at}/count`)} ${wordAt(request, `${at}/platen`)}`)
        .join(", ") || "no limit",
  ],
];

export function Plans({ state, actions }: Props) {
  const all = actions.plans();
  const ids = all.map(({ id }) => id).join(" ");
  const [answers, setAnswers] = useState<ReadonlyMap<string, Plan>>(new Map());
  useEffect(() => {
    const read = async (): Promise<void> => {
      const found = await Promise.all(
        all.map(async ({ id }) => [id, planOf({ answers: await keptAnswers(id) })] as const),
      );
      setAnswers(new Map(found.flatMap(([id, plan]) => (plan === null ? [] : [[id, plan] as const]))));
    };
    void read();
  }, [ids, state.answers.plan]);
  const planFor = (id: string) => (id === state.id ? planOf(state) : (answers.get(id) ?? null));
  return (
    <>
      <section class="wide" tabindex={0} aria-label="Plans side by side">
        <table id="plans-table">
          <caption>Side by side</caption>
          <thead>
            <tr>
              <th scope="col">Plan</th>
              {all.map((plan) => (
                <th key={plan.id} scope="col" class="number">
                  {nameOf(plan)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {ROWS.map(([name, told]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                {all.map(({ id, day }) => {
                  const plan = planFor(id);
                  return (
                    <td key={id} class="number">
                      {plan === null ? "not worked out" : told(plan, day.plan)}
                    </td>
                  );
                })}
              </tr>
            ))}
            <tr class="no-print">
              <th scope="row">
                <span class="offstage">What to do with it</span>
              </th>
              {all.map((plan) => (
                <td key={plan.id} class="number">
                  <PlanActs
                    plan={plan}
                    isOpen={plan.id === state.id}
                    only={all.length === 1}
                    actions={actions}
                  />
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </section>
      <div class="row no-print">
        <button
          type="button"
          id="new-plan"
          onClick={() => actions.add(FIRST, "A new plan, with usual figures.")}
        >
          New plan
        </button>
        <button
          type="button"
          id="open-example"
          onClick={() => actions.add(EXAMPLE, "An invented fair, to look around in.")}
        >
          Open the example
        </button>
        <button
          type="button"
          id="save-day"
          onClick={() => giveFile("fair-plan.json", "application/json", JSON.stringify(state.day, null, 2))}
        >
          Save this plan (file)
        </button>
        <button
          type="button"
          id="save-plans"
          onClick={() => giveFile("fair-plans.json", "application/json", fileOfPlans(all))}
        >
          Save all plans (file)
        </button>
        <label class="button" for="load">
          Load plans or lessons (file)
        </label>
      </div>
    </>
  );
}

type ActsProps = {
  readonly plan: KeptPlan;
  readonly isOpen: boolean;
  readonly only: boolean;
  readonly actions: Actions;
};

function PlanActs({ plan, isOpen, only, actions }: ActsProps) {
  const name = nameOf(plan);
  // Nothing brings a deleted plan back: the second tap does it.
  const [isSure, setSure] = useState(false);
  const copy = (): void => {
    const request = withValue(plan.day.plan, "#/name", `${name}, copy`);
    actions.add({ ...plan.day, plan: request }, `A copy of ${name}.`);
  };
  return (
    <div class="row">
      <button type="button" disabled={isOpen} onClick={() => actions.open(plan.id)}>
        {isOpen ? "Open now" : "Open"}
        <span class="offstage"> {name}</span>
      </button>
      <button type="button" onClick={copy}>
        Copy<span class="offstage"> {name}</span>
      </button>
      <button
        type="button"
        class="danger"
        disabled={only}
        onClick={() => (isSure ? actions.remove(plan.id) : setSure(true))}
        onBlur={() => setSure(false)}
      >
        {isSure ? "Delete for good" : "Delete"}
        <span class="offstage"> {name}</span>
      </button>
    </div>
  );
}
