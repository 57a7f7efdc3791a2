/** @jsxImportSource preact */
/** The plan that this stall was filled from, beside what the day became, and the way to the next plan. */
import type { Closeout, DayCosts } from "../../../model/accounts/closeout.ts";
import { moneyWords } from "../crew/words/money.ts";
import { pageData } from "../kit/dom.ts";
import { type AcceptedHere, acceptedAt } from "../plan/day/accepted.ts";

const place = (): string => `${pageData("fair")}/${pageData("stall")}`;

/** The costs of the plan, to begin from; null where this browser filled the stall from none. */
export const plannedCosts = (): DayCosts | null => acceptedAt(place())?.costs ?? null;

type Row = readonly [figure: string, planned: string, actual: string];

function rowsOf({ expected }: AcceptedHere, account: Closeout): readonly Row[] {
  const sum = (minor: number): string => moneyWords(Math.round(minor), account.currency);
  const wait = account.waits.medianMinutes;
  const sold = account.sales.offers.reduce((all, { garments }) => all + garments, 0);
  return [
    [
      "Profit",
      `${sum(expected.profit)}; 9 days in 10 from ${sum(expected.profitLow)} to ${sum(expected.profitHigh)}`,
      account.costs === null ? "once the costs are kept" : sum(account.money.profit),
    ],
    ["Garments sold", String(Math.round(expected.garments)), String(sold)],
    ["Blanks left", String(Math.round(expected.blanksLeft)), String(account.left.blanks)],
    [
      "Typical wait",
      `${Math.round(expected.waitMinutes)} min`,
      wait === null ? "–" : `${Math.round(wait)} min`,
    ],
  ];
}

export function Planned({ account }: { readonly account: Closeout }) {
  const accepted = acceptedAt(place());
  return (
    <section id="planned" class="figures" aria-label="The plan">
      {accepted === null ? null : (
        <table>
          <caption>Planned and actual</caption>
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col" class="number">
                Planned
              </th>
              <th scope="col" class="number">
                Actual
              </th>
            </tr>
          </thead>
          <tbody>
            {rowsOf(accepted, account).map(([figure, planned, actual]) => (
              <tr key={figure}>
                <th scope="row">{figure}</th>
                <td class="number">{planned}</td>
                <td class="number">{actual}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <a id="plan-next" class="button no-print" href={`/plan?after=${encodeURIComponent(place())}#fair`}>
        Plan the next fair
      </a>
    </section>
  );
}
