/** Inbound texts from the gateway. */
import { createRoute } from "@hono/zod-openapi";
import { z } from "zod";
import { InboundText } from "../../model/text.ts";
import { SIGNATURE_HEADER, verify } from "../../texting/signature.ts";
import { settled } from "../crew.ts";
import { keysOf } from "../guard.ts";
import { problem } from "../problems.ts";
import { body, fairPath, json, newRouter, problems } from "../router.ts";
import { stallOf } from "../stalls.ts";

const Taken = z.strictObject({ taken: z.boolean() }).meta({ id: "TextTaken" });

const inbound = createRoute({
  method: "post",
  path: "/v1/fairs/{fair}/texts",
  summary: `An inbound text, signed: ${SIGNATURE_HEADER}: sha256=<hex of HMAC-SHA-256 over the body>`,
  tags: ["gateway"],
  request: { params: fairPath, body: body(InboundText) },
  responses: { 200: json(Taken, "Taken in, or taken in before; replies follow as texts"), ...problems },
});

/** What a sender is asked who could mean any of several stalls. */
const whichStall = (stalls: readonly { readonly number: number; readonly name: string }[]): string =>
  `Which stall? Reply with its number. ${stalls.map(({ number, name }) => `${number} ${name}`).join(" ")}`;

export const textRoutes = newRouter().openapi(inbound, async (c) => {
  const { fair } = c.req.valid("param");
  const secret = c.env.GATEWAY_SECRET;
  if (secret === undefined || !(await verify(secret, await c.req.text(), c.req.header(SIGNATURE_HEADER)))) {
    return problem(c, "bad-signature", [
      401,
      "Bad signature",
      "The text's signature does not fit its body. Nothing was taken in.",
    ]);
  }
  const text = c.req.valid("json");
  const keys = keysOf(c);
  const message = await keys.opaqueId(`message/${fair}/${text.id}`);
  const sender = await keys.opaqueId(`sender/${fair}/${text.from}`);
  const route = await c.env.FAIR.getByName(fair).route(message, sender, text.text);
  if (route.to === "nobody") {
    return problem(c, "no-such-fair", [
      404,
      "No such fair",
      `There is no fair "${fair}" with a stall that takes texts.`,
    ]);
  }
  // A sender who has not said which stall is answered by the first one, on behalf of all.
  const stall = route.to === "stall" ? route.stall : route.stalls[0]?.stall;
  if (stall === undefined) throw new Error(`fair ${fair} asks which stall without naming one`);
  const customer = await keys.opaqueId(`customer/${fair}/${stall}/${text.from}`);
  const spoken = {
    id: message,
    text: route.to === "stall" ? route.text : text.text,
    customer,
    phone: text.from,
  };
  const object = stallOf(c, { fair, stall });
  const answer =
    route.to === "stall"
      ? settled(c, await object.chat(spoken))
      : settled(c, await object.answer(spoken, whichStall(route.stalls)));
  return answer.pass ? c.json({ taken: true }, 200) : answer.response;
});
