/** A whole plan as one RFC 4180 table: a figure a row, so that any spreadsheet can filter and turn it. */
import { csvOf } from "../model/basics/csv.ts";
import type { Plan } from "../model/planning/plan-answer.ts";
import { minorDigits } from "./request/given.ts";

type Unit = string;
/** `of` is what the figure is about: a sku, a design, an hour; empty for the day itself. */
type Row = {
  readonly part: string;
  readonly of: string;
  readonly figure: string;
  readonly value: string | number | null;
  readonly unit: Unit;
};
type Spread = { readonly p5: number; readonly p50: number; readonly p95: number };

/** Every figure of the plan; sums in whole units of its currency, chances and shares between 0 and 1. */
export function planTable(plan: Plan): string {
  const money = (minor: number | null) =>
    minor === null ? null : Math.round(minor) / 10 ** minorDigits(plan.currency);
  const rows = [
    ...dayRows(plan, money),
    ...demandRows(plan),
    ...stockRows(plan, money),
    ...moneyRows(plan, money),
  ];
  return csvOf<Row>(
    [
      ["part", ({ part }) => part],
      ["of", ({ of }) => of],
      ["figure", ({ figure }) => figure],
      ["value", ({ value }) => value],
      ["unit", ({ unit }) => unit],
    ],
    rows,
  );
}

type Money = (minor: number | null) => number | null;

const row = (part: string, of: string, figure: string, value: Row["value"], unit: Unit): Row => ({
  part,
  of,
  figure,
  value: typeof value === "number" && !/^[A-Z]{3}$/.test(unit) ? rounded(value) : value,
  unit,
});

/** Whole from a hundred on, else with three digits behind the point: no estimate is surer than that. */
const rounded = (value: number): number =>
  Math.abs(value) >= 100 ? Math.round(value) : Math.round(value * 1000) / 1000;

const spread = (part: string, of: string, figure: string, { p5, p50, p95 }: Spread, unit: Unit): Row[] => [
  row(part, of, `${figure}, 5 %`, p5, unit),
  row(part, of, `${figure}, 50 %`, p50, unit),
  row(part, of, `${figure}, 95 %`, p95, unit),
];

function dayRows(plan: Plan, money: Money): Row[] {
  const { currency } = plan;
  const day = (figure: string, value: Row["value"], unit: Unit) => row("day", "", figure, value, unit);
  const { profit, breakEven, pitchFee } = plan.money;
  return [
    day("name", plan.name, ""),
    day("seed", plan.seed, ""),
    day("days imagined", plan.scenarios, "days"),
    day("best way", plan.best, ""),
    day("advice", plan.advice, ""),
    day("expected profit", money(plan.money.expectedProfit), currency),
    ...(["p5", "p25", "p50", "p75", "p95"] as const).map((at) =>
      day(`profit, ${at.slice(1)} %`, money(profit[at]), currency),
    ),
    day("odds of a loss", plan.money.oddsOfLoss, "chance"),
    day("target", money(plan.money.target), currency),
    day("odds of the target", plan.money.oddsOfTarget, "chance"),
    day("breaks even at", breakEven.garments, "garments"),
    day("crowd that takes", breakEven.passersBy, "passers-by"),
    day("highest pitch fee", money(pitchFee.highest), currency),
    day("pitch fee with a loss one day in ten", money(pitchFee.cautious), currency),
    ...plan.cautions.map((caution) => day("caution", caution, "")),
  ];
}

function demandRows({ demand }: Plan): Row[] {
  return [
    ...spread("demand", "", "passers-by", demand.passersBy, "people"),
    ...spread("demand", "", "orders", demand.orders, "orders"),
    ...spread("demand", "", "garments asked for", demand.garments, "garments"),
    ...demand.hours.flatMap(({ from, garments, pressed, capacity }) => [
      ...spread("hour", from, "garments asked for", garments, "garments"),
      row("hour", from, "met", pressed, "garments"),
      row("hour", from, "presses can make", capacity, "garments"),
    ]),
    ...demand.offers.flatMap(({ offer, garments }) =>
      spread("demand of offer", offer, "garments asked for", garments, "garments"),
    ),
    ...demand.colours.map(({ blank, colour, share }) =>
      row("demand of colour", `${blank}.${colour}`, "asked for", share, "share"),
    ),
    ...demand.sizes.map(({ blank, size, share }) =>
      row("demand of size", `${blank}.${size}`, "asked for", share, "share"),
    ),
  ];
}

type Line =
  | Plan["bring"]["skus"][number]
  | Plan["bring"]["transfers"][number]
  | Plan["bring"]["ready"][number];

