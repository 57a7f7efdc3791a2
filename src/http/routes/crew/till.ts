/** The till side of an order: payment, hand-over, and every other way it ends. Each act has its undo. */
import { z } from "zod";
import { type Numbered, NumbersGiven, NumbersWanted } from "../../../model/orders/counter.ts";
import { TextCustomer } from "../../../model/orders/crew-sentences.ts";
import { OpenOrders } from "../../../model/orders/open-orders.ts";
import { CrewOrderView, PhoneNumber, PickupNumber } from "../../../model/orders/order.ts";
import { Exchange, HandOver, Payment, Undo } from "../../../model/orders/taps.ts";
import type { OrderCommand } from "../../../stall/rules/commands.ts";
import { paymentFrom } from "../../requests/payment-in.ts";
import { type CrewRoute, crewTable, nothing, reads, writes } from "./table.ts";

const number = { number: z.coerce.number().pipe(PickupNumber) };
const Phone = z.strictObject({ phone: PhoneNumber.nullable() }).meta({ id: "OrderPhone" });

type Taken = { readonly by?: string | undefined };

/** One row: an act on an order. */
const onOrder = <B extends z.ZodType>(
  act: string,
  body: B,
  summary: string,
  command: (number: number, sent: z.output<B>) => OrderCommand,
  deprecated?: true,
) =>
  writes({
    path: `orders/{number}/${act}`,
    at: number,
    body,
    summary,
    reply: [CrewOrderView, "The order now"],
    ...(deprecated === undefined ? {} : { deprecated }),
    call: (stall, { generation, key }, { at, body: sent }) =>
      stall.onOrder(generation, key, command(at.number, sent), (sent as Taken).by), // only a payment says who took it
  });

/** Two rows: an act and its undo. Pages of earlier versions send the undo as `undo: true` to the act's own route. */
const undoable = <B extends z.ZodType<{ readonly undo: boolean }>>(
  act: string,
  body: B,
  summary: string,
  command: (number: number, sent: z.output<B>) => OrderCommand,
  undo: (number: number) => OrderCommand,
): readonly CrewRoute[] => [
  onOrder(act, body, summary, (order, sent) => (sent.undo ? undo(order) : command(order, sent))),
  onOrder(`undo-${act}`, nothing, `Takes "${act}" back`, undo),
];

/** The rows of one way in which an order ends, and of its undo. */
const ending = (
  as: "collected" | "dropped" | "uncollected" | "refunded" | "exchanged",
  body: z.ZodType<{
    readonly undo: boolean;
    readonly word?: string | undefined;
    readonly keeps?: boolean | undefined;
  }>,
  summary: string,
) =>
  undoable(
    as,
    body,
    summary,
    (order, { word, keeps = true }) => ({
      type: "closed",
      number: order,
      as,
      ...(word === undefined ? {} : { word }),
      ...(keeps ? {} : { keeps }),
    }),
    (order) => ({ type: "undo-closed", number: order, was: as }),
  );

const keptUnpaid = (order: number): OrderCommand => ({ type: "kept-unpaid", number: order });

export const tillRoutes = crewTable(
  reads({
    path: "orders/{number}/whole",
    at: number,
    summary: "An order as the crew sees it",
    reply: [CrewOrderView, "Now"],
    call: (stall, generation, { at }) => stall.crewOrder(generation, at.number),
  }),
  reads({
    path: "open-orders",
    summary: "The open orders, to be listed and found at the counter",
    reply: [OpenOrders, "Now"],
    call: (stall, generation) => stall.openOrders(generation),
  }),
  reads({
    path: "orders/{number}/phone",
    at: number,
    summary: "The whole number of an order's customer, for a crew that has to call",
    reply: [Phone, "The number, or null if none is known"],
    call: (stall, generation, { at }) => stall.phone(generation, at.number),
    show: (phone: PhoneNumber | null) => ({ phone }),
  }),
  writes({
    path: "numbers",
    body: NumbersWanted,
    summary: "A block of pickup numbers and words for a counter's device, filled up to 20 unused ones",
    reply: [NumbersGiven, "Those that the device does not have yet"],
    call: (stall, { generation, key }, { body }) => stall.giveNumbers(generation, key, body),
    show: (numbers: readonly Numbered[]) => ({ numbers: [...numbers] }),
  }),
  onOrder("claimed", nothing, "Somebody is here for an order from the web; it joins the line", (order) => ({
    type: "claimed",
    number: order,
  })),
  onOrder("kept-unpaid", nothing, "An order that waits for its payment is kept as long again", keptUnpaid),
  onOrder("kept", nothing, "The same as kept-unpaid, for pages of earlier versions", keptUnpaid, true),
  ...undoable(
    "paid",
    Payment,
    "The customer has paid",
    (order, payment) => ({ type: "paid", number: order, ...paymentFrom(payment) }),
    (order) => ({ type: "undo-paid", number: order }),
  ),
  ...ending("collected", HandOver, "Handed over; the pickup word is checked if it is sent"),
  ...ending("dropped", Undo, "Given up; garments already pressed are counted as decorated and unsold"),
  ...ending("uncollected", Undo, "Not collected"),
  ...ending("refunded", Exchange, "Money given back"),
  ...ending("exchanged", Exchange, "Exchanged for something else"),
  writes({
    path: "orders/{number}/texted",
    at: number,
    body: TextCustomer,
    summary: "A fixed sentence is texted to an order's customer, if that number has texted",
    reply: [CrewOrderView, "The order now"],
    call: (stall, { generation, key }, { at, body }) =>
      stall.textCustomer(generation, key, at.number, body.say),
  }),
  onOrder("left-out", nothing, "What is short is left out; the rest of the order goes on", (order) => ({
    type: "left-out",
    number: order,
  })),
  ...undoable(
    "given-back",
    Undo,
    "The money paid for what was left out is handed back",
    (order) => ({ type: "given-back", number: order }),
    (order) => ({ type: "undo-given-back", number: order }),
  ),
);
