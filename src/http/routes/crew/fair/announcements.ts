/** The crew has read what the organiser says. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { AnnouncementId } from "../../../../model/fair/organising.ts";
import { crewWrite, pressRoute, stallBase } from "../../../doors/crew.ts";
import { idempotency, json, newRouter, problems, stallPath } from "../../../requests/router.ts";

const Read = z.strictObject({ version: z.int() }).meta({ id: "AnnouncementRead" });

const read = createRoute({
  method: "post",
  path: `${stallBase}/announcements/{announcement}/read`,
  summary: "The crew has read an announcement: its screens show it no more, and the organiser sees that",
  ...pressRoute,
  request: { headers: idempotency, params: stallPath.extend({ announcement: AnnouncementId }) },
  responses: { 200: json(Read, "The version in which the stall stands"), ...problems },
});

export const announcementRoutes = newRouter().openapi(read, async (c) => {
  const { announcement, ...path } = c.req.valid("param");
  const answer = await crewWrite(c, path, (stall, generation, key) =>
    stall.readAnnouncement(generation, key, announcement),
  );
  return answer.ok ? c.json(answer.value, 200) : answer.refusal;
});
