import { inMoney } from "../words/amounts.ts";
import type { FaultPath, Faults } from "./faults.ts";
import type { Prepared, Stock } from "./prepared.ts";
import { priceOfAll } from "./price.ts";

/** Faults of limits that contradict each other: an impossible limit is a fault, never quietly relaxed. */
export function checkLimits(prepared: Prepared, faults: Faults): void {
  const { stocks, budget, vanLimit, currency } = prepared;
  let cost = 0;
  let van = 0;
  for (const stock of stocks) {
    const least = leastOf(stock);
    cost += priceOfAll(stock, Math.max(0, least - stock.owned));
    van += least * stock.vanShare;
    if (stock.minimum > stock.maximum) {
      faults.add(
        pathOf(prepared, stock, "minimum"),
        `${stock.id}: at least ${stock.minimum} and at most ${stock.maximum} cannot both hold`,
        "lower the minimum or raise the maximum",
      );
    } else if (least > stock.maximum) {
      faults.add(
        pathOf(prepared, stock, "minimum"),
        `${stock.id}: in packs of ${stock.pack} the least that meets ${stock.minimum} is ${least}, above the maximum of ${stock.maximum}`,
        "change the minimum, the maximum or the case pack",
      );
    }
    if (stock.worth > stock.cost) {
      faults.add(
        pathOf(prepared, stock, "cost"),
        `${stock.id}: one left over is worth more than one costs`,
        "give a leftover worth of at most 1",
      );
    }
  }
  if (cost > budget) {
    faults.add(
      ["limits", "budget"],
      `the minimums alone cost ${inMoney(cost, currency)}, above the budget of ${inMoney(budget, currency)}`,
      "raise the budget or lower the minimums",
    );
  }
  if (van > vanLimit + 1e-9) {
    faults.add(
      ["limits", "van"],
      `the minimums alone take ${Math.ceil(van - 1e-9)}, above the van's ${vanLimit}`,
      "raise the van's limit or lower the minimums",
    );
  }
}

/** The fewest pieces that meet the minimum: the owned ones, and whole packs. */
function leastOf(stock: Pick<Stock, "minimum" | "owned" | "pack">): number {
  const missing = stock.minimum - stock.owned;
  return missing <= 0 ? stock.minimum : stock.owned + Math.ceil(missing / stock.pack) * stock.pack;
}

function pathOf(prepared: Prepared, stock: Stock, field: string): FaultPath {
  const { request } = prepared;
  if (stock.kind === "transfer")
    return ["designs", request.designs.findIndex(({ id }) => id === stock.id), field];
  const row = request.skus.findIndex(({ sku }) => sku === stock.id);
  if (row >= 0) return ["skus", row, field];
  return ["blanks", request.blanks.findIndex(({ id }) => id === stock.id.split(".")[0]), field];
}
