/** @jsxImportSource preact */
/** Press on site, print ahead, or some of each: the same days, side by side; and what the result hangs on. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { honestly, profitError } from "../../../../planning/words/summary.ts";
import { about, Bar, odds, roughly, Table, whole } from "../figures.tsx";

const WAYS = {
  "press-on-site": "Press on site",
  "print-ahead": "Print ahead",
  mixed: "Some of each",
} as const;

type Manner = Plan["manners"][number];

export function Ways({ plan }: { readonly plan: Plan }) {
  const { manners, best, currency } = plan;
  const sum = (minor: number) => about(minor, currency);
  const honest = (minor: number) => honestly(minor, profitError(plan), currency);
  const rows: readonly (readonly [string, (manner: Manner) => string])[] = [
    ["Expected profit", ({ profit }) => honest(profit)],
    ["Bad day (1 in 20 is worse)", ({ profitSpread }) => honest(profitSpread.p5)],
    ["Good day (1 in 20 is better)", ({ profitSpread }) => honest(profitSpread.p95)],
    ["Odds of a loss", ({ oddsOfLoss }) => odds(oddsOfLoss)],
    ["Stock to pay for", ({ outlay }) => sum(outlay)],
    ["Garments sold", ({ garmentsSold }) => roughly(garmentsSold)],
    ["Pieces wasted", ({ wastePieces }) => whole(wastePieces)],
    ["Money wasted", ({ wasteMoney }) => sum(wasteMoney)],
    ["Lost: sold out", ({ soldOutAsks }) => whole(soldOutAsks)],
    ["Lost: wait too long", ({ waitAsks }) => whole(waitAsks)],
    ["Wait, middle", ({ waitMinutes }) => `${whole(waitMinutes.median)} min`],
    ["Wait, one in ten longer", ({ waitMinutes }) => `${whole(waitMinutes.p90)} min`],
  ];
  return (
    <Table
      caption="Press there or print ahead?"
      columns={[
        "On an average day",
        ...manners.map(({ manner }) => (manner === best ? `${WAYS[manner]} (best)` : WAYS[manner])),
      ]}
      rows={rows.map(([name, told]) => [name, ...manners.map(told)])}
    />
  );
}

/** One thing at a time from its low to its high: how far the expected profit moves. */
export function Swings({ plan }: { readonly plan: Plan }) {
  const { money, currency } = plan;
  const sum = (minor: number) => honestly(minor, profitError(plan), currency);
  const ends = money.swings.flatMap(({ low, high }) => [low.profit, high.profit]);
  const least = Math.min(0, ...ends);
  const span = Math.max(0, ...ends) - least || 1;
  return (
    <Table
      caption="What matters most"
      columns={[
        "If only this changes",
        { words: "Low" },
        { words: "Expected profit between" },
        { words: "High" },
      ]}
      rows={money.swings.map(({ what, low, high }) => {
        const from = Math.min(low.profit, high.profit);
        const size = Math.abs(high.profit - low.profit);
        return [
          what,
          `${low.value}: ${sum(low.profit)}`,
          <Bar key={what} share={size / span} from={(from - least) / span} />,
          `${high.value}: ${sum(high.profit)}`,
        ];
      })}
    />
  );
}
