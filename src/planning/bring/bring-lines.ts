import { mean } from "../../maths/sample.ts";
import type { PlanBring } from "../../model/planning/plan-answer.ts";
import type { Scenarios } from "../demand/asks.ts";
import { type Alone, expectedProfit } from "../demand/stated.ts";
import type { Prepared } from "../request/prepared.ts";
import { priceOfAll } from "../request/price.ts";
import type { Tried } from "./ahead.ts";
import { aloneOutlay } from "./costs.ts";
import { askedPerGoods } from "./measure.ts";
import { BEND } from "./search/local-search.ts";
import { stepDown, stepUp } from "./search/pieces.ts";
import { outlay, vanLoad } from "./search/score.ts";
import type { Goods } from "./search/shop.ts";
import { sheetChanges } from "./sheet-copies.ts";
import { shoppingList } from "./shopping.ts";

/** Presses count as binding if waiting loses at least this many garments for each one sold. */
const PRESSES_BIND = 0.01;

type Line = Omit<PlanBring["transfers"][number], "design">;
type PlannedAlone = { readonly quantity: number; readonly alone: Alone };

/** The answer's lines of what to bring, with the figures of each kind of goods. */
export function bringLines(alone: readonly Alone[], tried: Tried, scenarios: Scenarios): PlanBring {
  const { prepared } = tried;
  const { shop, best, aloneQuantities } = tried.brought;
  const { pressed } = tried.strategy;
  const asked = askedPerGoods(shop, scenarios);
  const changes = pressed ? sheetChanges(tried) : new Map<string, never>();
  const apart = plannedAlone(prepared, alone, aloneQuantities);
  const { stocks, skuCount } = prepared;
  const lineOf = (index: number): readonly Line[] => {
    const stock = stocks[index];
    const own = apart.get(index);
    if (stock === undefined) return [];
    if (own !== undefined) return [lineAlone(stock, own)];
    return pressed ? [lineOfGoods(stock, index, tried, asked[index])] : [];
  };
  const skus = stocks.slice(0, skuCount).flatMap(({ id }, index) => {
    const [blank = "", colour = "", size = ""] = id.split(".");
    return lineOf(index).map((line) => ({ sku: id, blank, colour, size, ...line }));
  });
  const transfers = stocks
    .slice(skuCount)
    .flatMap(({ id }, at) =>
      lineOf(skuCount + at).map((line) => ({ design: id, ...line, ...changes.get(id) })),
    );
  const readyFrom = pressed ? stocks.length : 0;
  const ready = shop.goods.slice(readyFrom).flatMap((one, at) => {
    const [offer = "", colour = "", size = ""] = one.id.split(".");
    const line = lineOfGoods(one, readyFrom + at, tried, asked[readyFrom + at]);
    return line.bring > 0 ? [{ offer, colour, size, ...line }] : [];
  });
  const spent = outlay(shop.goods, best.stock) + aloneOutlay(alone, aloneQuantities);
  const pieces = [...skus, ...ready].reduce((sum, { bring }) => sum + bring, 0);
  return {
    manner: tried.manner,
    skus,
    transfers,
    ready,
    shopping: shoppingList(prepared, { skus, transfers, ready }),
    outlay: Math.round(spent),
    budgetLeft: Number.isFinite(prepared.budget) ? Math.round(prepared.budget - spent) : null,
    pieces,
    cartons: cartonsOf(prepared, { skus, ready }),
    binding: bindingLimits(prepared, tried),
  };
}

/** By index into the stocks: the separately planned offer that uses it. */
function plannedAlone(
  prepared: Prepared,
  alone: readonly Alone[],
  quantities: readonly number[],
): ReadonlyMap<number, PlannedAlone> {
  const found = new Map<number, PlannedAlone>();
  alone.forEach((one, at) => {
    const product = prepared.products.find(({ offer }) => offer === one.offer);
    for (const stock of [product?.sku, product?.transfer]) {
      if (stock !== undefined) found.set(stock, { quantity: quantities[at] ?? 0, alone: one });
    }
  });
  return found;
}

