/** A stall that goes to another fair, and a stall as one file. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import {
  asPart,
  CarriedStall,
  PartTaken,
  StallPart,
  TakenIn,
  WholeStall,
} from "../../../../model/accounts/whole-stall.ts";
import type { CustomerId, FairId, StallId } from "../../../../model/basics/ids.ts";
import { ok } from "../../../../model/basics/result.ts";
import type { Cursor } from "../../../../stall/storage/snapshot.ts";
import { crewRead, crewRoute, crewWrite, settled, stallBase } from "../../../doors/crew.ts";
import { generationOf, keysOf } from "../../../doors/guard.ts";
import type { App } from "../../../requests/env.ts";
import { fairOf, stallOf } from "../../../requests/objects.ts";
import { invalid } from "../../../requests/problems.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../../requests/router.ts";
import { peopleAt } from "../people-at.ts";
import { picturesIn } from "../pictures-in.ts";
import { savedFile, streamed } from "./saved-file.ts";

const carry = createRoute({
  method: "get",
  path: `${stallBase}/carry`,
  summary: "What goes along to another fair: menu, stock on hand, lessons, costs; never a customer",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(CarriedStall, "To be sent to the other stall's address"), ...problems },
});

const takeCarried = createRoute({
  method: "post",
  path: `${stallBase}/carry`,
  summary: "Take that into an empty stall: all of it or none",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(CarriedStall) },
  responses: { 200: json(TakenIn, "The version in which it stands"), ...problems },
});

const everything = createRoute({
  method: "get",
  path: `${stallBase}/everything`,
  summary: "Everything the stall owns as one file, names and numbers included: keep it as safe as the stall",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(WholeStall, "The journal, and the people apart"), ...problems },
});

const takeEverything = createRoute({
  method: "put",
  path: `${stallBase}/everything`,
  summary: "Load such a file into an empty stall, which becomes the saved one",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(WholeStall) },
  responses: { 200: json(TakenIn, "The version in which it stands"), ...problems },
});

const uploadPath = stallPath.extend({
  upload: z
    .string()
    .regex(/^[A-Za-z0-9_-]{8,40}$/)
    .describe("A name of your own for this upload, new for each file"),
});

const partNumber = z
  .string()
  .regex(/^\d{1,6}$/)
  .transform(Number)
  .describe("Which part, counted from 0");

const AllParts = z
  .strictObject({ parts: z.int().min(1).describe("How many parts the file has") })
  .meta({ id: "AllParts" });

const takePart = createRoute({
  method: "put",
  path: `${stallBase}/everything/{upload}/{part}`,
  summary: "Take a part of such a file into an empty stall, which stays empty until the last has come",
  ...crewRoute,
  request: {
    headers: idempotency,
    params: uploadPath.extend({ part: partNumber }),
    body: body(StallPart),
  },
  responses: { 200: json(PartTaken, "How far the upload has come"), ...problems },
});

const takeWhole = createRoute({
  method: "post",
  path: `${stallBase}/everything/{upload}`,
  summary: "All parts have come: the stall becomes the uploaded one",
  ...crewRoute,
  request: { headers: idempotency, params: uploadPath, body: body(AllParts) },
  responses: { 200: json(TakenIn, "The version in which it stands"), ...problems },
});

const unkept = { "Cache-Control": "no-store" };

export const movingRoutes = newRouter()
  .openapi(carry, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) => stall.carry(generation));
    return answer.ok ? c.json(answer.value, 200, unkept) : answer.refusal;
  })
  .openapi(takeCarried, async (c) => {
    const carried = c.req.valid("json");
    const kept = await picturesIn(carried.pictures);
    if (!kept.ok) return invalid(c, [kept.refusal]);
    const answer = await crewWrite(c, c.req.valid("param"), (stall, generation, key) =>
      stall.takeCarried(generation, key, { ...carried, pictures: [] }, kept.value),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(everything, async (c) => {
    const path = c.req.valid("param");
    const pageAt = (from: Cursor | null) => stallOf(c, path).everything(generationOf(c), from);
    const first = settled(c, await pageAt(null));
    if (!first.ok) return first.refusal;
    const body = streamed(savedFile(c, path, first.value, pageAt));
    // A WholeStall as text.
    return c.body(body, 200, { ...unkept, "Content-Type": "application/json" }) as never;
  })
  .openapi(takeEverything, async (c) => {
    const path = c.req.valid("param");
    const part = asPart(c.req.valid("json"));
    const read = await partIn(c, path, part);
    if (!read.ok) return invalid(c, [read.refusal]);
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.takeEverything(generation, key, read.value.read),
    );
    if (!answer.ok) return answer.refusal;
    // If it breaks off, the repeat of the write does it again.
    await tellStops(c, path, part, read.value.stopped);
    return c.json(answer.value, 200);
  })
  .openapi(takePart, async (c) => {
    const { upload, part, ...path } = c.req.valid("param");
    const sent = c.req.valid("json");
    const read = await partIn(c, path, sent);
    if (!read.ok) return invalid(c, [read.refusal]);
    const answer = await crewWrite(c, path, (stall, generation) =>
      stall.takePart(generation, { upload, part }, read.value.read),
    );
    if (!answer.ok) return answer.refusal;
    // Before the stall is there: no text goes out to a number whose STOP is still to come.
    await tellStops(c, path, sent, read.value.stopped);
    return c.json(answer.value, 200);
  })
  .openapi(takeWhole, async (c) => {
    const { upload, ...path } = c.req.valid("param");
    const answer = await crewWrite(c, path, (stall, generation, key) =>
      stall.takeWhole(generation, key, { upload, parts: c.req.valid("json").parts }),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });

type Path = { readonly fair: FairId; readonly stall: StallId };

/** A part of a file as the stall takes it, with its stopped numbers; or the fault of its first bad picture. */
async function partIn(c: Context<App>, path: Path, { pictures = [], stops: _, ...rows }: StallPart) {
  const kept = await picturesIn(pictures);
  if (!kept.ok) return kept;
  const { numbers, stopped } = await peopleAt(rows, path, (of) => keysOf(c).opaqueId(of));
  // As bytes: between objects a value of many small parts costs several times as much, and so does a text with an emoji.
  const text = new TextEncoder().encode(JSON.stringify(rows));
  return ok({ read: { text, numbers, pictures: kept.value }, stopped });
}

/** Tells the fair who said STOP. */
async function tellStops(
  c: Context<App>,
  { fair, stall }: Path,
  { stops = [] }: StallPart,
  stopped: readonly CustomerId[],
): Promise<void> {
  for (const sender of stopped) await fairOf(c, fair).setStopped(sender, true);
  for (const list of stops) await fairOf(c, fair).takeStops(stall, list);
}
