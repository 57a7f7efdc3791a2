/** The open orders as the counter lists them. */
import { z } from "zod";
import { CrewOrderView } from "./order.ts";

/** All of an order but its place in line and its wait, which are worked out for the one on the counter only. */
export const OpenOrder = CrewOrderView.omit({ place: true, quoteMinutes: true }).meta({ id: "OpenOrder" });
export type OpenOrder = z.infer<typeof OpenOrder>;

/** Nobody reads a longer list; further orders are found by number. */
export const MOST_OPEN_SHOWN = 300;

export const OpenOrders = z
  .strictObject({
    version: z.int().min(0),
    orders: z.array(OpenOrder).describe(`The latest ${MOST_OPEN_SHOWN}, oldest first`),
    more: z.int().min(0).describe("How many older ones are left out"),
  })
  .meta({
    id: "OpenOrders",
    description: "Every open order, to find one by its word, its name or its garment",
  });
export type OpenOrders = z.infer<typeof OpenOrders>;
