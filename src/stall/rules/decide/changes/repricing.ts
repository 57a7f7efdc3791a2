/** What an order costs after a change of its garments or of its discount. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { Discount } from "../../../state/shapes/line.ts";
import type { Order } from "../../../state/shapes/order.ts";
import { type OrderPrice, priced } from "../../../stock/pricing.ts";

type Repriced = Omit<OrderPrice<Order["lines"][number]>, "taxInPrice">;

/**
 * An order's price by today's bundles. Whether the tax is part of its prices stays as the order was made, so that they do
 * not change their meaning when the rule does.
 */
export function repriced(
  menu: Menu,
  { lines, taxInPrice: included }: Order,
  discount: Pick<Discount, "by" | "reason"> | undefined,
): Repriced {
  const rules = { ...menu.rules, taxInPrice: included === true };
  const by = discount && { by: discount.by, reason: discount.reason };
  const { taxInPrice: _, ...price } = priced({ ...menu, rules }, lines, by);
  return price;
}
