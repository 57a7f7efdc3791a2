/** A fair's name, clock and hours: everybody may read them, its organiser changes them, and every stall gets them. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import type { FairFacts } from "../../../fair/calls/organiser.ts";
import { ChangeFair, FairView } from "../../../model/fair/fair.ts";
import { forAll, onlyFor } from "../../doors/doors.ts";
import { generationOf, writeKey } from "../../doors/guard.ts";
import type { App } from "../../requests/env.ts";
import { fairOf } from "../../requests/objects.ts";
import { fairRefusal } from "../../requests/problems.ts";
import { body, fairPath, idempotency, json, newRouter, problems } from "../../requests/router.ts";
import { tagsOf } from "../../requests/tags.ts";

const read = createRoute({
  method: "get",
  path: "/v1/fairs/{fair}",
  summary: "A fair's name, its clock, and when it is open",
  tags: ["organiser"],
  ...forAll,
  request: { params: fairPath },
  responses: {
    200: json(FairView, "As it stands now"),
    304: { description: "Nothing changed" },
    ...problems,
  },
});

const change = createRoute({
  method: "put",
  path: "/v1/fairs/{fair}",
  summary: "Change a fair's name, clock and hours; every stall follows",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: {
    headers: idempotency.extend({
      "if-match": z.string().optional().describe("The fair's entity tag that the change began from"),
    }),
    params: fairPath,
    body: body(ChangeFair),
  },
  responses: { 200: json(FairView, "As it stands now"), ...problems },
});

const tagOf = ({ edition }: FairFacts): string => `f${edition}`;

const headersOf = (facts: FairFacts) => ({ ETag: `"${tagOf(facts)}"`, "Cache-Control": "no-cache" });

const viewOf = ({ fair, name, timeZone, openings }: FairFacts): FairView => ({
  fair,
  name,
  timeZone,
  openings,
});

/** An edition that no fair has: what If-Match named is not the fair's. */
const NONE = -1;

/**
 * The edition a change started from, by If-Match; the comparison is strong (RFC 9110, section 13.1.1). Null (not sent,
 * or `*`): change the fair whatever its edition.
 */
function basedOn(c: Context<App>): number | null {
  const header = c.req.header("If-Match")?.trim();
  if (header === undefined || header === "*") return null;
  const edition = /^"f(\d{1,15})"$/.exec(header)?.[1];
  return edition === undefined ? NONE : Number(edition);
}

export const fairHourRoutes = newRouter()
  .openapi(read, async (c) => {
    const { fair } = c.req.valid("param");
    const facts = await fairOf(c, fair).facts();
    if (facts === null) return fairRefusal(c, { code: "no-such-fair" }, fair);
    const have = tagsOf(c);
    if (have.includes(tagOf(facts)) || have.includes("*")) return c.body(null, 304, headersOf(facts));
    return c.json(viewOf(facts), 200, headersOf(facts));
  })
  .openapi(change, async (c) => {
    const { fair } = c.req.valid("param");
    const write = await writeKey(c, "organiser");
    if (!write.ok) return write.refusal;
    const changed = await fairOf(c, fair).change(
      generationOf(c),
      write.value,
      c.req.valid("json"),
      basedOn(c),
    );
    if (!changed.ok) return fairRefusal(c, changed.refusal, fair);
    await fairOf(c, fair).tellStalls();
    return c.json(viewOf(changed.value), 200, headersOf(changed.value));
  });
