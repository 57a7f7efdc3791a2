/** The pictures of designs, as the crew gives and takes them. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { DesignId } from "../../../model/basics/ids.ts";
import { PicturesView } from "../../../model/garment/picture.ts";
import { pictureFrom } from "../../../pictures/kept-picture.ts";
import { crewRead, crewRoute, crewWrite, stallBase } from "../../doors/crew.ts";
import { pictureRefused } from "../../requests/picture-problems.ts";
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

export const pictureRoutes = newRouter()
  .openapi(set, async (c) => {
    const { design, ...place } = c.req.valid("param");
    // Check the key first: without a valid key nothing about pictures is revealed.
    const open = await crewRead(c, place, (stall, generation) => stall.picturesOf(generation));
    if (!open.ok) return open.refusal;
    const read = await pictureFrom(new Uint8Array(await c.req.arrayBuffer()));
    if (!read.ok) return pictureRefused(c, read.refusal);
    const answer = await crewWrite(c, place, (stall, generation, key) =>
      stall.setPicture(generation, key, design, read.value),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(takeAway, async (c) => {
    const { design, ...place } = c.req.valid("param");
    const answer = await crewWrite(c, place, (stall, generation, key) =>
      stall.setPicture(generation, key, design, null),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  })
  .openapi(list, async (c) => {
    const answer = await crewRead(c, c.req.valid("param"), (stall, generation) =>
      stall.picturesOf(generation),
    );
    return answer.ok ? c.json(answer.value, 200) : answer.refusal;
  });
