/** The health check: whether the worker and its objects answer. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { carrying } from "../../../tracing/calls.ts";
import { faultFacts, log } from "../../../tracing/log.ts";
import { forAllToWrite } from "../../doors/doors.ts";
import { json, newRouter, problems } from "../../requests/router.ts";
import { secretFaults } from "../../secrets.ts";

const Health = z
  .strictObject({
    ok: z.boolean(),
    records: z.int().describe("How often the fair's store was asked; grows with each check"),
    faults: z
      .array(z.string())
      .describe("Secrets that are missing or too short, and what to do; never a value"),
  })
  .meta({ id: "Health" });

const health = createRoute({
  method: "get",
  path: "/v1/health",
  summary: "Checks the secrets, and writes and reads a row in an object of each kind, kept for this alone",
  tags: ["anyone"],
  ...forAllToWrite,
  responses: {
    200: json(Health, "All is well"),
    503: json(Health, "A secret is missing or too short, or an object or its store does not answer"),
    ...problems,
  },
});

/** No fair's name: a fair's has no space. */
const OBJECT = "health check";

export const healthRoutes = newRouter().openapi(health, async (c) => {
  const request = c.get("request");
  const headers = { "Cache-Control": "no-store" };
  const faults = [...secretFaults(c.env)];
  try {
    const [records] = await Promise.all([
      carrying(c.env.FAIR.getByName(OBJECT), request).touch(),
      carrying(c.env.STALL.getByName(OBJECT), request).touch(),
    ]);
    if (faults.length > 0) return c.json({ ok: false, records, faults }, 503, headers);
    return c.json({ ok: true, records, faults }, 200, headers);
  } catch (error) {
    log("error", "the store does not answer", { request, ...faultFacts(error) });
    return c.json({ ok: false, records: 0, faults }, 503, headers);
  }
});
