import type { Stock } from "./prepared.ts";

/** The parts of a stock that its price depends on. */
export type Priced = Pick<Stock, "cost" | "breaks">;

/** The price of each piece if so many are bought: all pieces cost what the quantity reaches, in minor units. */
export function costEach({ cost, breaks }: Priced, bought: number): number {
  let each = cost;
  for (const step of breaks) if (bought >= step.from) each = step.cost;
  return each;
}

/** The price of so many pieces together, in minor units. */
export const priceOfAll = (stock: Priced, bought: number): number => bought * costEach(stock, bought);
