/** Checks that a web hook comes from the gateway, as the mapping says how. */
import type { SignedPart, Verification } from "../../model/fair/gateway.ts";
import type { Bindings } from "../bindings.ts";
import { type Incoming, messageSignatureFits } from "./message-signature.ts";
import { bytesOf, decoded, hmac, hmacFits } from "./signature.ts";

type By<B extends Verification["by"]> = Extract<Verification, { readonly by: B }>;

/** The signed text, put together in the mapping's order; null if a part is missing. */
function signedText(parts: readonly SignedPart[], joiner: string, request: Incoming): string | null {
  const values = parts.map((part): string | undefined => {
    switch (part.part) {
      case "body":
        return request.body;
      case "url":
        return request.url;
      case "method":
        return request.method;
      case "header":
        return request.headers.get(part.name);
      case "field":
        return new URLSearchParams(request.body).get(part.name) ?? undefined;
      case "fields":
        return sortedFields(request.body);
      case "words":
        return part.words;
      default:
        return part satisfies never;
    }
  });
  return values.some((value) => value === undefined) ? null : values.join(joiner);
}

function sortedFields(body: string): string {
  const fields = [...new URLSearchParams(body)];
  return fields
    .sort(([one], [other]) => (one < other ? -1 : one > other ? 1 : 0))
    .map(([name, value]) => name + value)
    .join("");
}

function inTime(time: By<"hmac">["time"], request: Incoming, now: number): boolean {
  if (time === undefined) return true;
  const said = request.headers.get(time.header) ?? "";
  if (!/^[0-9]{1,15}$/.test(said)) return false;
  const at = Number(said) * (time.unit === "seconds" ? 1000 : 1);
  return Math.abs(now - at) <= time.toleranceSeconds * 1000;
}

async function hmacVerified(
  rule: By<"hmac">,
  request: Incoming,
  secret: string,
  now: number,
): Promise<boolean> {
  const header = request.headers.get(rule.header);
  if (header === undefined || !header.startsWith(rule.prefix) || !inTime(rule.time, request, now))
    return false;
  const mac = decoded(header.slice(rule.prefix.length), rule.encoding);
  const said = signedText(rule.parts, rule.joiner, request);
  if (mac === null || said === null) return false;
  return hmacFits(bytesOf(secret), rule.hash, bytesOf(said), mac);
}

/** Compares MACs under a fresh key, so that the time taken reveals nothing. */
async function sameText(given: string, kept: string): Promise<boolean> {
  const key = crypto.getRandomValues(new Uint8Array(32));
  return hmacFits(key, "SHA-256", bytesOf(kept), await hmac(key, "SHA-256", bytesOf(given)));
}

/** What a verification needs beside the request. `loopback`: only this computer can reach the worker. */
export type Surroundings = {
  readonly bindings: Bindings;
  readonly loopback: boolean;
  readonly now: number;
};

/** Whether the request is the gateway's. Without its secret nothing is verified. */
export async function verified(
  rule: Verification,
  request: Incoming,
  { bindings, loopback, now }: Surroundings,
): Promise<boolean> {
  if (rule.by === "none") return loopback;
  const secret = bindings(rule.secret);
  if (secret === undefined) return false;
  switch (rule.by) {
    case "hmac":
      return hmacVerified(rule, request, secret, now);
    case "header":
      return sameText(request.headers.get(rule.header) ?? "", rule.prefix + secret);
    case "message-signature": {
      const bytes = decoded(secret, "base64");
      if (bytes === null) return false;
      const { algorithm, keyId } = rule;
      return messageSignatureFits(request, { algorithm, bytes, keyId }, rule, now);
    }
    default:
      return rule satisfies never;
  }
}