function lineOfGoods(
  one: Goods,
  index: number,
  { brought: { best }, measured }: Tried,
  [p5 = 0, p50 = 0, p95 = 0]: readonly number[] = [],
): Line {
  const bring = best.stock[index] ?? 0;
  const bought = Math.max(0, bring - one.owned);
  const staked = (pieces: number) => {
    const count = Math.max(0, pieces - one.owned);
    return priceOfAll(one, count) - count * one.worth;
  };
  const bend = BEND * Math.max(0, -(best.slopes.fewer[index] ?? 0) - (best.slopes.more[index] ?? 0));
  const changes = (slope: number, to: number) => {
    const count = Math.abs(to - bring);
    return Math.round(count * slope - (bend * count * (count - 1)) / 2 - staked(to) + staked(bring));
  };
  const oddsSoldOut = measured.oddsSoldOut[index] ?? 0;
  return {
    bring,
    buy: bought,
    owned: one.owned,
    cost: Math.round(priceOfAll(one, bought)),
    asked: { p5, p50, p95 },
    oddsSoldOut,
    oddsComesHome: 1 - oddsSoldOut,
    comesHome: measured.left[index] ?? 0,
    oneMore: changes(best.slopes.more[index] ?? 0, stepUp(one, bring)),
    // The search tried every piece or pack that seemed better left out, and it was not: an estimate above 0 is too high.
    oneFewer: Math.min(0, changes(best.slopes.fewer[index] ?? 0, stepDown(one, bring))),
  };
}

function lineAlone(one: Goods, { quantity, alone }: PlannedAlone): Line {
  const { demand } = alone;
  const fewerAsked = demand.atMost(quantity - 1e-6);
  const earns = (pieces: number) => expectedProfit(alone, pieces);
  return {
    bring: quantity,
    buy: quantity,
    owned: 0,
    cost: Math.round(quantity * one.cost),
    asked: { p5: demand.quantile(0.05), p50: demand.quantile(0.5), p95: demand.quantile(0.95) },
    oddsSoldOut: 1 - fewerAsked,
    oddsComesHome: fewerAsked,
    comesHome: quantity - demand.mean + demand.unmet(quantity),
    oneMore: Math.round(earns(quantity + 1) - earns(quantity)),
    oneFewer: quantity === 0 ? 0 : Math.round(earns(quantity - 1) - earns(quantity)),
  };
}

function cartonsOf(prepared: Prepared, { skus, ready }: Pick<PlanBring, "skus" | "ready">): number {
  const perCarton = (blank: number) => prepared.blanks[blank]?.perCarton ?? 1;
  const plain = skus.map(
    ({ blank, bring }) => bring / perCarton(prepared.blanks.findIndex(({ id }) => id === blank)),
  );
  const decorated = ready.map(
    ({ offer, bring }) => bring / perCarton(prepared.offers.find(({ id }) => id === offer)?.blank ?? -1),
  );
  return [...plain, ...decorated].reduce((sum, cartons) => sum + cartons, 0);
}

function bindingLimits(prepared: Prepared, { brought, measured }: Tried): PlanBring["binding"] {
  const { shop, best } = brought;
  const binding: PlanBring["binding"] = [];
  if (best.dearer > 0 || brought.aloneDearer > 0) binding.push("budget");
  const load = vanLoad(shop.goods, best.stock);
  const leftBehind = shop.goods.some(
    (one, index) =>
      one.vanShare > 0 &&
      load + one.vanShare * one.pack > prepared.vanLimit &&
      (best.slopes.more[index] ?? 0) > one.cost - one.worth,
  );
  if (leftBehind) binding.push("van");
  if (measured.waitAsks > PRESSES_BIND * mean(measured.sold)) binding.push("presses");
  return binding;
}