function stockRows({ bring, stated, cartons, currency }: Plan, money: Money): Row[] {
  const ofLine = (part: string, of: string, line: Line): Row[] => [
    row(part, of, "bring", line.bring, "pieces"),
    row(part, of, "buy", line.buy, "pieces"),
    row(part, of, "owned", line.owned, "pieces"),
    row(part, of, "cost", money(line.cost), currency),
    ...spread(part, of, "asked for", line.asked, "garments"),
    row(part, of, "odds of selling out", line.oddsSoldOut, "chance"),
    row(part, of, "odds of coming home", line.oddsComesHome, "chance"),
    row(part, of, "comes home", line.comesHome, "pieces"),
    row(part, of, "one more is worth", money(line.oneMore), currency),
    row(part, of, "one fewer changes", money(line.oneFewer), currency),
  ];
  return [
    row("stock", "", "to pay", money(bring.outlay), currency),
    row("stock", "", "budget left", money(bring.budgetLeft), currency),
    row("stock", "", "in the van", bring.pieces, "pieces"),
    row("stock", "", "in the van", bring.cartons, "cartons"),
    ...bring.binding.map((limit) => row("stock", "", "held back by", limit, "")),
    ...bring.skus.flatMap((line) => ofLine("sku", line.sku, line)),
    ...bring.transfers.flatMap((line) => ofLine("transfer", line.design, line)),
    ...bring.ready.flatMap((line) =>
      ofLine("printed ahead", `${line.offer}.${line.colour}.${line.size}`, line),
    ),
    ...bring.shopping.map(({ item, buy }) => row("to buy", item, "buy", buy, "pieces")),
    ...stated.flatMap((one) => [
      row("stated demand", one.offer, "best quantity", one.quantity, "garments"),
      row("stated demand", one.offer, "before rounding", one.exactQuantity, "garments"),
      row("stated demand", one.offer, "critical ratio", one.criticalRatio, "share"),
      row("stated demand", one.offer, "expected sold", one.expectedSold, "garments"),
      row("stated demand", one.offer, "expected unmet", one.expectedUnmet, "garments"),
      row("stated demand", one.offer, "expected left over", one.expectedLeftOver, "garments"),
      row("stated demand", one.offer, "odds that it is enough", one.oddsEnough, "chance"),
      row(
        "stated demand",
        one.offer,
        "expected profit before fixed costs",
        money(one.expectedProfit),
        currency,
      ),
    ]),
    ...cartons.flatMap(({ carton, lines }) =>
      lines.map(({ what, pieces }) => row("carton", carton, what, pieces, "pieces")),
    ),
  ];
}

function moneyRows(plan: Plan, money: Money): Row[] {
  const { currency } = plan;
  return [
    ...plan.manners.flatMap((one) => {
      const way = (figure: string, value: Row["value"], unit: Unit) =>
        row("way", one.manner, figure, value, unit);
      return [
        way("expected profit", money(one.profit), currency),
        way("profit, 5 %", money(one.profitSpread.p5), currency),
        way("profit, 50 %", money(one.profitSpread.p50), currency),
        way("profit, 95 %", money(one.profitSpread.p95), currency),
        way("odds of a loss", one.oddsOfLoss, "chance"),
        way("to pay for stock", money(one.outlay), currency),
        way("sold", one.garmentsSold, "garments"),
        way("wasted", one.wastePieces, "pieces"),
        way("wasted", money(one.wasteMoney), currency),
        way("asked for and out", one.soldOutAsks, "garments"),
        way("lost to too long a wait", one.waitAsks, "garments"),
        way("wait, middle", one.waitMinutes.median, "minutes"),
        way("wait, one in ten longer", one.waitMinutes.p90, "minutes"),
      ];
    }),
    row("takings", "", "in a mean day, with tax", money(plan.money.takings), currency),
    ...plan.money.costs.map(({ name, amount }) =>
      row("cost", name, "in a mean day", money(amount), currency),
    ),
    ...plan.money.swings.flatMap(({ what, low, high }) => [
      row("swing", what, `low: ${low.value}`, money(low.profit), currency),
      row("swing", what, `high: ${high.value}`, money(high.profit), currency),
    ]),
    ...plan.money.prices.flatMap(({ factor, profit, sold }) => [
      row("prices times", String(factor), "expected profit", money(profit), currency),
      row("prices times", String(factor), "sold", sold, "garments"),
    ]),
    ...plan.money.histogram.map(({ from, to, chance }) =>
      row("profit between", `${money(from)} and ${money(to)}`, "chance", chance, "chance"),
    ),
    ...plan.smallerMenu.dropOne.map(({ drop, id, change, advised }) =>
      row(
        "leave off",
        `${drop} ${id}`,
        advised ? "changes profit by, advised" : "changes profit by",
        money(change),
        currency,
      ),
    ),
    ...plan.questions.map(({ ask, question, why }) => row("question", ask, question, why, "")),
  ];
}
