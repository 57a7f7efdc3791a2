/** Changing an order before its garments are pressed. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { jobParts } from "../../../../model/basics/ids.ts";
import { CrewOrderView, PickupNumber } from "../../../../model/orders/order.ts";
import { ChangeOrder, DiscountOrder } from "../../../../model/orders/taps.ts";
import type { OrderChange } from "../../../../stall/rules/commands.ts";
import { crewRoute, crewWrite, stallBase } from "../../../doors/crew.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../../requests/router.ts";
import { numbersIn } from "./garments.ts";

const onOrder = z.strictObject({ ...stallPath.shape, number: z.coerce.number().pipe(PickupNumber) });

const discounted = createRoute({
  method: "post",
  path: `${stallBase}/orders/{number}/discounted`,
  summary: "Something off the price of an order or of some of its garments, with the reason",
  ...crewRoute,
  request: { headers: idempotency, params: onOrder, body: body(DiscountOrder) },
  responses: { 200: json(CrewOrderView, "The order now"), ...problems },
});

const changed = createRoute({
  method: "post",
  path: `${stallBase}/orders/{number}/changed`,
  summary: "Other garments, more or fewer, before they are pressed; number, word and place stay",
  ...crewRoute,
  request: {
    headers: idempotency,
    params: onOrder,
    body: body(ChangeOrder),
  },
  responses: { 200: json(CrewOrderView, "The order now, with what is due or to be given back"), ...problems },
});

type Told = z.infer<typeof ChangeOrder>["changes"][number];

/** A change as the stall takes it: garments by their numbers in the order. */
const changeOf = (told: Told): OrderChange =>
  told.type === "add" ? told : { ...told, jobs: told.jobs.map((job) => jobParts(job).n) };

export const changingRoutes = newRouter()
  .openapi(discounted, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { jobs, off } = c.req.valid("json");
    const numbers = await numbersIn(c, path, { number, jobs: jobs ?? [], pointer: "#/jobs" });
    if (!numbers.ok) return numbers.refusal;
    const some = jobs === undefined ? {} : { jobs: numbers.value };
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onOrder(generation, key, { type: "discounted", number, ...some, off }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(changed, async (c) => {
    const { number, ...path } = c.req.valid("param");
    const { changes } = c.req.valid("json");
    const named = changes.flatMap((one) => (one.type === "add" ? [] : one.jobs));
    const numbers = await numbersIn(c, path, { number, jobs: named, pointer: "#/changes" });
    if (!numbers.ok) return numbers.refusal;
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.onOrder(generation, key, { type: "changed", number, changes: changes.map(changeOf) }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
