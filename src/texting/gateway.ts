/** Handing a text to the gateway. */
import type { OutboundText } from "../model/text.ts";
import { SIGNATURE_HEADER, sign } from "./signature.ts";

export type GatewaySettings = {
  readonly GATEWAY_URL?: string;
  readonly GATEWAY_SECRET?: string;
  /** The number texts are sent from. */
  readonly GATEWAY_NUMBER?: string;
};

export type Sent =
  | { readonly how: "sent" }
  | { readonly how: "later"; readonly retryAfter: number }
  | { readonly how: "refused"; readonly status: number };

const TIMEOUT = 10_000;

/** Sends one text. Never throws: a gateway that cannot be reached is a reason to try later. */
export async function sendText(settings: GatewaySettings, text: Omit<OutboundText, "from">): Promise<Sent> {
  const { GATEWAY_URL: url, GATEWAY_SECRET: secret, GATEWAY_NUMBER: from } = settings;
  if (url === undefined || secret === undefined || from === undefined) return { how: "refused", status: 0 };
  const body = JSON.stringify({ ...text, from } satisfies OutboundText);
  try {
    const response = await fetch(url, {
      method: "POST",
      headers: {
        "content-type": "application/json",
        "idempotency-key": `"${text.id}"`,
        [SIGNATURE_HEADER]: await sign(secret, body),
      },
      body,
      signal: AbortSignal.timeout(TIMEOUT),
    });
    await response.body?.cancel();
    if (response.ok) return { how: "sent" };
    const later = response.status === 429 || response.status >= 500;
    return later ? { how: "later", retryAfter: 0 } : { how: "refused", status: response.status };
  } catch {
    return { how: "later", retryAfter: 0 };
  }
}
