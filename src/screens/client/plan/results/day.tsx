/** @jsxImportSource preact */
/** Whether the day makes money: the spread of profit, its odds, and where it comes from. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { honestly, profitError } from "../../../../planning/words/summary.ts";
import { about, Bar, Facts, odds, roughly, Table, whole } from "../figures.tsx";

export function Money({ plan }: { readonly plan: Plan }) {
  const { money, currency, demand } = plan;
  const sum = (minor: number) => about(minor, currency);
  const error = profitError(plan);
  const honest = (minor: number) => honestly(minor, error, currency);
  const { p5, p25, p50, p75, p95 } = money.profit;
  const { garments, passersBy, beyondStock } = money.breakEven;
  return (
    <>
      <Facts
        each={[
          ["expected profit", honest(money.expectedProfit)],
          ["odds of a loss", odds(money.oddsOfLoss)],
          [`odds of ${sum(money.target)} or more`, odds(money.oddsOfTarget)],
          [
            "garments to break even",
            garments === null
              ? "never"
              : `${roughly(garments)}${beyondStock ? ", more than you would bring" : ""}`,
          ],
          ["passers-by to break even", passersBy === null ? "never" : roughly(passersBy)],
          ["highest pitch fee worth paying", honest(money.pitchFee.highest)],
          ["pitch fee with a loss one day in ten", honest(money.pitchFee.cautious)],
        ]}
      />
      <Table
        caption="Profit of the day"
        columns={["Worse than this", "Profit", { words: "Drawn to scale" }]}
        rows={(
          [
            ["1 day in 20", p5],
            ["1 day in 4", p25],
            ["every other day", p50],
            ["3 days in 4", p75],
            ["19 days in 20", p95],
          ] as const
        ).map(([days, profit]) => [days, honest(profit), bandOf(profit, p5, p95)])}
      />
      <Histogram plan={plan} />
      <Table
        caption="How many will come and ask"
        columns={["In the day", "1 day in 20 below", "middle", "1 day in 20 above"]}
        rows={(["passersBy", "orders", "garments"] as const).map((what) => {
          const { p5: low, p50: middle, p95: high } = demand[what];
          return [what === "passersBy" ? "passers-by" : what, roughly(low), roughly(middle), roughly(high)];
        })}
      />
      <Table
        caption="Where the takings go, on an average day"
        columns={["What", "Sum"]}
        rows={[
          ["Takings, with tax", sum(money.takings)],
          ...money.costs.map(({ name, amount }) => [name, sum(-amount)]),
          ["Left as profit", honest(money.expectedProfit)],
        ]}
      />
      <Table
        caption="If you changed all prices"
        columns={["All prices", "Garments sold", "Profit"]}
        rows={money.prices.map(({ factor, sold, profit }) => [
          factor === 1
            ? "as they are"
            : `${factor > 1 ? "+" : "−"}${Math.abs(Math.round(factor * 100 - 100))} %`,
          roughly(sold),
          honest(profit),
        ])}
      />
    </>
  );
}

/** A bar from nothing to the profit, on one scale for all rows; a loss lies left of the line. */
function bandOf(profit: number, low: number, high: number) {
  const least = Math.min(0, low);
  const span = Math.max(0, high) - least || 1;
  const from = (Math.min(0, profit) - least) / span;
  return <Bar share={Math.abs(profit) / span} from={from} kind={profit < 0 ? "loss" : ""} />;
}

/** How often each profit comes. */
export function Histogram({ plan: { money, currency, scenarios } }: { readonly plan: Plan }) {
  const bins = money.histogram;
  const sum = (minor: number) => about(minor, currency);
  const most = Math.max(...bins.map(({ chance }) => chance), 0.001);
  const first = bins[0];
  const last = bins.at(-1);
  return (
    <figure class="histogram">
      <div
        class="columns"
        role="img"
        aria-label="How often each profit comes. The table under Money has the figures."
      >
        {bins.map(({ from, to, chance }) => (
          <span
            key={from}
            class={to <= 0 ? "column loss" : "column"}
            style={{ "--share": String(chance / most) }}
            title={`${sum(from)} to ${sum(to)}: ${odds(chance)}`}
          />
        ))}
      </div>
      <figcaption class="row apart small">
        <span>{first === undefined ? "" : sum(first.from)}</span>
        <span>{`${whole(scenarios)} imagined days; hatched columns are losses`}</span>
        <span>{last === undefined ? "" : sum(last.to)}</span>
      </figcaption>
    </figure>
  );
}
