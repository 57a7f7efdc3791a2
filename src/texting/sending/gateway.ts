/** Handing a text to the gateway. */
import type { OutboundMapping } from "../../model/fair/gateway.ts";
import type { Bindings } from "../bindings.ts";
import { mayGo, type PinnedHosts } from "../mapping/hosts.ts";
import { canSend } from "../mapping/mapping-faults.ts";
import { type Outgoing, requestFor } from "../mapping/outgoing.ts";
import { retryAfter } from "./retry-after.ts";

export type Sent =
  | { readonly type: "sent" }
  /** `rest`: the gateway asked to be left alone that many milliseconds, by every text. */
  | { readonly type: "later"; readonly retryAfter: number; readonly rest: number }
  /** `why`: the fault of the mapping, if the gateway was not called at all. */
  | { readonly type: "refused"; readonly status: number; readonly why?: string };

/** The bindings and hosts that a deployment lets a mapping use. */
export type Deployment = { readonly bindings: Bindings; readonly hosts: PinnedHosts };

/** A text that is not handed on, and why. */
export const unsent = (why: string): Sent => ({ type: "refused", status: 0, why });

const TIMEOUT = 10_000;

/** Statuses that a later try may change: RFC 9110 sections 15.5.9 and 15.6, RFC 8470, RFC 6585. */
const passing = (status: number): boolean =>
  status === 408 || status === 425 || status === 429 || status >= 500;

/** Sends one text. Never throws: a gateway that cannot be reached is a reason to try later. */
export async function sendText(
  mapping: OutboundMapping,
  text: Outgoing,
  { bindings, hosts }: Deployment,
): Promise<Sent> {
  if (!canSend(mapping, bindings))
    return unsent("a binding of the gateway mapping is missing or not for fairs");
  const { url, method, headers, body } = await requestFor(mapping, text, bindings);
  // A mapping saved before the owner pinned hosts may name another one.
  if (!mayGo(url, hosts))
    return unsent("the gateway mapping sends to a host that GATEWAY_HOSTS does not list");
  try {
    const response = await fetch(url, {
      method,
      headers,
      body,
      redirect: "manual",
      signal: AbortSignal.timeout(TIMEOUT),
    });
    await response.body?.cancel();
    if (response.ok) return { type: "sent" };
    if (!passing(response.status)) return { type: "refused", status: response.status };
    const wait = retryAfter(response.headers.get("Retry-After"), Date.now());
    return {
      type: "later",
      retryAfter: wait,
      rest: response.status === 429 || response.status === 503 ? wait : 0,
    };
  } catch {
    return { type: "later", retryAfter: 0, rest: 0 };
  }
}
