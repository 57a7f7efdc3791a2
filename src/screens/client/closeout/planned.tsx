/** @jsxImportSource preact */
/** The plan that this stall was filled from, beside what the day became, and the way to the next plan. */
import type { Closeout } from "../../../model/accounts/closeout.ts";
import { moneyWords } from "../crew/words/money.ts";
import { pageData } from "../kit/dom.ts";
import { spelt } from "../kit/spelling.ts";

type PlannedDay = NonNullable<Closeout["planned"]>;
type Row = readonly [figure: string, planned: string, actual: string];

const whole = (figure: number): string => String(Math.round(figure));
const minutes = (figure: number | null): string => (figure === null ? "–" : `${Math.round(figure)} min`);

/** The day's figures, then sales by product, colour and size: each planned and actual. */
function comparisons(
  planned: PlannedDay,
  currency: Closeout["currency"],
): readonly { readonly title: string; readonly rows: readonly Row[] }[] {
  const { profit, garments, waitMinutes, spoiled, blanksLeft, transfersLeft, readyLeft } = planned;
  const sum = (minor: number): string => moneyWords(Math.round(minor), currency);
  const counts = (name: string, one: { readonly planned: number; readonly actual: number }): Row => [
    name,
    whole(one.planned),
    whole(one.actual),
  ];
  const sold = (
    lines: readonly { readonly name: string; readonly planned: number; readonly sold: number }[],
  ) => lines.map(({ name, planned: likely, sold: was }): Row => [name, whole(likely), whole(was)]);
  return [
    {
      title: "The day",
      rows: [
        [
          "Profit, with stock that is left at its worth next time",
          `${sum(profit.likely)}; 9 days in 10 from ${sum(profit.low)} to ${sum(profit.high)}`,
          profit.actual === null ? "once the costs are kept" : sum(profit.actual),
        ],
        [
          "Garments sold",
          `${whole(garments.likely)}; 9 days in 10 from ${whole(garments.low)} to ${whole(garments.high)}`,
          whole(garments.actual),
        ],
        ["Typical wait", minutes(waitMinutes.planned), minutes(waitMinutes.actual)],
        counts("Blanks spoiled", spoiled),
        counts("Blanks left", blanksLeft),
        counts("Transfers left", transfersLeft),
        ...(readyLeft === undefined ? [] : [counts("Garments printed ahead, left", readyLeft)]),
      ],
    },
    { title: "Sold by product", rows: sold(planned.offers) },
    { title: spelt("Sold by colour"), rows: sold(planned.colours) },
    { title: "Sold by size", rows: sold(planned.sizes) },
  ];
}

export function Planned({ account: { planned, currency } }: { readonly account: Closeout }) {
  const place = `${pageData("fair")}/${pageData("stall")}`;
  return (
    <section id="planned" class="figures" aria-label="The plan">
      {planned === null || planned === undefined ? null : (
        <table>
          <caption>Planned and actual: {planned.name}</caption>
          {comparisons(planned, currency).map(({ title, rows }) => (
            <tbody key={title}>
              <tr class="heads">
                <th scope="col">{title}</th>
                <th scope="col" class="number">
                  Planned
                </th>
                <th scope="col" class="number">
                  Actual
                </th>
              </tr>
              {rows.map(([figure, likely, actual]) => (
                <tr key={figure}>
                  <th scope="row">{figure}</th>
                  <td class="number">{likely}</td>
                  <td class="number">{actual}</td>
                </tr>
              ))}
            </tbody>
          ))}
        </table>
      )}
      <a id="plan-next" class="button no-print" href={`/plan?after=${encodeURIComponent(place)}#fair`}>
        Plan the next fair
      </a>
      <a class="button no-print" href="/fairs">
        My fairs
      </a>
    </section>
  );
}
