/** A fair's page for visitors, only if there is such a fair. */
import { Hono } from "hono";
import { FairId } from "../../../model/basics/ids.ts";
import { fairNotFound } from "../../../screens/pages.tsx";
import { overLimit } from "../../doors/limits.ts";
import type { App } from "../../requests/env.ts";
import { fairOf } from "../../requests/objects.ts";

export const knownFairPages = new Hono<App>().get("/at/:fair", async (c, next) => {
  const fair = FairId.safeParse(c.req.param("fair"));
  if (!fair.success) return next();
  const over = await overLimit(c, "reader");
  if (over !== null) return over;
  return (await fairOf(c, fair.data).facts()) === null ? fairNotFound(c) : next();
});
