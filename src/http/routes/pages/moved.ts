/** The pages of a stall that has moved: each names the new address. */
import { type Context, Hono, type Next } from "hono";
import { FairId, StallId } from "../../../model/basics/ids.ts";
import { MovedPage } from "../../../screens/pages/front/moved.tsx";
import { languageOf } from "../../../screens/pages.tsx";
import { overLimit } from "../../doors/limits.ts";
import type { App } from "../../requests/env.ts";
import { stallOf } from "../../requests/objects.ts";

async function movedOr(c: Context<App>, next: Next) {
  const [fair, stall] = [FairId.safeParse(c.req.param("fair")), StallId.safeParse(c.req.param("stall"))];
  if (!fair.success || !stall.success) return next();
  const over = await overLimit(c, "reader");
  if (over !== null) return over;
  const place = { fair: fair.data, stall: stall.data };
  const to = await stallOf(c, place).movedTo();
  if (to === null) return next();
  // The crew can undo it: no browser may keep this page (a 410 is kept otherwise: RFC 9110, section 15.5.11).
  return c.html(MovedPage({ ...place, to, language: languageOf(c) }), 410, { "Cache-Control": "no-store" });
}

export const movedPages = new Hono<App>()
  .get("/at/:fair/:stall", movedOr)
  .get("/at/:fair/:stall/board", movedOr)
  .get("/at/:fair/:stall/poster", movedOr);
