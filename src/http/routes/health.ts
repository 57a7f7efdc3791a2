/** Whether the worker and its objects answer. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { json, newRouter, problems } from "../router.ts";

const Health = z.strictObject({ ok: z.boolean(), records: z.int() }).meta({ id: "Health" });

const health = createRoute({
  method: "get",
  path: "/v1/health",
  summary: "Writes and reads a row in an object of its own",
  tags: ["anyone"],
  responses: { 200: json(Health, "All is well"), ...problems },
});

export const healthRoutes = newRouter().openapi(health, async (c) => {
  const records = await c.env.FAIR.getByName("health check").touch();
  return c.json({ ok: true, records }, 200, { "Cache-Control": "no-store" });
});
