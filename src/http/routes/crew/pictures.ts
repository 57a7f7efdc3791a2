/** The pictures of designs, as the crew gives and takes them. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import { DesignId } from "../../../model/basics/ids.ts";
import { PicturesView } from "../../../model/garment/picture.ts";
import { pictureFrom } from "../../../pictures/kept-picture.ts";
import type { NotTaken } from "../../../pictures/reading.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import type { App } from "../../requests/env.ts";
import { type ProblemResponse, problem } from "../../requests/problems.ts";
import { idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const onDesign = z.strictObject({ ...stallPath.shape, design: DesignId });
const path = `${stallBase}/designs/{design}/picture`;
const file = { schema: { type: "string", format: "binary" } } as const;

const set = createRoute({
  method: "put",
  path,
  summary:
    "Give a design its picture: PNG, JPEG or WebP, at most 640 pixels a side and 60 kB, told by its bytes",
  ...crewRoute,
  request: {
    headers: idempotency,
    params: onDesign,
    body: { required: true, content: { "image/png": file, "image/jpeg": file, "image/webp": file } },
  },
  responses: { 200: json(PicturesView, "All pictures as they are now"), ...problems },
});

const takeAway = createRoute({
  method: "delete",
  path,
  summary: "Take a design's picture away; its initials are drawn instead",
  ...crewRoute,
  request: { headers: idempotency, params: onDesign },
  responses: { 200: json(PicturesView, "All pictures as they are now"), ...problems },
});

const list = createRoute({
  method: "get",
  path: `${stallBase}/pictures`,
  summary: "Which designs have which picture, and how much room they take",
  ...crewRoute,
  request: { params: stallPath },
  responses: { 200: json(PicturesView, "Now"), ...problems },
});

/** Why a picture is not taken, as a problem. */
function notTaken(c: Context<App>, { why, detail }: NotTaken): ProblemResponse {
  switch (why) {
    case "kind":
      return problem(c, "unsupported-type", [415, "Not a picture that is kept here", detail]);
    case "too-many-bytes":
      return problem(c, "too-large", [413, "Too large", detail]);
    case "too-many-pixels":
      return problem(c, "too-many-pixels", [422, "Too many pixels", detail]);
    case "broken":
      return problem(c, "broken-picture", [422, "The picture is broken", detail]);
    default:
      return why satisfies never;
  }
}

export const pictureRoutes = newRouter()
  .openapi(set, async (c) => {
    const { design, ...place } = c.req.valid("param");
    // Whoever has no good key learns nothing of pictures.
    const open = await crewRead(c, place, (stall, generation) => stall.picturesOf(generation));
    if (!open.pass) return open.response;
    const read = await pictureFrom(new Uint8Array(await c.req.arrayBuffer()));
    if (!read.ok) return notTaken(c, read);
    const kept = { facts: read.facts, bytes: read.bytes };
    const answer = await crewWrite(c, place, (stall, generation, key) =>
      stall.setPicture(generation, key, design, kept),
    );
    return answer.pass ? c.json(answer.value, 200) : answer.response;
  })
  .openapi(takeAway, async (c) => {
    const { design, ...place } = c.req.valid("param");
    const answer = await crewWrite(c, place, (stall, generation, key) =>
      stall.setPicture(generation, key, design, null),
    );
    return answer.pass ? c.json(answer.value, 200) : answer.response;
  })
  .openapi(list, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.picturesOf(generation),
    );
    return answer.pass ? c.json(answer.value, 200) : answer.response;
  });
