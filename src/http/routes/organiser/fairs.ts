/** The owner's and the organiser's routes: fairs and their stalls. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import { FairId, OwnStallId, type StallId } from "../../../model/basics/ids.ts";
import { AddedStall, AddStall, CreatedFair, CreateFair, NewKey } from "../../../model/fair/fair.ts";
import { onlyFor } from "../../doors/doors.ts";
import { generationOf, keysOf, writeKey } from "../../doors/guard.ts";
import type { App } from "../../requests/env.ts";
import { fairOf } from "../../requests/objects.ts";
import { fairRefusal } from "../../requests/problems.ts";
import { body, fairPath, idempotency, json, newRouter, problems } from "../../requests/router.ts";

/** Only real stalls can be added or get keys; a rehearsal is begun by its crew. */
const ownStallPath = z.strictObject({ fair: FairId, stall: OwnStallId });

const create = createRoute({
  method: "post",
  path: "/v1/fairs",
  summary: "Create a fair; gives the organiser's key",
  tags: ["owner"],
  ...onlyFor("owner"),
  request: { headers: idempotency, body: body(CreateFair) },
  responses: { 201: json(CreatedFair, "Created, or created before by the same request"), ...problems },
});

const rekey = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/key",
  summary: "Give a fair a new organiser key; the old one stops, at once or after an overlap",
  tags: ["owner"],
  ...onlyFor("owner"),
  request: { headers: idempotency, params: fairPath, body: body(NewKey) },
  responses: { 200: json(CreatedFair, "The fair and its new organiser key"), ...problems },
});

const add = createRoute({
  method: "put",
  path: "/v1/fairs/{fair}/stalls/{stall}",
  summary: "Add or rename a stall; gives the crew's key",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: { headers: idempotency, params: ownStallPath, body: body(AddStall) },
  responses: { 200: json(AddedStall, "The stall and its crew key"), ...problems },
});

const rotate = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/stalls/{stall}/key",
  summary: "Give a stall a new crew key; the old one stops, at once or after an overlap",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: { headers: idempotency, params: ownStallPath, body: body(NewKey) },
  responses: { 200: json(AddedStall, "The stall and its new crew key"), ...problems },
});

/** A stall's keys of a generation. */
async function stallKeys(c: Context<App>, fair: FairId, stall: StallId, generation: number) {
  const keys = keysOf(c);
  const [key, pressKey] = await Promise.all([
    keys.crew(fair, stall, generation),
    keys.press(fair, stall, generation),
  ]);
  return { stall, key, pressKey };
}

export const fairRoutes = newRouter()
  .openapi(create, async (c) => {
    const key = await writeKey(c, "owner");
    if (!key.ok) return key.refusal;
    const request = c.req.valid("json");
    const made = await fairOf(c, request.fair).create(key.value, request);
    if (!made.ok) return fairRefusal(c, made.refusal, request.fair);
    return c.json({ fair: request.fair, key: await keysOf(c).organiser(request.fair, made.value) }, 201);
  })
  .openapi(rekey, async (c) => {
    const { fair } = c.req.valid("param");
    const write = await writeKey(c, "owner");
    if (!write.ok) return write.refusal;
    const made = await fairOf(c, fair).newKey(write.value, c.req.valid("json").overlapMinutes);
    if (!made.ok) return fairRefusal(c, made.refusal, fair);
    return c.json({ fair, key: await keysOf(c).organiser(fair, made.value) }, 200);
  })
  .openapi(add, async (c) => {
    const { fair, stall } = c.req.valid("param");
    const write = await writeKey(c, "organiser");
    if (!write.ok) return write.refusal;
    const { name } = c.req.valid("json");
    const keys = await fairOf(c, fair).addStall(generationOf(c), stall, name);
    if (!keys.ok) return fairRefusal(c, keys.refusal, fair);
    await fairOf(c, fair).tellStalls();
    return c.json(await stallKeys(c, fair, stall, keys.value), 200);
  })
  .openapi(rotate, async (c) => {
    const { fair, stall } = c.req.valid("param");
    const write = await writeKey(c, "organiser");
    if (!write.ok) return write.refusal;
    const { overlapMinutes } = c.req.valid("json");
    const keys = await fairOf(c, fair).newStallKey(generationOf(c), write.value, stall, overlapMinutes);
    if (!keys.ok) return fairRefusal(c, keys.refusal, fair);
    await fairOf(c, fair).tellStalls();
    return c.json(await stallKeys(c, fair, stall, keys.value), 200);
  });
