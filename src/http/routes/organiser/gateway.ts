/** The organiser's gateway: how the fair's texts come in and go out. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { GatewayMapping } from "../../../model/fair/gateway.ts";
import { bindingsOf } from "../../../texting/bindings.ts";
import { hostOf, pinnedHosts } from "../../../texting/mapping/hosts.ts";
import { mappingFaults } from "../../../texting/mapping/mapping-faults.ts";
import { onlyFor } from "../../doors/doors.ts";
import { generationOf } from "../../doors/guard.ts";
import { keep, onLoopback } from "../../doors/web-hook.ts";
import { fairOf } from "../../requests/objects.ts";
import { fairRefusal, forbidden, gatewayMistakes } from "../../requests/problems.ts";
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

export const gatewayRoutes = newRouter()
  .openapi(set, async (c) => {
    const { fair } = c.req.valid("param");
    // A mapping's faults reveal which secrets the deployment has, so a replaced key must not see them.
    if (!(await fairOf(c, fair).admits(generationOf(c)))) return forbidden(c);
    const mapping = c.req.valid("json");
    const [bindings, hosts] = [bindingsOf(c.env), pinnedHosts(c.env)];
    const errors = mappingFaults(mapping, bindings, onLoopback(c), hosts);
    if (errors.length > 0) return gatewayMistakes(c, errors);
    const host = hosts === null ? hostOf(mapping.outbound, bindings) : null;
    const row = await fairOf(c, fair).setGateway(generationOf(c), mapping, host);
    if (!row.ok) return fairRefusal(c, row.refusal, fair);
    keep(fair, row.value);
    await fairOf(c, fair).tellStalls();
    return c.json(row.value, 200);
  })
  .openapi(get, async (c) => {
    const { fair } = c.req.valid("param");
    const row = await fairOf(c, fair).gatewayFor(generationOf(c));
    return row.ok ? c.json(row.value, 200) : fairRefusal(c, row.refusal, fair);
  });
