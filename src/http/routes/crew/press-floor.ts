/** The press floor: the queue, pulling for a press, and what became of a garment. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { JobId, PressId } from "../../../model/basics/ids.ts";
import { JobStage, OrderStage, PickupNumber, Pulled, QueueView } from "../../../model/orders/order.ts";
import { Pressed, Pull, Returned, Spoiled } from "../../../model/orders/taps.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { versionHeaders, versionsOf } from "../../requests/objects.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const onJob = z.strictObject({ ...stallPath.shape, job: JobId });
/** What the body says of a tap, as the stall takes it. */
const tapped = ({
  press,
  at,
}: {
  readonly press?: PressId | undefined;
  readonly at?: string | undefined;
}) => ({
  ...(press === undefined ? {} : { press }),
  ...(at === undefined ? {} : { at: Date.parse(at) }),
});

const onPress = z.strictObject({ ...stallPath.shape, press: PressId });

const AtPress = z.strictObject({
  press: PressId.optional().describe(
    "The press that the asking tablet stands at: its reserve fills, and lasts 20 minutes from now at least",
  ),
});

const JobStanding = z
  .strictObject({ job: JobId, stage: JobStage, number: PickupNumber, orderStage: OrderStage })
  .meta({ id: "JobStanding" });

const queue = createRoute({
  method: "get",
  path: `${stallBase}/queue`,
  summary: "What the press screen shows; answers 304 while nothing changed",
  ...crewRoute,
  request: { params: stallPath, query: AtPress },
  responses: { 200: json(QueueView, "Now"), 304: { description: "Nothing changed" }, ...problems },
});

const pull = createRoute({
  method: "post",
  path: `${stallBase}/presses/{press}/pull`,
  summary: "The next garment for this press, or the one named of its reserve; a press that has one keeps it",
  ...crewRoute,
  request: { headers: idempotency, params: onPress, body: { ...body(Pull), required: false } },
  responses: { 200: json(Pulled, "The garment"), 204: { description: "Nothing fits" }, ...problems },
});

const jobRoute = <const A extends string, S extends z.ZodType>(action: A, schema: S, summary: string) =>
  createRoute({
    method: "post",
    path: `${stallBase}/jobs/{job}/${action}` as const,
    summary,
    ...crewRoute,
    request: { headers: idempotency, params: onJob, body: body(schema) },
    responses: { 200: json(JobStanding, "The garment now"), ...problems },
  });

export const pressFloorRoutes = newRouter()
  .openapi(queue, async (c) => {
    const have = versionsOf(c);
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.pressQueue(generation, have, c.req.valid("query").press),
    );
    if (!answer.ok) return answer.refusal;
    const { version, view, lasts = true } = answer.value;
    if (view === null) return c.body(null, 304, versionHeaders(version));
    // The view is a Queue that the object has already made into text.
    const headers = lasts ? versionHeaders(version) : { "Cache-Control": "no-store" };
    return c.body(view, 200, { ...headers, "Content-Type": "application/json" }) as never;
  })
  .openapi(pull, async (c) => {
    const { press, ...path } = c.req.valid("param");
    const { job, at } = (c.req.valid("json") as z.infer<typeof Pull> | undefined) ?? {}; // no body, nothing to validate
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.pull(generation, key, {
        type: "pull",
        press,
        ...(job === undefined ? {} : { job }),
        ...tapped({ at }),
      }),
    );
    if (!answer.ok) return answer.refusal;
    return answer.value === null ? c.body(null, 204) : c.json({ job: answer.value }, 200);
  })
  .openapi(
    jobRoute("pressed", Pressed, "The garment is pressed; with undo it waits again, ahead of all"),
    async (c) => {
      const { job, ...path } = c.req.valid("param");
      const { undo, ...tap } = c.req.valid("json");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onJob(
          generation,
          key,
          undo ? { type: "unfinish", job } : { type: "finish", job, ...tapped(tap) },
        ),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    jobRoute("spoiled", Spoiled, "The try is lost: with spares it is pressed again next, else it is short"),
    async (c) => {
      const { job, ...path } = c.req.valid("param");
      const { lost, reason, ...tap } = c.req.valid("json");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onJob(generation, key, { type: "spoil", job, lost, reason, ...tapped(tap) }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    jobRoute("not-spoiled", z.strictObject({}), 'Takes a wrong "spoiled" back, until it is on a press again'),
    async (c) => {
      const { job, ...path } = c.req.valid("param");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onJob(generation, key, { type: "unspoil", job }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  )
  .openapi(
    jobRoute("returned", Returned, "Give the garment back unpressed; it keeps its place"),
    async (c) => {
      const { job, ...path } = c.req.valid("param");
      const answer = await crewWrite(c, path, (stall, generation, key) =>
        stall.onJob(generation, key, { type: "hand-back", job, ...tapped(c.req.valid("json")) }),
      );
      return answer.ok ? c.json(answer.value, 200) : answer.refusal;
    },
  );
