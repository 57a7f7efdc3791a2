import type { PlanBring } from "../model/plan-answer.ts";
import type { Tried } from "./ahead.ts";
import { aloneOutlay } from "./costs.ts";
import type { Prepared } from "./prepared.ts";
import { outlay, vanLoad } from "./score.ts";
import type { Goods } from "./shop.ts";
import type { Alone } from "./stated.ts";

/** A limit is told to bind when a little more of it would earn at least this share of the expected gain. */
const PRESSES_BIND = 0.01;

/** The answer's lines of what to bring, with what is known of each kind of goods. */
export function bringLines(prepared: Prepared, alone: readonly Alone[], tried: Tried): PlanBring {
  const { shop, best, aloneQuantities } = tried.brought;
  const { measured } = tried;
  const pressed = tried.manner !== "print-ahead";
  const quantityAlone = new Map<number, { quantity: number; one: Alone }>();
  alone.forEach((one, at) => {
    const product = prepared.products.find(({ offer }) => offer === one.offer);
    for (const stock of [product?.sku ?? -1, product?.transfer ?? -1])
      quantityAlone.set(stock, { quantity: aloneQuantities[at] ?? 0, one });
  });

  const line = (one: Goods, index: number) => {
    const bring = best.stock[index] ?? 0;
    const bought = Math.max(0, bring - one.owned);
    const [p5 = 0, p50 = 0, p95 = 0] = measured.asked[index] ?? [];
    const paid = (from: number, to: number) =>
      (Math.max(0, to - one.owned) - Math.max(0, from - one.owned)) * (one.cost - one.worth);
    const odds = measured.oddsSoldOut[index] ?? 0;
    return {
      bring,
      buy: bought,
      owned: one.owned,
      cost: Math.round(bought * one.cost),
      asked: { p5, p50, p95 },
      oddsSoldOut: odds,
      oddsComesHome: 1 - odds,
      comesHome: measured.left[index] ?? 0,
      oneMore: Math.round((best.slopes.more[index] ?? 0) - paid(bring, bring + 1)),
      oneFewer: bring === 0 ? 0 : Math.round((best.slopes.fewer[index] ?? 0) + paid(bring - 1, bring)),
    };
  };
  const lineAlone = (
    one: Goods,
    { quantity, one: { demand } }: { quantity: number; one: Alone },
  ): ReturnType<typeof line> => ({
    bring: quantity,
    buy: quantity,
    owned: 0,
    cost: Math.round(quantity * one.cost),
    asked: { p5: demand.quantile(0.05), p50: demand.quantile(0.5), p95: demand.quantile(0.95) },
    oddsSoldOut: 1 - demand.atMost(quantity - 1e-6),
    oddsComesHome: demand.atMost(quantity - 1e-6),
    comesHome: quantity - demand.mean + demand.unmet(quantity),
    oneMore: 0,
    oneFewer: 0,
  });
  const lineOf = (one: Goods, index: number) => {
    const own = quantityAlone.get(index);
    return own === undefined ? line(one, index) : lineAlone(one, own);
  };

  const stocks = pressed ? prepared.stocks : [];
  const readyFrom = stocks.length;
  const skus = stocks.slice(0, prepared.skuCount).map((stock, index) => {
    const [blank = "", colour = "", size = ""] = stock.id.split(".");
    return { sku: stock.id, blank, colour, size, ...lineOf(stock, index) };
  });
  const transfers = stocks
    .slice(prepared.skuCount)
    .map((stock, at) => ({ design: stock.id, ...lineOf(stock, prepared.skuCount + at) }));
  const ready = shop.goods.slice(readyFrom).flatMap((one, at) => {
    const [offer = "", colour = "", size = ""] = one.id.split(".");
    const own = line(one, readyFrom + at);
    return own.bring > 0 ? [{ offer, colour, size, ...own }] : [];
  });
  const spent = outlay(shop.goods, best.stock) + aloneOutlay(alone, aloneQuantities);
  const van = vanLoad(shop.goods, best.stock);
  const perCarton = (sku: string) =>
    prepared.blanks.find(({ id }) => sku.startsWith(`${id}.`))?.perCarton ?? 1;
  const binding: PlanBring["binding"] = [];
  if (best.dearer > 0 || tried.brought.aloneDearer > 0) binding.push("budget");
  if (
    shop.goods.some(
      (one, index) =>
        one.vanShare > 0 &&
        van + one.vanShare * one.pack > prepared.vanLimit &&
        (best.slopes.more[index] ?? 0) > one.cost - one.worth,
    )
  )
    binding.push("van");
  if (
    measured.waitAsks >
    PRESSES_BIND * (measured.sold.reduce((sum, value) => sum + value, 0) / measured.sold.length)
  )
    binding.push("presses");
  return {
    manner: tried.manner,
    skus,
    transfers,
    ready,
    outlay: Math.round(spent),
    budgetLeft: Number.isFinite(prepared.budget) ? Math.round(prepared.budget - spent) : null,
    pieces: [...skus, ...ready].reduce((sum, { bring }) => sum + bring, 0),
    cartons: [
      ...skus.map(({ sku, bring }) => bring / perCarton(sku)),
      ...ready.map(({ offer, bring }) => {
        const blank = prepared.blanks[prepared.offers.find(({ id }) => id === offer)?.blank ?? -1];
        return bring / (blank?.perCarton ?? 1);
      }),
    ].reduce((sum, cartons) => sum + cartons, 0),
    binding,
  };
}
