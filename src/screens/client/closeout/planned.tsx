/** @jsxImportSource preact */
/** The plan that this stall was filled from, beside what the day became, and the way to the next plan. */
import type { Closeout } from "../../../model/accounts/closeout.ts";
import { dayInWords } from "../../../time/day-in-words.ts";
import { moneyWords } from "../crew/words/money.ts";
import { pageData } from "../kit/dom.ts";
import { spelt } from "../kit/spelling.ts";
import { Tap } from "../parts/tap.tsx";
import type { Actions, State } from "./state.ts";

type PlannedDay = NonNullable<Closeout["planned"]>;
type Row = readonly [figure: string, planned: string, actual: string];

const whole = (figure: number): string => String(Math.round(figure));
const minutes = (figure: number | null): string => (figure === null ? "–" : `${Math.round(figure)} min`);

/**
 * The figures of the day, or of all days, then sales by product, colour and size: each planned and actual. Of a plan of
 * several days, `thisDay` has the garments of one.
 */
function comparisons(
  planned: PlannedDay,
  currency: Closeout["currency"],
  days: number,
  thisDay: PlannedDay["garments"] | null,
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
  const garmentsSold = (name: string, { likely, low, high, actual }: PlannedDay["garments"]): Row => [
    name,
    `${whole(likely)}; 9 days in 10 from ${whole(low)} to ${whole(high)}`,
    whole(actual),
  ];
  return [
    {
      title: days === 1 ? "The day" : `All ${days} days`,
      rows: [
        [
          "Profit, with stock that is left at its worth next time",
          `${sum(profit.likely)}; 9 days in 10 from ${sum(profit.low)} to ${sum(profit.high)}`,
          profit.actual === null ? "once the costs are kept" : sum(profit.actual),
        ],
        garmentsSold("Garments sold", garments),
        ...(thisDay === null ? [] : [garmentsSold("Of those, on this day", thisDay)]),
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

/** Says which days are compared with the plan. Nothing is scaled: only the crew knows which days an earlier plan is for. */
function comparedWords(
  { day, days, planned, plannedWhole }: Closeout,
  compared: State["compared"],
): readonly string[] {
  if (!planned || !plannedWhole) return [];
  if (plannedWhole.days !== undefined)
    return [
      `The plan is for ${plannedWhole.days} days${days.length < plannedWhole.days ? `; ${days.length} so far` : ""}. Its fees count on the first day, its wages on each.`,
    ];
  if (compared === "whole")
    return [
      `The ${days.length} days together beside the plan as it was made: right if the plan is for the whole fair. No figure is scaled.`,
      "Waits are those of all days. Costs that came from the plan count once a day: if the pitch was paid once, take it off the other days under Costs.",
    ];
  return [
    `This one of the fair’s ${days.length} days beside the plan as it was made: right if the plan is for one day. If it is for the whole fair, tap “All ${days.length} days”.`,
    ...(planned.day === null || planned.day === day
      ? []
      : [`The plan was made for ${dayInWords(planned.day)}, which is another day.`]),
  ];
}

type Props = { readonly state: State; readonly actions: Actions };

export function Planned({ state: { account, compared }, actions }: Props) {
  const { currency, days, plannedWhole } = account;
  const planDays = plannedWhole?.days;
  const isWhole = planDays !== undefined || (compared === "whole" && Boolean(plannedWhole));
  const planned = isWhole ? plannedWhole : account.planned;
  const compare = (to: State["compared"]) => () => actions.change((before) => ({ ...before, compared: to }));
  const place = `${pageData("fair")}/${pageData("stall")}`;
  return (
    <section id="planned" class="figures" aria-label="The plan">
      {plannedWhole === null || plannedWhole === undefined ? null : (
        <>
          {planDays === undefined ? (
            <p class="row no-print">
              <Tap pressed={!isWhole} onTap={compare("day")}>
                This day
              </Tap>
              <Tap pressed={isWhole} onTap={compare("whole")}>
                {`All ${days.length} days`}
              </Tap>
            </p>
          ) : null}
          {comparedWords(account, compared).map((one) => (
            <p key={one}>{one}</p>
          ))}
        </>
      )}
      {planned === null || planned === undefined ? null : (
        <table>
          <caption>Planned and actual: {planned.name}</caption>
          {comparisons(
            planned,
            currency,
            isWhole ? (planDays ?? days.length) : 1,
            planDays === undefined ? null : (account.planned?.garments ?? null),
          ).map(({ title, rows }) => (
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
