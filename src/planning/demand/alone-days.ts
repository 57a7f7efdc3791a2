import { mean } from "../../maths/sample.ts";
import type { Prepared } from "../request/prepared.ts";
import { evenly } from "./demand.ts";
import type { Alone } from "./stated.ts";

/** The profit of the separately planned offers on each scenario's day, after their own stock's cost. */
export function aloneProfits(
  prepared: Prepared,
  alone: readonly Alone[],
  quantities: readonly number[],
  count: number,
): { readonly profits: Float64Array; readonly meanSold: number } {
  const profits = new Float64Array(count);
  let meanSold = 0;
  alone.forEach(({ offer, price, cost, worth }, at) => {
    const quantity = quantities[at] ?? 0;
    const asked = evenly(prepared, offer, count);
    meanSold += mean(asked.map((garments) => Math.min(garments, quantity)));
    for (let day = 0; day < count; day++) {
      const sold = Math.min(asked[day] ?? 0, quantity);
      profits[day] = (profits[day] ?? 0) + price * sold + worth * (quantity - sold) - cost * quantity;
    }
  });
  return { profits, meanSold };
}
