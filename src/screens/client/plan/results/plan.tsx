/** @jsxImportSource preact */
/** A plan's answer, part by part. */
import { csvOf } from "../../../../model/basics/csv.ts";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { openingStock } from "../../../../planning/plan.ts";
import { planTable } from "../../../../planning/plan-table.ts";
import { honestly, lossWords, profitError, readyWords } from "../../../../planning/words/summary.ts";
import { Cautions, Facts, whole } from "../figures.tsx";
import type { Names } from "../groups/names.ts";
import { CsvButton } from "../printing.tsx";
import { Bring } from "./bring.tsx";
import { Money } from "./day.tsx";
import { Offers } from "./stated.tsx";
import { Swings, Ways } from "./ways.tsx";

/** The day's profit, its risk, and what to pack. */
export function inOneSentence({ money, bring, currency, scenarios }: Plan): string {
  const blanks = bring.skus.reduce((sum, line) => sum + line.bring, 0);
  const ready = readyWords(bring);
  const parts = [...(blanks > 0 || ready.length === 0 ? [`${whole(blanks)} blanks`] : []), ...ready];
  const what = new Intl.ListFormat("en").format(parts);
  const likely = honestly(money.expectedProfit, profitError({ money, scenarios }), currency);
  return `Likely ${likely}; ${lossWords(money.oddsOfLoss)}; bring ${what}.`;
}

/** The three figures under the sentence. */
export function ThreeFigures({ plan }: { readonly plan: Plan }) {
  const error = profitError(plan);
  const { profit, pitchFee } = plan.money;
  return (
    <Facts
      each={[
        ["a bad day: 1 in 20 is worse", honestly(profit.p5, error, plan.currency)],
        ["a good day: 1 in 20 is better", honestly(profit.p95, error, plan.currency)],
        ["highest pitch fee worth paying", honestly(pitchFee.highest, error, plan.currency)],
      ]}
    />
  );
}

type Props = { readonly tab: string; readonly plan: Plan; readonly names: Names };

/** What a tab of the answer shows. */
export function Tab({ tab, plan, names }: Props) {
  switch (tab) {
    case "bring":
      return (
        <>
          <Bring plan={plan} names={names} />
          <Offers plan={plan} names={names.offers} />
          <Files plan={plan} />
        </>
      );
    case "money":
      return <Money plan={plan} />;
    case "matters":
      return (
        <>
          <Swings plan={plan} />
          <Cautions each={plan.cautions} />
        </>
      );
    case "ways":
      return (
        <>
          <p class="verdict">{plan.advice}</p>
          <Ways plan={plan} />
        </>
      );
    default:
      return null;
  }
}

/** The accepted plan as a stock sheet, the way a stall's stock is counted in. */
function stockSheet(plan: Plan): string {
  const { skus, transfers } = openingStock(plan);
  return csvOf(
    [
      ["piece", ({ piece }) => piece],
      ["counted", ({ counted }) => counted],
    ],
    [
      ...skus.map(({ sku, counted }) => ({ piece: sku, counted })),
      ...transfers.map(({ design, counted }) => ({ piece: design, counted })),
    ],
  );
}

const Files = ({ plan }: { readonly plan: Plan }) => (
  <div class="row no-print">
    <CsvButton words="Save the whole result (CSV)" name="plan.csv" csv={() => planTable(plan)} />
    <CsvButton words="Save as opening stock (CSV)" name="stock.csv" csv={() => stockSheet(plan)} />
  </div>
);
