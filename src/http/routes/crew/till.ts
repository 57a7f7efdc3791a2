/** The till side of an order: payment, hand-over, and every other way it ends. Each can be undone. */

import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import { OpenOrders } from "../../../model/orders/open-orders.ts";
import { CrewOrderView, PhoneNumber, PickupNumber } from "../../../model/orders/order.ts";
import { Exchange, HandOver, Payment, Undo } from "../../../model/orders/taps.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import type { Guarded } from "../../doors/guard.ts";
import type { App } from "../../requests/env.ts";
import { paymentFrom } from "../../requests/payment-in.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const onOrder = z.strictObject({ ...stallPath.shape, number: z.coerce.number().pipe(PickupNumber) });

const orderRoute = <const A extends string, S extends z.ZodType>(action: A, schema: S, summary: string) =>
  createRoute({
    method: "post",
    path: `${stallBase}/orders/{number}/${action}` as const,
    summary,
    ...crewRoute,
    request: { headers: idempotency, params: onOrder, body: body(schema) },
    responses: { 200: json(CrewOrderView, "The order now"), ...problems },
  });

const Phone = z.strictObject({ phone: PhoneNumber.nullable() }).meta({ id: "OrderPhone" });

const phone = createRoute({
  method: "get",
  path: `${stallBase}/orders/{number}/phone`,
  summary: "The whole number of an order's customer, for a crew that has to call",
  ...crewRoute,
  request: { params: onOrder },
  responses: { 200: json(Phone, "The number, or null where none is known"), ...problems },
});

const crewOrder = createRoute({
  method: "get",
  path: `${stallBase}/orders/{number}/whole`,
  summary: "An order as the crew sees it",
  ...crewRoute,
  request: { params: onOrder },
  responses: { 200: json(CrewOrderView, "Now"), ...problems },
});

const open = createRoute({
  method: "get",
  path: `${stallBase}/open-orders`,
  summary: "The open orders, to be listed and found at the counter",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(OpenOrders, "Now"), ...problems },
});

type Ending = "collected" | "dropped" | "uncollected" | "refunded" | "exchanged";

/** Ends an order one way or takes that ending back. */
function end(
  c: Context<App>,
  path: z.infer<typeof stallPath>,
  number: number,
  as: Ending,
  undo: boolean,
  word?: string,
): Promise<Guarded<CrewOrderView>> {
  const said = word === undefined ? {} : { word };
  return crewWrite(c, path, (stall, generation, key) =>
    stall.onOrder(
      generation,
      key,
      undo ? { type: "reopen", number, was: as } : { type: "close", number, as, ...said },
    ),
  );
}

export const tillRoutes = newRouter()
  .openapi(crewOrder, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const answer = await crewRead(c, path, (stall, generation) => stall.crewOrder(generation, number));
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(open, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.openOrders(generation),
    );
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(phone, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const answer = await crewRead(c, path, (stall, generation) => stall.phone(generation, number));
    return answer.ok ? c.json({ phone: answer.value }, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(
    orderRoute(
      "claimed",
      z.strictObject({}),
      "Somebody is here for an order from the web; it joins the line",
    ),
    async (c) => {
      const { number, ...path } = c.req.valid("param");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onOrder(generation, key, { type: "claim", number }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    orderRoute("kept", z.strictObject({}), "An order that waits for its payment is kept as long again"),
    async (c) => {
      const { number, ...path } = c.req.valid("param");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onOrder(generation, key, { type: "keep-unpaid", number }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(orderRoute("paid", Payment, "The customer has paid"), async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { by, undo, ...payment } = c.req.valid("json");
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onOrder(
        generation,
        key,
        undo ? { type: "unpay", number } : { type: "pay", number, ...paymentFrom(payment) },
        by,
      ),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(
    orderRoute("collected", HandOver, "Handed over; the pickup word is checked where it is given"),
    async (c) => {
      const { number, ...path } = c.req.valid("param");
      const { undo, word } = c.req.valid("json");
      const answer = await end(c, path, number, "collected", undo, word);
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    orderRoute("dropped", Undo, "Given up; garments already pressed are counted as decorated and unsold"),
    async (c) => {
      const { number, ...path } = c.req.valid("param");
      const { undo } = c.req.valid("json");
      const answer = await end(c, path, number, "dropped", undo);
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(orderRoute("uncollected", Undo, "Never fetched"), async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { undo } = c.req.valid("json");
    const answer = await end(c, path, number, "uncollected", undo);
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(
    orderRoute("left-out", z.strictObject({}), "What is short is left out; the rest of the order goes on"),
    async (c) => {
      const { number, ...path } = c.req.valid("param");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onOrder(generation, key, { type: "leave-out", number }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    orderRoute("given-back", Undo, "What was paid for what was left out is handed back"),
    async (c) => {
      const { number, ...path } = c.req.valid("param");
      const { undo } = c.req.valid("json");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onOrder(generation, key, { type: "give-back", number, undo }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(orderRoute("refunded", Exchange, "Money given back"), async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { undo } = c.req.valid("json");
    const answer = await end(c, path, number, "refunded", undo);
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(orderRoute("exchanged", Exchange, "Exchanged for something else"), async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { undo } = c.req.valid("json");
    const answer = await end(c, path, number, "exchanged", undo);
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
