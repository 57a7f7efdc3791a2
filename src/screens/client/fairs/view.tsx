/** @jsxImportSource preact */
/** Every closed day, and the fairs' totals: profit, sales, mistakes, tax, and what sells where. */
import type { ComponentChildren } from "preact";
import type { PastDay } from "../../../model/accounts/past-day.ts";
import { moneyWords } from "../crew/words/money.ts";
import { spelt } from "../kit/spelling.ts";
import { byCurrency, mistakes, sellsWhere, soldThrough, taxes } from "./history.ts";

export type Actions = { readonly saveFile: () => void; readonly saveBooks: () => void };
type Props = { readonly days: readonly PastDay[]; readonly actions: Actions };

export function Fairs({ days, actions }: Props) {
  return (
    <>
      {days.length === 0 ? (
        <p class="lead">
          No day is closed yet. Close a stall’s day on its Close-out page in this browser, and this page lists
          what sold and what it earned.
        </p>
      ) : (
        byCurrency(days).map(([currency, some]) => (
          <OneCurrency key={currency} currency={currency} days={some} />
        ))
      )}
      <div class="row no-print">
        {days.length === 0 ? null : (
          <>
            <button type="button" id="save-books" onClick={actions.saveBooks}>
              Save for the bookkeeper (CSV)
            </button>
            <button type="button" id="save-fairs" onClick={actions.saveFile}>
              Save my fairs (file)
            </button>
          </>
        )}
        <label class="button" for="load">
          Load my fairs (file)
        </label>
      </div>
    </>
  );
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const hours = (one: number): string => String(Math.round(one * 10) / 10);

function OneCurrency({
  currency,
  days,
}: {
  readonly currency: PastDay["currency"];
  readonly days: readonly PastDay[];
}) {
  const sum = (minor: number): string => moneyWords(minor, currency);
  const known = days.flatMap(({ profit, openHours }) => (profit === null ? [] : [{ profit, openHours }]));
  const earned = known.reduce((all, { profit }) => all + profit, 0);
  const open = known.reduce((all, { openHours }) => all + openHours, 0);
  const { fairs, rows } = sellsWhere(days);
  const sold = (title: string, part: "designs" | "colours" | "sizes", one: string) => (
    <Table
      title={title}
      heads={[one, "Pressed", "Of what was there"]}
      rows={soldThrough(days, part).map(({ name, used, share }) => [name, String(used), percent(share)])}
    />
  );
  return (
    <section aria-label={`Fairs in ${currency}`}>
      <dl class="figures-row">
        <Figure label="profit in all" figure={known.length === 0 ? "–" : sum(earned)} />
        <Figure label="profit for each open hour" figure={open > 0 ? sum(Math.round(earned / open)) : "–"} />
        <Figure label={days.length === 1 ? "closed day" : "closed days"} figure={String(days.length)} />
      </dl>
      <Table
        title="Every closed day"
        heads={["Day and fair", "Profit", "Sales before tax", "Garments", "Hours"]}
        rows={days.map(({ day, fair, stall, profit, sales, offers, openHours }) => [
          `${day}, ${fair}, ${stall}`,
          profit === null ? "no costs" : sum(profit),
          sum(sales),
          String(offers.reduce((all, { garments }) => all + garments, 0)),
          hours(openHours),
        ])}
      />
      <Table
        title="What sells where, in garments"
        heads={["Product", ...fairs]}
        rows={rows.map(({ name, garments }) => [name, ...garments.map(String)])}
      />
      {sold("Designs", "designs", "Design")}
      {sold(spelt("Colours"), "colours", spelt("Colour"))}
      {sold("Sizes", "sizes", "Size")}
      <Table
        title="Mistakes, and what they cost"
        heads={["Reason", "Pieces spoiled", "Cost"]}
        rows={mistakes(days).map(({ reason, pieces, cost }) => [REASONS[reason], String(pieces), sum(cost)])}
      />
      <Table
        title="Tax collected"
        heads={["Fair and quarter", "Sales before tax", "Tax"]}
        rows={taxes(days).map(({ fair, period, sales, tax }) => [`${fair}, ${period}`, sum(sales), sum(tax)])}
      />
    </section>
  );
}

const REASONS: Readonly<Record<PastDay["mistakes"][number]["reason"], string>> = {
  crooked: "Crooked",
  scorched: "Scorched",
  "wrong-size": "Wrong size",
  "peeled-badly": "Peeled badly",
  other: "Another reason",
};

function Figure({ label, figure }: { readonly label: string; readonly figure: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{figure}</dd>
    </div>
  );
}

type TableProps = {
  readonly title: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
};

/** The first column names the row, the others are figures; nothing if there are no rows. */
function Table({ title, heads, rows }: TableProps): ComponentChildren {
  if (rows.length === 0) return null;
  return (
    <section class="wide" tabindex={0} aria-label={title}>
      <table>
        <caption>{title}</caption>
        <thead>
          <tr>
            {heads.map((head, at) => (
              <th key={head} scope="col" class={at === 0 ? undefined : "number"}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([name = "", ...cells]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {cells.map((cell, at) => (
                <td key={heads[at + 1]} class="number">
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
