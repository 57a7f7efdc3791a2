/** What visitors of a fair choose from: one read of the fair, kept at the edge for a few seconds. */
import { createRoute } from "@hono/zod-openapi";
import { SeenFair } from "../../../model/fair/seen.ts";
import { forAll } from "../../doors/doors.ts";
import { fairOf } from "../../requests/objects.ts";
import { fairRefusal } from "../../requests/problems.ts";
import { fairPath, json, newRouter, problems } from "../../requests/router.ts";

const SECONDS = 5;

const see = createRoute({
  method: "get",
  path: "/v1/fairs/{fair}/seen",
  summary: "The stalls of a fair that want to be seen: what they make, their waits, how much is left",
  tags: ["customer"],
  ...forAll,
  request: { params: fairPath },
  responses: { 200: json(SeenFair, "As the stalls reported last"), ...problems },
});

export const seenFairRoutes = newRouter().openapi(see, async (c) => {
  const { fair } = c.req.valid("param");
  const key = new URL(c.req.url);
  key.search = "";
  const edge = caches.default;
  const kept = await edge.match(key);
  if (kept !== undefined) return new Response(kept.body, kept) as never; // what was answered a moment ago
  const answer = await fairOf(c, fair).seen();
  if (!answer.ok) return fairRefusal(c, answer.refusal, fair);
  const reply = c.json(answer.value, 200, { "Cache-Control": `public, max-age=${SECONDS}` });
  c.executionCtx.waitUntil(edge.put(key, reply.clone()));
  return reply as never; // a row is a tuple, which the router's types widen
});
