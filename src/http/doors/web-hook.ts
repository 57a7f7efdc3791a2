/** A gateway's web hook at the front door: its mapping, and whether the request is really the gateway's. */
import type { Context } from "hono";
import type { GatewayRow } from "../../fair/gateway-rows.ts";
import type { FairId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import { bindingsOf } from "../../texting/bindings.ts";
import type { Incoming } from "../../texting/signing/message-signature.ts";
import { SIGNATURE_HEADER } from "../../texting/signing/signature.ts";
import { unsignedParts } from "../../texting/signing/unsigned.ts";
import { verified } from "../../texting/signing/verify.ts";
import { log } from "../../tracing/log.ts";
import type { App } from "../requests/env.ts";
import { fairOf } from "../requests/objects.ts";
import { type ProblemResponse, problem } from "../requests/problems.ts";
import type { Guarded } from "./guard.ts";
import { overLimit } from "./limits.ts";

/** How long an isolate trusts its copy of a fair's gateway, in milliseconds. */
const KNOWN_FOR = 5000;
const MOST_KNOWN = 500;
const known = new Map<FairId, { readonly row: GatewayRow; readonly at: number }>();

/** The fair's gateway mapping, from a copy that is renewed now and then instead of for every text. */
export async function gatewayOf(c: Context<App>, fair: FairId): Promise<GatewayRow> {
  const before = known.get(fair);
  const now = Date.now();
  if (before !== undefined && now - before.at < KNOWN_FOR) return before.row;
  const row = await fairOf(c, fair).gateway();
  keep(fair, row);
  return row;
}

/** Keeps a mapping that the fair just sent. */
export function keep(fair: FairId, row: GatewayRow): void {
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(fair, { row, at: Date.now() });
}

/** Whether only this computer can reach the worker, as its starter says. */
export const onLoopback = (c: Context<App>): boolean => c.env.LOOPBACK === "only";

async function incoming(c: Context<App>): Promise<Incoming> {
  const headers = new Map<string, string>();
  c.req.raw.headers.forEach((value, name) => {
    headers.set(name, value);
  });
  return { method: c.req.method, url: c.req.url, headers, body: await c.req.text() };
}

export type Hook = { readonly mapping: GatewayRow["mapping"]; readonly body: string };

/** Adds the WWW-Authenticate header that a 401 must have (RFC 9110, section 11.6.1). */
function unsignedBy(response: ProblemResponse): ProblemResponse {
  response.headers.set("WWW-Authenticate", SIGNATURE_HEADER);
  return response;
}

const badSignature = (c: Context<App>): ProblemResponse =>
  unsignedBy(
    problem(c, "bad-signature", [
      401,
      "Bad signature",
      "The signature does not fit what was sent. Nothing was taken in.",
    ]),
  );

// Set while the worker ran for this computer alone, and started for others since.
const unsigned = (c: Context<App>): ProblemResponse =>
  unsignedBy(
    problem(c, "unsigned-texts", [
      401,
      "Unsigned texts are refused here",
      "The gateway mapping takes texts unsigned, and this worker can be reached from elsewhere. Set a mapping that verifies them.",
    ]),
  );

// Saved before such mappings were refused.
const partlySigned = (c: Context<App>, open: readonly string[]): ProblemResponse => {
  const detail = `The fair's gateway mapping uses what is not signed: ${open.join(", ")}. Save a mapping that signs all of it.`;
  return unsignedBy(problem(c, "partly-signed", [401, "The signature covers a part only", detail]));
};

/**
 * The body of a web hook that is the gateway's, with the mapping it fits. A signature that does not fit is counted
 * by the fair, but a mapping that was changed a moment ago is tried before that.
 */
export async function receivedHook(c: Context<App>, fair: FairId): Promise<Guarded<Hook>> {
  const request = await incoming(c);
  const surroundings = { bindings: bindingsOf(c.env), loopback: onLoopback(c), now: Date.now() };
  let row = await gatewayOf(c, fair);
  for (;;) {
    const { mapping, version } = row;
    const open = unsignedParts(mapping);
    if (open.length === 0 && (await verified(mapping.verification, request, surroundings))) {
      return ok({ mapping, body: request.body });
    }
    const over = await overLimit(c, "stranger");
    if (over !== null) return refused(over);
    const newer = await fairOf(c, fair).badSignature(version);
    if (newer === null) {
      if (open.length > 0) return refused(partlySigned(c, open));
      const unchecked = mapping.verification.by === "none";
      if (unchecked)
        log("error", "unsigned texts are refused, because others can reach this worker", { fair });
      return refused(unchecked ? unsigned(c) : badSignature(c));
    }
    keep(fair, newer);
    row = newer;
  }
}
