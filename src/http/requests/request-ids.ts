/** The first step of every request: an id of its own, and a log line if it is refused. */
import type { MiddlewareHandler } from "hono";
import { routePath } from "hono/route";
import { FairId, StallId } from "../../model/basics/ids.ts";
import { type Facts, log } from "../../tracing/log.ts";
import type { App } from "./env.ts";

const REQUEST_HEADER = "X-Request-Id";

/** Names a fair or stall could have; anything else in an address may be anything. */
function placeIn(fair: string | undefined, stall: string | undefined): Facts {
  const names = { fair: FairId.safeParse(fair).data, stall: StallId.safeParse(stall).data };
  return {
    ...(names.fair === undefined ? {} : { fair: names.fair }),
    ...(names.stall === undefined ? {} : { stall: names.stall }),
  };
}

/**
 * Makes the request's id (one that is sent along is not taken: it would be somebody else's words in our log), puts
 * it into the answer, and logs refusals by the route's pattern, never by the address, which may hold anything.
 */
export const requests: MiddlewareHandler<App> = async (c, next) => {
  const request = crypto.randomUUID();
  c.set("request", request);
  await next();
  c.header(REQUEST_HEADER, request);
  const { status } = c.res;
  if (status < 400) return;
  log("info", "refused", {
    request,
    method: c.req.method,
    route: routePath(c, -1),
    status,
    ...placeIn(c.req.param("fair"), c.req.param("stall")),
    ...(c.get("refused") === undefined ? {} : { type: c.get("refused") as string }),
  });
};
