/** @jsxImportSource preact */
/** The tick that lets the sheets decide what the transfers of the plan cost, with both sums. */
import { inMoney } from "../../../../planning/words/amounts.ts";
import type { Actions } from "../actions.ts";
import { BY_SHEET, isBySheet } from "../day/parts.ts";
import { wordAt } from "../groups/names.ts";
import { planOf, type State, sheetsOf } from "../state.ts";

type Props = { readonly state: State; readonly actions: Actions };

export function BySheet({ state, actions }: Props) {
  const { day } = state;
  if (wordAt(day.sheets, "#/question/ask", "least-cost") !== "least-cost") return null;
  const [plan, sheets] = [planOf(state), sheetsOf(state)];
  const counted = plan?.bring.shopping
    .filter(({ kind }) => kind === "transfer")
    .reduce((sum, { cost }) => sum + cost, 0);
  const says = (): string => {
    if (isBySheet(day)) return "The plan buys its transfers on these sheets, and counts what they cost.";
    if (plan === null || sheets === null || counted === undefined)
      return "The plan counts its transfers one by one, at their cost under Products.";
    const sum = (minor: number): string => inMoney(minor, plan.currency);
    return counted === sheets.cost.total
      ? `The plan counts ${sum(counted)} for its transfers, as these sheets cost.`
      : `The plan counts ${sum(counted)} for its transfers, one by one at their cost under Products. These sheets cost ${sum(sheets.cost.total)}.`;
  };
  return (
    <p class="by-sheet no-print">
      <label>
        <input
          type="checkbox"
          id="by-sheet"
          checked={isBySheet(day)}
          onChange={({ currentTarget: { checked } }) =>
            actions.change("organiser", BY_SHEET, checked ? true : undefined)
          }
        />
        Plan with what these sheets cost
      </label>{" "}
      <span class="help">{says()}</span>
    </p>
  );
}
