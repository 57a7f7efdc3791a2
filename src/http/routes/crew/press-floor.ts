/** The press floor: the queue, pulling for a press, and what became of a garment. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { JobId, PressId } from "../../../model/basics/ids.ts";
import { JobStage, OrderStage, PickupNumber } from "../../../model/orders/order.ts";
import { Pulled, QueueView } from "../../../model/orders/queue.ts";
import { Pressed, Pull, Returned, Spoiled } from "../../../model/orders/taps.ts";
import type { JobCommand } from "../../../stall/rules/commands.ts";
import { crewRead, crewWrite, pressRoute, stallBase } from "../../doors/crew.ts";
import { versionHeaders, versionsOf } from "../../requests/objects.ts";
import { body, idempotency, json, problems, stallPath } from "../../requests/router.ts";
import { crewTable, nothing, writes } from "./table.ts";

type Tap = { readonly press?: PressId | undefined; readonly at?: string | undefined };

/** The body of a tap as the stall takes it. */
const tapped = ({ press, at }: Tap) => ({
  ...(press === undefined ? {} : { press }),
  ...(at === undefined ? {} : { at: Date.parse(at) }),
});

const JobStanding = z
  .strictObject({ job: JobId, stage: JobStage, number: PickupNumber, orderStage: OrderStage })
  .meta({ id: "JobStanding" });

/** One row: an act on a garment. */
const onJob = <B extends z.ZodType>(
  act: string,
  schema: B,
  summary: string,
  command: (job: JobId, sent: z.output<B>) => JobCommand,
  deprecated?: true,
) =>
  writes({
    path: `jobs/{job}/${act}`,
    press: true,
    at: { job: JobId },
    body: schema,
    summary,
    reply: [JobStanding, "The garment now"],
    ...(deprecated === undefined ? {} : { deprecated }),
    call: (stall, { generation, key }, { at, body: sent }) =>
      stall.onJob(generation, key, command(at.job, sent)),
  });

const queue = createRoute({
  method: "get",
  path: `${stallBase}/queue`,
  summary: "What the press screen shows; answers 304 while nothing changed",
  ...pressRoute,
  request: {
    params: stallPath,
    query: z.strictObject({
      press: PressId.optional().describe(
        "The press that the asking tablet stands at: its reserve fills, and lasts 20 minutes from now at least",
      ),
    }),
  },
  responses: { 200: json(QueueView, "Now"), 304: { description: "Nothing changed" }, ...problems },
});

const pull = createRoute({
  method: "post",
  path: `${stallBase}/presses/{press}/pull`,
  summary: "The next garment for this press, or the one named of its reserve; a press that has one keeps it",
  ...pressRoute,
  request: {
    headers: idempotency,
    params: z.strictObject({ ...stallPath.shape, press: PressId }),
    body: { ...body(Pull), required: false },
  },
  responses: { 200: json(Pulled, "The garment"), 204: { description: "Nothing fits" }, ...problems },
});

const undoSpoiled = (job: JobId): JobCommand => ({ type: "undo-spoiled", job });

export const pressFloorRoutes = crewTable(
  onJob("pressed", Pressed, "The garment is pressed", (job, { undo, ...tap }) =>
    undo ? { type: "undo-pressed", job } : { type: "pressed", job, ...tapped(tap) },
  ),
  onJob("undo-pressed", nothing, "It is not pressed after all: it waits again, ahead of all", (job) => ({
    type: "undo-pressed",
    job,
  })),
  onJob(
    "spoiled",
    Spoiled,
    "The try is lost: with spares the garment is pressed again next, else it is short",
    (job, { lost, reason, rack, ...tap }) => ({
      type: "spoiled",
      job,
      lost,
      reason,
      ...(rack === undefined ? {} : { rack: rack.size === undefined ? {} : { size: rack.size } }),
      ...tapped(tap),
    }),
  ),
  onJob("undo-spoiled", nothing, "It is not spoiled after all; until it is on a press again", undoSpoiled),
  onJob("not-spoiled", nothing, "The same as undo-spoiled, for pages of earlier versions", undoSpoiled, true),
  onJob(
    "returned",
    Returned,
    "The garment goes back to the queue unpressed; it keeps its place",
    (job, tap) => ({
      type: "returned",
      job,
      ...tapped(tap),
    }),
  ),
)
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
    const { press, ...place } = c.req.valid("param");
    const { job, at } = (c.req.valid("json") as z.infer<typeof Pull> | undefined) ?? {}; // no body, nothing to validate
    const answer = await crewWrite(c, place, (stall, generation, key) =>
      stall.pull(generation, key, {
        type: "pull",
        press,
        ...(job === undefined ? {} : { job }),
        ...tapped({ at }),
      }),
    );
    if (!answer.ok) return answer.refusal;
    return answer.value === null ? c.body(null, 204) : c.json({ job: answer.value }, 200);
  });
