/** The request that hands a text to the gateway, made from the mapping's template. */
import type { OutboundMapping } from "../../model/fair/gateway.ts";
import type { Bindings } from "../bindings.ts";
import { digitsOf } from "../numbers.ts";
import { bytesOf, encoded, hmac } from "../signing/signature.ts";
import { filled, filledJson, type Slots } from "../template.ts";

/** A text to send. */
export type Outgoing = {
  /** The same however often it is tried: the gateway's way to know a repeat. */
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly text: string;
};

export type OutgoingRequest = {
  readonly url: string;
  readonly method: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
};

/** The slots of a text, and those of bindings: {binding:NAME}, and {basic:USER:PASSWORD} as RFC 7617 has it. */
export function slotsFor(text: Outgoing, bindings: Bindings): Slots {
  return (slot) => {
    const [kind = "", first = "", second = ""] = slot.split(":");
    switch (kind) {
      case "id":
      case "from":
      case "to":
      case "text":
        return text[kind];
      case "from-digits":
        return digitsOf(text.from);
      case "to-digits":
        return digitsOf(text.to);
      case "binding":
        return bindings(first);
      case "basic": {
        const [user, password] = [bindings(first), bindings(second)];
        if (user === undefined || password === undefined) return undefined;
        return encoded(bytesOf(`${user}:${password}`), "base64");
      }
      default:
        return undefined;
    }
  };
}

/** Slots of an address are percent-encoded, but a binding at its very start is the address itself. */
function addressOf(template: string, slots: Slots): string {
  const whole = /^\{binding:[A-Z0-9_]+\}/.exec(template)?.[0] ?? "";
  return filled(whole, slots) + filled(template.slice(whole.length), slots, encodeURIComponent);
}

/** The whole request. */
export async function requestFor(
  mapping: OutboundMapping,
  text: Outgoing,
  bindings: Bindings,
): Promise<OutgoingRequest> {
  const slots = slotsFor(text, bindings);
  const { body, signature } = mapping;
  const said =
    body.as === "json"
      ? JSON.stringify(filledJson(body.value, slots))
      : new URLSearchParams(
          Object.entries(body.fields).map(([name, value]) => [name, filled(value, slots)]),
        ).toString();
  const headers: Record<string, string> = {
    "content-type": body.as === "json" ? "application/json" : "application/x-www-form-urlencoded",
  };
  for (const [name, value] of Object.entries(mapping.headers)) headers[name] = filled(value, slots);
  if (signature !== null) {
    const secret = bindings(signature.secret);
    if (secret === undefined) throw new Error(`the binding ${signature.secret} is missing`);
    const mac = await hmac(bytesOf(secret), signature.hash, bytesOf(said));
    headers[signature.header] = signature.prefix + encoded(mac, signature.encoding);
  }
  return { url: addressOf(mapping.url, slots), method: mapping.method, headers, body: said };
}
