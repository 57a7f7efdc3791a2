/** The counters' pickup numbers: given out beforehand, so that a counter numbers orders without signal. */
import { createRoute } from "@hono/zod-openapi";
import { NumbersGiven, NumbersWanted } from "../../../model/orders/counter.ts";
import { crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const numbers = createRoute({
  method: "post",
  path: `${stallBase}/numbers`,
  summary: "A block of pickup numbers and words for a counter's device, filled up to 20 unused ones",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(NumbersWanted) },
  responses: { 200: json(NumbersGiven, "Those that the device does not have yet"), ...problems },
});

export const counterRoutes = newRouter().openapi(numbers, async (c) => {
  const wanted = c.req.valid("json");
  const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
    stall.giveNumbers(generation, key, wanted),
  );
  return answer.ok ? c.json({ numbers: [...answer.value] }, 200) : answer.refusal;
});
