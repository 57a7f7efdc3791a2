/** The route by which the crew gives the stall's new address, and undoes that. */
import { createRoute } from "@hono/zod-openapi";
import { MovedTo } from "../../../../model/accounts/moved.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../../doors/crew.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../../requests/router.ts";

const setMoved = createRoute({
  method: "put",
  path: `${stallBase}/moved`,
  summary: "Send everybody who comes here on to the stall's new address; null undoes that",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(MovedTo) },
  responses: { 200: json(MovedTo, "Where the stall is from now on"), ...problems },
});

const moved = createRoute({
  method: "get",
  path: `${stallBase}/moved`,
  summary: "Where the stall has moved to",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(MovedTo, "The new address, or null while the stall is here"), ...problems },
});

export const movedRoutes = newRouter()
  .openapi(setMoved, async (c) => {
    const { to } = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.setMoved(generation, key, to),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(moved, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.moved(generation));
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
