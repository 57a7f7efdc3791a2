/** Garments that come back one by one, and the rack. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { JobId, jobParts } from "../../../../model/basics/ids.ts";
import { CrewOrderView, PickupNumber } from "../../../../model/orders/order.ts";
import { RackView } from "../../../../model/orders/rack.ts";
import {
  ExchangeGarment,
  RefundGarments,
  UndoExchange,
  UndoRefund,
  Unracked,
} from "../../../../model/orders/taps.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../../doors/crew.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../../requests/router.ts";
import { numbersIn } from "./garments.ts";

const onOrder = z.strictObject({ ...stallPath.shape, number: z.coerce.number().pipe(PickupNumber) });

const refunded = createRoute({
  method: "post",
  path: `${stallBase}/orders/{number}/garments/refunded`,
  summary: "Refund some pressed garments: for each its part of the payment",
  ...crewRoute,
  request: { headers: idempotency, params: onOrder, body: body(RefundGarments) },
  responses: { 200: json(CrewOrderView, "The order now"), ...problems },
});

const exchanged = createRoute({
  method: "post",
  path: `${stallBase}/orders/{number}/garments/exchanged`,
  summary: "Exchange a pressed garment: the new one is next in line, and its payment carries over",
  ...crewRoute,
  request: { headers: idempotency, params: onOrder, body: body(ExchangeGarment) },
  responses: { 200: json(CrewOrderView, "The order in which the other one is made"), ...problems },
});

const undoRefunded = createRoute({
  method: "post",
  path: `${stallBase}/orders/{number}/garments/undo-refunded`,
  summary: "Refunded garments are their order's again with their money, if they are still there",
  ...crewRoute,
  request: { headers: idempotency, params: onOrder, body: body(UndoRefund) },
  responses: { 200: json(CrewOrderView, "The order now"), ...problems },
});

const undoExchanged = createRoute({
  method: "post",
  path: `${stallBase}/orders/{number}/garments/undo-exchanged`,
  summary: "An exchanged garment is its customer's again, until the other one lies on a press",
  ...crewRoute,
  request: { headers: idempotency, params: onOrder, body: body(UndoExchange) },
  responses: { 200: json(CrewOrderView, "The order that the garment is in again"), ...problems },
});

const rack = createRoute({
  method: "get",
  path: `${stallBase}/rack`,
  summary: "Pressed garments that nobody took, and money owed on orders that are over",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(RackView, "Now"), ...problems },
});

const unracked = createRoute({
  method: "post",
  path: `${stallBase}/rack/{job}/unracked`,
  summary: "Throw a garment of the rack away, or let it be sold though it is kept for its customer",
  ...crewRoute,
  request: {
    headers: idempotency,
    params: z.strictObject({ ...stallPath.shape, job: JobId }),
    body: body(Unracked),
  },
  responses: { 200: json(RackView, "The rack now"), ...problems },
});

export const returnRoutes = newRouter()
  .openapi(refunded, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { jobs, keeps } = c.req.valid("json");
    const numbers = await numbersIn(c, path, { number, jobs, pointer: "#/jobs" });
    if (!numbers.ok) return numbers.refusal;
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onOrder(generation, key, { type: "garment-refunded", number, jobs: numbers.value, keeps }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(exchanged, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { job, instead, keeps } = c.req.valid("json");
    const numbers = await numbersIn(c, path, { number, jobs: [job], pointer: "#/job" });
    if (!numbers.ok) return numbers.refusal;
    const { n } = jobParts(job);
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.exchange(generation, key, { type: "garment-exchanged", number, n, instead, keeps }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(undoRefunded, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const numbers = await numbersIn(c, path, { number, ...c.req.valid("json"), pointer: "#/jobs" });
    if (!numbers.ok) return numbers.refusal;
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onOrder(generation, key, { type: "undo-garment-refunded", number, jobs: numbers.value }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(undoExchanged, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { job } = c.req.valid("json");
    const numbers = await numbersIn(c, path, { number, jobs: [job], pointer: "#/job" });
    if (!numbers.ok) return numbers.refusal;
    const { n } = jobParts(job);
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.undoExchange(generation, key, { type: "undo-garment-exchanged", number, n }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(rack, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.rack(generation));
    return answer.ok ? c.json(answer.value, 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(unracked, async (c) => {
    const { job, ...path } = c.req.valid("param");
    const { as } = c.req.valid("json");
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.unracked(generation, key, { type: "unracked", key: job, as }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
