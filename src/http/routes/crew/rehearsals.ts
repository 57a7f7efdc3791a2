/** Trying the stall out: a rehearsal begins afresh with one tap, and is wiped with one. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { isRehearsal, rehearsalStall, StallId } from "../../../model/basics/ids.ts";
import { crewRead, crewRoute, settled, stallBase } from "../../doors/crew.ts";
import { generationOf, keysOf, writeKey } from "../../doors/guard.ts";
import { stallOf } from "../../requests/objects.ts";
import { problem, refusal } from "../../requests/problems.ts";
import { body, idempotency, json, newRouter, problems, stallPath } from "../../requests/router.ts";

const Rehearsing = z
  .strictObject({
    stall: StallId.describe("The twin's own address, in the place of the stall's"),
    key: z.string().describe("Crew key of the twin"),
    pretended: z.boolean().describe("Whether its stock is invented, since nothing was counted yet"),
  })
  .meta({ id: "Rehearsing" });

const begin = createRoute({
  method: "post",
  path: `${stallBase}/rehearsal`,
  summary: "Begin a rehearsal on a twin of the stall, with its menu and stock; one that was there is wiped",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(z.strictObject({})) },
  responses: { 200: json(Rehearsing, "Where the twin is, and its key"), ...problems },
});

const Wiped = z.strictObject({ wiped: z.literal(true) }).meta({ id: "Wiped" });

const wipe = createRoute({
  method: "post",
  path: `${stallBase}/wipe`,
  summary: "Wipe a rehearsal; a stall of the fair is never wiped",
  ...crewRoute,
  request: { headers: idempotency, params: stallPath, body: body(z.strictObject({})) },
  responses: { 200: json(Wiped, "Nothing of it is left"), ...problems },
});

export const rehearsalRoutes = newRouter()
  .openapi(begin, async (c) => {
    const place = c.req.valid("param");
    const write = await writeKey(c, "crew");
    if (!write.ok) return write.refusal;
    if (isRehearsal(place.stall))
      return problem(c, "rehearsal", [
        409,
        "A rehearsal already",
        "This is a rehearsal. Begin one from the stall itself.",
      ]);
    const real = await crewRead(c, place, (stall, generation) => stall.forRehearsal(generation));
    if (!real.ok) return real.refusal;
    const stall = rehearsalStall(place.stall);
    const { rehearsal, access } = real.value;
    const begun = settled(
      c,
      await stallOf(c, { fair: place.fair, stall }).rehearse(write.value, rehearsal, access),
    );
    if (!begun.ok) return begun.refusal;
    const key = await keysOf(c).crew(place.fair, stall, access.generation);
    return c.json({ stall, key, pretended: rehearsal.pretended }, 200);
  })
  .openapi(wipe, async (c) => {
    const place = c.req.valid("param");
    const write = await writeKey(c, "crew");
    if (!write.ok) return write.refusal;
    const stall = stallOf(c, place);
    // A twin that is wiped already knows no key: the same again is the same answer.
    const isThere = !isRehearsal(place.stall) || (await stall.exists());
    if (isThere && !(await stall.admits(generationOf(c)))) return refusal(c, { code: "old-key" });
    if (!isRehearsal(place.stall))
      return problem(c, "not-a-rehearsal", [
        409,
        "Not a rehearsal",
        "Only a rehearsal is wiped; this is a stall of the fair.",
      ]);
    await stall.endRehearsal();
    return c.json({ wiped: true as const }, 200);
  });
