/** The organiser's gateway: how the fair's texts come in and go out. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import type { Fault } from "../../../model/basics/faults.ts";
import type { FairId } from "../../../model/basics/ids.ts";
import { GatewayMapping } from "../../../model/fair/gateway.ts";
import { bindingsOf } from "../../../texting/bindings.ts";
import { hostOf, pinnedHosts } from "../../../texting/mapping/hosts.ts";
import { elsewhere, mappingFaults } from "../../../texting/mapping/mapping-faults.ts";
import { onlyFor } from "../../doors/doors.ts";
import { organiser } from "../../doors/guard.ts";
import { keep, onLoopback } from "../../doors/web-hook.ts";
import type { App } from "../../requests/env.ts";
import { fairOf } from "../../requests/objects.ts";
import { forbidden, problem } from "../../requests/problems.ts";
import { body, fairPath, idempotency, json, newRouter, problems } from "../../requests/router.ts";

const Gateway = z
  .strictObject({ version: z.int(), mapping: GatewayMapping })
  .meta({ id: "Gateway", description: "How the fair's gateway speaks; secrets are named, never shown" });

const set = createRoute({
  method: "put",
  path: "/v1/fairs/{fair}/gateway",
  summary: "Set how the fair's gateway speaks: all of it or, with every mistake named, none",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: { headers: idempotency, params: fairPath, body: body(GatewayMapping) },
  responses: { 200: json(Gateway, "As it stands now"), ...problems },
});

const get = createRoute({
  method: "get",
  path: "/v1/fairs/{fair}/gateway",
  summary: "How the fair's gateway speaks",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: { params: fairPath },
  responses: { 200: json(Gateway, "As it stands now"), ...problems },
});

const noSuchFair = (c: Context<App>, fair: FairId) =>
  problem(c, "no-such-fair", [404, "No such fair", `There is no fair "${fair}". Create it first.`]);

const mistaken = (c: Context<App>, errors: readonly Fault[]) => {
  const detail = 'Nothing was changed. Each mistake stands in "errors".';
  return problem(c, "gateway", [422, "The gateway mapping has mistakes", detail, { errors }]);
};

export const gatewayRoutes = newRouter()
  .openapi(set, async (c) => {
    const { fair } = c.req.valid("param");
    const guard = await organiser(c, fair);
    if (!guard.pass) return guard.response;
    // Its mistakes tell which secrets the deployment has: nothing for a key that was replaced.
    if (!(await fairOf(c, fair).admits(guard.value))) return forbidden(c);
    const mapping = c.req.valid("json");
    const [bindings, hosts] = [bindingsOf(c.env), pinnedHosts(c.env)];
    const errors = mappingFaults(mapping, bindings, onLoopback(c), hosts);
    if (errors.length > 0) return mistaken(c, errors);
    const host = hosts === null ? hostOf(mapping.outbound, bindings) : null;
    const row = await fairOf(c, fair).setGateway(guard.value, mapping, host);
    if (row === null) return noSuchFair(c, fair);
    if (row === "old-key") return forbidden(c);
    if ("firstHost" in row)
      return mistaken(c, [{ pointer: "#/outbound/url", detail: elsewhere([row.firstHost]) }]);
    keep(fair, row);
    await fairOf(c, fair).tellStalls();
    return c.json(row, 200);
  })
  .openapi(get, async (c) => {
    const { fair } = c.req.valid("param");
    const guard = await organiser(c, fair);
    if (!guard.pass) return guard.response;
    const row = await fairOf(c, fair).gatewayFor(guard.value);
    return row === null ? forbidden(c) : c.json(row, 200, { "Cache-Control": "no-store" });
  });
