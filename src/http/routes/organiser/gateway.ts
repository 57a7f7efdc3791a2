/** The organiser's gateway: how the fair's texts come in and go out. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { GatewayMapping, TriedGateway, TryGateway } from "../../../model/fair/gateway.ts";
import { bindingsOf } from "../../../texting/bindings.ts";
import { senderAt } from "../../../texting/keyed-hash.ts";
import { hostOf, pinnedHosts } from "../../../texting/mapping/hosts.ts";
import { mappingFaults } from "../../../texting/mapping/mapping-faults.ts";
import { numberOf } from "../../../texting/mapping/own-number.ts";
import { type Sent, sendText } from "../../../texting/sending/gateway.ts";
import { onlyFor } from "../../doors/doors.ts";
import { generationOf, keysOf, writeKey } from "../../doors/guard.ts";
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

const attempt = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/gateway/tries",
  summary:
    "Send the organiser's own number one text by the saved mapping, if it has texted the fair within a day; at most five a day",
  tags: ["organiser"],
  ...onlyFor("organiser"),
  request: { headers: idempotency, params: fairPath, body: body(TryGateway) },
  responses: { 200: json(TriedGateway, "What the gateway answered"), ...problems },
});

/** A refusal's usual cause, by the gateway's status. */
function causeOf(status: number): string {
  if (status === 401 || status === 403)
    return "It does not accept the key: check the secrets and how the request names them.";
  if (status === 404 || status === 405) return "Its address or method is wrong.";
  return "It does not understand the request: compare each field with the gateway's own example.";
}

/** The result of a try as a sentence for the organiser. */
function triedWords(sent: Sent): string {
  switch (sent.type) {
    case "sent":
      return "The gateway has taken the text. It should arrive within a minute.";
    case "later":
      return "The gateway cannot be reached, or is busy. Check its address, or try again in a minute.";
    case "refused":
      return sent.why === undefined
        ? `The gateway answered ${sent.status}. ${causeOf(sent.status)}`
        : `Nothing was sent: ${sent.why}.`;
    default:
      return sent satisfies never;
  }
}

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
  .openapi(attempt, async (c) => {
    const { fair } = c.req.valid("param");
    const key = await writeKey(c, "organiser");
    if (!key.ok) return key.refusal;
    const { to } = c.req.valid("json");
    const sender = await keysOf(c).opaqueId(senderAt(fair, to));
    const tried = await fairOf(c, fair).tryGateway(generationOf(c), key.value, to, sender);
    if (!tried.ok) return fairRefusal(c, tried.refusal, fair);
    const { id, fairName, mapping } = tried.value;
    const bindings = bindingsOf(c.env);
    const ours = mapping.numbers.find(({ stall }) => stall === undefined) ?? mapping.numbers[0];
    const from = numberOf(ours?.number ?? "", bindings) ?? "";
    const text = `${fairName}: this text shows that texts go out by your gateway.`;
    const sent = await sendText(
      mapping.outbound,
      { id, from, to, text },
      { bindings, hosts: pinnedHosts(c.env) },
    );
    return c.json({ accepted: sent.type === "sent", detail: triedWords(sent) }, 200);
  })
  .openapi(get, async (c) => {
    const { fair } = c.req.valid("param");
    const row = await fairOf(c, fair).gatewayFor(generationOf(c));
    return row.ok ? c.json(row.value, 200) : fairRefusal(c, row.refusal, fair);
  });
