/** What each garment of an order brought, for a refund or an exchange of one of them. */
import { sharedOut } from "../../model/basics/shared-out.ts";
import { lineOf } from "../state/orders.ts";
import type { Job } from "../state/shapes/job.ts";
import type { Order } from "../state/shapes/order.ts";
import { lineNet } from "./bill.ts";

/** What was paid for one garment of an order, in minor units. */
export type GarmentShare = { readonly amount: number; readonly tax: number };

/** The price of one garment of an order after bundles and discounts, in minor units; like garments cost alike. */
export function garmentPrice(order: Order, job: Job): number {
  const alike = order.jobs.filter(({ line }) => line === job.line);
  const each = sharedOut(
    lineNet(lineOf(order, job)),
    alike.map(() => 1),
  );
  return each[alike.findIndex(({ n }) => n === job.n)] ?? 0;
}

/**
 * A garment's share of its order's total and tax, in proportion to its price after bundles and discounts; like garments
 * have equal shares. The shares add up exactly.
 */
export function garmentShares(order: Order): ReadonlyMap<number, GarmentShare> {
  const prices = order.jobs.map((job) => garmentPrice(order, job));
  const amounts = sharedOut(order.total, prices);
  const taxes = sharedOut(order.tax, prices);
  return new Map(
    order.jobs.map(({ n }, at) => [
      n,
      { amount: amounts[at] ?? 0, tax: Math.min(taxes[at] ?? 0, amounts[at] ?? 0) },
    ]),
  );
}
