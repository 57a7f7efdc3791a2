/** The gateway's web hooks: texts that come in, and receipts of those that went out. */
import { createRoute } from "@hono/zod-openapi";
import type { Context } from "hono";
import { z } from "zod";
import { FairId, StallId } from "../../../model/basics/ids.ts";
import type { GatewayMapping } from "../../../model/fair/gateway.ts";
import { InboundText } from "../../../model/orders/chat.ts";
import { answerBody, type Received, readReceipts, readTexts } from "../../../texting/mapping/inbound.ts";
import { readSender } from "../../../texting/senders.ts";
import { SIGNATURE_HEADER } from "../../../texting/signing/signature.ts";
import { stopHash, stopKeyOf } from "../../../texting/stop-hash.ts";
import { forGateway } from "../../doors/doors.ts";
import { keysOf } from "../../doors/guard.ts";
import { receivedHook } from "../../doors/web-hook.ts";
import type { App } from "../../requests/env.ts";
import { fairOf, stallOf } from "../../requests/objects.ts";
import { invalid, type ProblemResponse, problem, refusal } from "../../requests/problems.ts";
import { fairPath, json, newRouter, problems } from "../../requests/router.ts";
import { type TextPath, takeIn } from "./take-in.ts";

const Taken = z.strictObject({ taken: z.boolean() }).meta({ id: "TextTaken" });

const inbound = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/texts",
  summary: `An inbound text as the fair's gateway mapping says; without one: plain JSON, with ${SIGNATURE_HEADER}: sha256=<hex of HMAC-SHA-256 over the body>`,
  tags: ["gateway"],
  ...forGateway,
  request: {
    params: fairPath,
    body: {
      required: true,
      content: {
        "application/json": { schema: InboundText },
        "application/x-www-form-urlencoded": { schema: z.record(z.string(), z.string()) },
      },
    },
  },
  responses: {
    200: json(Taken, "Taken in, or taken in before; replies follow as texts, or are in the answer"),
    ...problems,
  },
});

const receipts = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/receipts",
  summary: "What became of texts that were sent, as the fair's gateway mapping says",
  tags: ["gateway"],
  ...forGateway,
  request: { params: fairPath },
  responses: { 200: json(Taken, "Taken in"), ...problems },
});

type Ctx = Context<App>;

const noSuchFair = (c: Ctx, fair: string): ProblemResponse =>
  problem(c, "no-such-fair", [
    404,
    "No such fair",
    `There is no fair "${fair}" with a stall that takes texts.`,
  ]);

const unreadable = (c: Ctx, part: "inbound" | "receipts", field: string): ProblemResponse =>
  invalid(c, [
    {
      pointer: `#/${part}/${field}`,
      detail: "this place of the gateway mapping finds nothing in what was sent",
    },
  ]);

/** Takes one text in. Null: it cannot be answered, or was answered long ago. */
async function received(c: Ctx, fair: FairId, mapping: GatewayMapping, text: Received) {
  const from = readSender(text.from, mapping.country);
  // A short code or a name is a machine or a campaign: answering one could go on for ever.
  if (from.type !== "phone") return null;
  const path: TextPath = {
    fair: fairOf(c, fair),
    stall: (stall) => stallOf(c, { fair, stall }),
    opaqueId: (of) => keysOf(c).opaqueId(of),
    stopHash: async (phone) => stopHash(await keysOf(c).opaqueId(stopKeyOf(fair)), phone),
  };
  const { id, to, text: said } = text;
  return takeIn(path, fair, mapping.inbound.answer.reply !== undefined, {
    id,
    phone: from.phone,
    to,
    text: said,
  });
}

/** The fair of the address, or null if it cannot be a fair's name. */
const namedFair = (c: Ctx): FairId | null => FairId.safeParse(c.req.param("fair")).data ?? null;

export const textRoutes = newRouter();
// The body is the gateway's own: it is read by the mapping, not by a schema.
textRoutes.openAPIRegistry.registerPath(inbound);
textRoutes.openAPIRegistry.registerPath(receipts);

textRoutes.post("/v1/fairs/:fair/texts", async (c) => {
  const fair = namedFair(c);
  if (fair === null) return noSuchFair(c, c.req.param("fair"));
  const hook = await receivedHook(c, fair);
  if (!hook.ok) return hook.refusal;
  const { mapping, body } = hook.value;
  const read = readTexts(mapping.inbound, body);
  if (!read.ok) return unreadable(c, "inbound", read.refusal.field);
  const replies: string[] = [];
  for (const text of read.value) {
    const answer = await received(c, fair, mapping, text);
    if (answer === "nobody") return noSuchFair(c, fair);
    if (answer === null) continue;
    if (!answer.ok) return refusal(c, answer.refusal);
    replies.push(...answer.value.replies);
  }
  const { status, contentType } = mapping.inbound.answer;
  if (status === 204) return c.body(null, 204);
  const said = answerBody(mapping.inbound, replies);
  return new Response(said, {
    status,
    headers: { "Content-Type": contentType, "Cache-Control": "no-store" },
  });
});

textRoutes.post("/v1/fairs/:fair/receipts", async (c) => {
  const fair = namedFair(c);
  if (fair === null) return noSuchFair(c, c.req.param("fair"));
  const hook = await receivedHook(c, fair);
  if (!hook.ok) return hook.refusal;
  const { receipts: mapping } = hook.value.mapping;
  if (mapping === undefined) return unreadable(c, "receipts", "id");
  const read = readReceipts(mapping, hook.value.body, new URL(c.req.url).searchParams);
  if (!read.ok) return unreadable(c, "receipts", read.refusal.field);
  for (const { id, how } of read.value) {
    const [ofFair, name, row] = id.split(".");
    const stall = StallId.safeParse(name);
    // A receipt of a text that is not ours, or that changes nothing, is simply taken.
    if (how === "under-way" || ofFair !== fair || !stall.success || row === undefined) continue;
    await stallOf(c, { fair, stall: stall.data }).receipt(row, how);
  }
  return c.json({ taken: true }, 200);
});
