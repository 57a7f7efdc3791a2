/** @jsxImportSource preact */
/** The requests for each offer; and the offers with stated demand, which are planned separately and exactly. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { about, Bar, Folded, odds, Table, whole } from "../figures.tsx";

type Props = { readonly plan: Plan; readonly names: ReadonlyMap<string, string> };

export function Offers({ plan, names }: Props) {
  const { offers } = plan.demand;
  return (
    <>
      {offers.length === 0 ? null : (
        <Folded summary="What each offer is asked for">
          <Table
            caption="What each offer is asked for, in the day"
            columns={["Offer", "1 day in 20 below", "middle", "1 day in 20 above"]}
            rows={offers.map(({ offer, garments: { p5, p50, p95 } }) => [
              names.get(offer) ?? offer,
              whole(p5),
              whole(p50),
              whole(p95),
            ])}
          />
        </Folded>
      )}
      {plan.stated.length === 0 ? null : <Stated plan={plan} names={names} />}
    </>
  );
}

function Stated({ plan: { stated, currency }, names }: Props) {
  const headings = [
    "Offer",
    "Bring",
    "Odds that it is enough",
    "Sold, on average",
    "Turned away, on average",
    "Left over, on average",
    "To pay",
    "Leaves, before fixed costs",
  ];
  return (
    <>
      <Table
        caption="Offers whose demand you stated"
        columns={headings}
        rows={stated.map((one) => [
          names.get(one.offer) ?? one.offer,
          whole(one.quantity),
          <span key={one.offer} class="stock">
            {odds(one.oddsEnough)}
            <Bar share={one.oddsEnough} />
          </span>,
          one.expectedSold.toFixed(1),
          one.expectedUnmet.toFixed(1),
          one.expectedLeftOver.toFixed(1),
          about(one.outlay, currency),
          about(one.expectedProfit, currency),
        ])}
      />
      <p class="help">
        {stated.map(
          ({ offer, criticalRatio, exactQuantity }) =>
            `${names.get(offer) ?? offer}: one more pays as long as it sells on more than ${odds(1 - criticalRatio)} of days; ${exactQuantity.toFixed(1)} before rounding. `,
        )}
      </p>
    </>
  );
}
