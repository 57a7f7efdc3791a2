/** What an order costs after a change of its garments or of its discount. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { Discount } from "../../../state/shapes/line.ts";
import type { Order } from "../../../state/shapes/order.ts";
import { type OrderPrice, priced } from "../../../stock/pricing.ts";

type Repriced = Omit<OrderPrice<Order["lines"][number]>, "taxInPrice">;

/**
 * Today's rules, but whether the tax is part of the prices stays as the order was made, so that they do not change their
 * meaning when the rule does.
 */
export const rulesOf = ({ rules }: Menu, { taxInPrice }: Order): Menu["rules"] => ({
  ...rules,
  taxInPrice: taxInPrice === true,
});

/** An order's price by today's bundles and its rules. */
export function repriced(
  menu: Menu,
  order: Order,
  discount: Pick<Discount, "by" | "reason"> | undefined,
): Repriced {
  const by = discount && { by: discount.by, reason: discount.reason };
  const { taxInPrice: _, ...price } = priced({ ...menu, rules: rulesOf(menu, order) }, order.lines, by);
  return price;
}
