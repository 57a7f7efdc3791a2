/** What the days taught: the evidence as a file the planner reads, and what it comes to. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { learntFrom } from "../../../lessons/learnt.ts";
import { Learnt, TakeLessons } from "../../../model/accounts/learnt.ts";
import { Lessons } from "../../../model/accounts/lessons.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const read = createRoute({
  method: "get",
  path: `${stallBase}/lessons`,
  summary:
    "Each day's evidence, just as POST /v1/plans takes it in `lessons`; other fairs' that were taken in too",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(z.array(Lessons), "One entry a day"), ...problems },
});

const learnt = createRoute({
  method: "get",
  path: `${stallBase}/lessons/learnt`,
  summary: "What that evidence comes to: shares, orders per hundred passers-by, spoilage, each with its span",
  ...crewRoute,
  request: { params: stallPath, query: z.object({ kind: z.string().min(1).max(40).optional() }) },
  responses: { 200: json(Learnt, "With nine-in-ten spans"), ...problems },
});

const take = createRoute({
  method: "post",
  path: `${stallBase}/lessons`,
  summary: "Take in what other fairs taught; the same evidence, told by its id, counts once",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(TakeLessons) },
  responses: { 200: json(z.strictObject({ taken: z.int() }), "How many"), ...problems },
});

export const lessonRoutes = newRouter()
  .openapi(read, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.lessons(generation));
    return answer.ok ? c.json([...answer.value], 200, { "Cache-Control": "no-store" }) : answer.refusal;
  })
  .openapi(learnt, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.lessons(generation));
    return answer.ok
      ? c.json(learntFrom(answer.value, c.req.valid("query").kind), 200, { "Cache-Control": "no-store" })
      : answer.refusal;
  })
  .openapi(take, async (c) => {
    const { lessons } = c.req.valid("json");
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.takeLessons(generation, key, { type: "take-lessons", lessons }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
