/** The means to check a caller: the deployment's keys, tokens and claims, and the write's own key. */

import type { Context } from "hono";
import { CustomerId, type FairId, type StallId } from "../../model/basics/ids.ts";
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import { base64Of } from "../../pictures/base64.ts";
import { claimName, tokenName } from "../../stall/storage/issued.ts";
import type { Caller } from "../requests/caller.ts";
import type { App } from "../requests/env.ts";
import { stallOf } from "../requests/objects.ts";
import { type ProblemResponse, problem } from "../requests/problems.ts";
import { secretOf } from "../secrets.ts";
import { fingerprint, issuedHash, Keys } from "./keys.ts";
import { networkOf } from "./networks.ts";

type Ctx = Context<App>;

/** A guard's result, or the response that ends the request. */
export type Guarded<T> = Result<T, ProblemResponse>;

let made: { readonly secret: string; readonly keys: Keys } | null = null;

/** The deployment's keys. One secret an isolate, so they are made once. */
export function keysOf(c: Ctx): Keys {
  const secret = secretOf(c.env, "KEY_SECRET");
  if (made?.secret !== secret) made = { secret, keys: new Keys(secret) };
  return made.keys;
}

/** The caller of this route, found by the route's door. */
export function callerOf(c: Ctx): Caller {
  const caller = c.get("caller");
  if (caller === undefined) throw new Error("a route asks for its caller and has no door that checks keys");
  return caller;
}

/** The generation of the key that the organiser or the crew has shown. */
export function generationOf(c: Ctx): number {
  const caller = callerOf(c);
  if (caller.role !== "organiser" && caller.role !== "crew" && caller.role !== "press")
    throw new Error(`a route for the organiser or the crew was reached as ${caller.role}`);
  return caller.generation;
}

type Place = { readonly fair: FairId; readonly stall: StallId };

/** Whose customer token it is: one of this place, or of the place from which the stall came; else null. */
export async function customerOf(c: Ctx, place: Place, token: string): Promise<CustomerId | null> {
  const here = await keysOf(c).customerOf(place.fair, place.stall, token);
  if (here !== null) return here;
  const customer = CustomerId.safeParse(/^customer\.([^.]+)\.[\w-]{43}$/.exec(token)?.[1]);
  if (!customer.success) return null;
  const isKnown = await stallOf(c, place).wasIssued(tokenName(customer.data), await issuedHash(token));
  return isKnown ? customer.data : null;
}

/** Whether a claim opens this order, given out here or at the stall's earlier place. */
export async function claims(c: Ctx, place: Place, number: number, token: string): Promise<boolean> {
  if (await keysOf(c).claims(place.fair, place.stall, number, token)) return true;
  if (!/^claim\.\d{1,9}\.[\w-]{43}$/.test(token) || token.split(".")[1] !== String(number)) return false;
  return stallOf(c, place).wasIssued(claimName(number), await issuedHash(token));
}

// A structured-field string in quotes, as the draft has it, or the bare key as many clients send it.
const IDEMPOTENCY_KEY = /^(?:"([\x20-\x21\x23-\x5b\x5d-\x7e]{8,100})"|([A-Za-z0-9_.:-]{8,100}))$/;

/**
 * The sender of a write without a key: the keyed hash of the address. So nobody elsewhere gets the answer to an order
 * by guessing its Idempotency-Key.
 */
async function strangerAt(c: Ctx): Promise<string> {
  const network = networkOf(c.req.header("CF-Connecting-IP"));
  return `stranger ${await keysOf(c).opaqueId(`address/${network}`)}`;
}

/** The write's own key with the body's fingerprint; a write without one could happen twice. */
export async function writeKey(c: Ctx, role: string): Promise<Guarded<WriteKey>> {
  const header = c.req.header("Idempotency-Key");
  const match = header === undefined ? null : IDEMPOTENCY_KEY.exec(header);
  const key = match?.[1] ?? match?.[2];
  if (key === undefined) {
    const detail =
      header === undefined
        ? "Send a new Idempotency-Key with each write and the same one when you repeat it."
        : "Idempotency-Key must be 8 to 100 plain characters, in double quotes or bare.";
    return refused(problem(c, "idempotency-key-needed", [400, "Idempotency-Key is needed", detail]));
  }
  const type = c.req.header("Content-Type") ?? "";
  // A picture's bytes are not text: decoded as text, two pictures could look the same.
  const said = type.startsWith("image/")
    ? base64Of(new Uint8Array(await c.req.arrayBuffer()))
    : await c.req.text();
  return ok({
    scope: `${role === "stranger" ? await strangerAt(c) : role} ${c.req.method} ${c.req.path} ${key}`,
    fingerprint: await fingerprint(`${type}\n${said}`),
  });
}
