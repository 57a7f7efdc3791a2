/** A design's picture as every page shows it: named by its own bytes, so it never changes. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { PictureMark } from "../../../model/garment/picture.ts";
import { settled } from "../../doors/crew.ts";
import { forAll } from "../../doors/doors.ts";
import { stallOf } from "../../requests/objects.ts";
import { problem } from "../../requests/problems.ts";
import { newRouter, problems, stallPath } from "../../requests/router.ts";

const file = { schema: { type: "string", format: "binary" } } as const;

const see = createRoute({
  method: "get",
  path: "/at/{fair}/{stall}/pictures/{hash}",
  summary: "A picture of a design, by the SHA-256 of its bytes or its first 12 digits",
  tags: ["customer"],
  ...forAll,
  request: { params: z.strictObject({ ...stallPath.shape, hash: PictureMark }) },
  responses: {
    200: {
      description: "The file, to be kept for good",
      content: { "image/png": file, "image/jpeg": file, "image/webp": file },
    },
    ...problems,
  },
});

export const seenPictureRoutes = newRouter().openapi(see, async (c) => {
  const { hash, ...place } = c.req.valid("param");
  const answer = settled(c, await stallOf(c, place).picture(hash));
  if (!answer.ok) return answer.refusal;
  if (answer.value === null)
    return problem(c, "no-such-picture", [
      404,
      "No such picture",
      "No design of this stall has that picture now.",
    ]);
  const { type, bytes } = answer.value;
  return c.body(new Uint8Array(bytes), 200, {
    "Content-Type": type,
    "Cache-Control": "public, max-age=31536000, immutable",
    "X-Content-Type-Options": "nosniff",
  }) as never; // a file, which has no type in the router's terms
});
