/** The page of pretend phones and its calls, only if the worker runs on a computer that offers them. */
import { Hono } from "hono";
import { PhonesPage } from "../../../screens/pages/phones.tsx";
import type { App } from "../../requests/env.ts";

export const phoneRoutes = new Hono<App>()
  .get("/phones", (c) => (c.env.HANDSET === undefined ? c.notFound() : c.html(PhonesPage())))
  .all("/phones/*", async (c) => {
    if (c.env.HANDSET === undefined) return c.notFound();
    const answer = await c.env.HANDSET.fetch(c.req.raw);
    // A fetched response cannot be given more headers; a copy can.
    return new Response(answer.body, answer);
  });
