/** Who is calling: keys are checked by their signature before any object is asked. */

import type { Context } from "hono";
import { CustomerId, type FairId, type StallId } from "../../model/basics/ids.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import { base64Of } from "../../pictures/base64.ts";
import { claimName, tokenName } from "../../stall/storage/issued.ts";
import type { App } from "../requests/env.ts";
import { stallOf } from "../requests/objects.ts";
import { forbidden, type ProblemResponse, problem, unauthorised } from "../requests/problems.ts";
import { secretOf } from "../secrets.ts";
import { bearer, fingerprint, issuedHash, Keys } from "./keys.ts";
import { networkOf } from "./networks.ts";

type Ctx = Context<App>;

/** What a guard gives: what it found, or the response that ends the request. */
export type Guarded<T> =
  | { readonly pass: true; readonly value: T }
  | { readonly pass: false; readonly response: ProblemResponse };

const pass = <T>(value: T): Guarded<T> => ({ pass: true, value });
const stop = (response: ProblemResponse): Guarded<never> => ({ pass: false, response });

let made: { readonly secret: string; readonly keys: Keys } | null = null;

/** The deployment's keys. One secret an isolate, so they are made once. */
export function keysOf(c: Ctx): Keys {
  const secret = secretOf(c.env, "KEY_SECRET");
  if (made?.secret !== secret) made = { secret, keys: new Keys(secret) };
  return made.keys;
}

/** Passes an organiser key of this fair; gives its generation, which the fair still has to accept. */
export async function organiser(c: Ctx, fair: FairId): Promise<Guarded<number>> {
  const token = bearer(c.req.header("Authorization"));
  if (token === null) return stop(unauthorised(c));
  const generation = await keysOf(c).organiserGeneration(fair, token);
  return generation === null ? stop(forbidden(c)) : pass(generation);
}

/** Passes a crew key of this stall; gives its generation, which the stall still has to accept. */
export async function crew(c: Ctx, fair: FairId, stall: StallId): Promise<Guarded<number>> {
  const token = bearer(c.req.header("Authorization"));
  if (token === null) return stop(unauthorised(c));
  const generation = await keysOf(c).crewGeneration(fair, stall, token);
  return generation === null ? stop(forbidden(c)) : pass(generation);
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

/** Whether a claim opens this order, given out here or where the stall was before. */
export async function claims(c: Ctx, place: Place, number: number, token: string): Promise<boolean> {
  if (await keysOf(c).claims(place.fair, place.stall, number, token)) return true;
  if (!/^claim\.\d{1,9}\.[\w-]{43}$/.test(token) || token.split(".")[1] !== String(number)) return false;
  return stallOf(c, place).wasIssued(claimName(number), await issuedHash(token));
}

export type Caller =
  | { readonly role: "crew"; readonly generation: number }
  | { readonly role: "customer"; readonly customer: CustomerId }
  | { readonly role: "stranger" };

/** Crew, a known customer, or nobody in particular; a key that is shown must be good. */
export async function caller(c: Ctx, fair: FairId, stall: StallId): Promise<Guarded<Caller>> {
  const header = c.req.header("Authorization");
  if (header === undefined) return pass({ role: "stranger" });
  const token = bearer(header);
  if (token === null) return stop(unauthorised(c));
  const keys = keysOf(c);
  const generation = await keys.crewGeneration(fair, stall, token);
  if (generation !== null) return pass({ role: "crew", generation });
  const customer = await customerOf(c, { fair, stall }, token);
  return customer === null ? stop(forbidden(c)) : pass({ role: "customer", customer });
}

// A structured-field string in quotes, as the draft has it, or the bare key as many clients send it.
const IDEMPOTENCY_KEY = /^(?:"([\x20-\x21\x23-\x5b\x5d-\x7e]{8,100})"|([A-Za-z0-9_.:-]{8,100}))$/;

/**
 * Who a write without a key is from, as far as its Idempotency-Key goes: the keyed hash of the address, so that nobody
 * elsewhere gets the answer to somebody's order by guessing its key.
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
    return stop(problem(c, "idempotency-key-needed", [400, "Idempotency-Key is needed", detail]));
  }
  const type = c.req.header("Content-Type") ?? "";
  // A picture's bytes are no text: read as one, two pictures could look the same.
  const said = type.startsWith("image/")
    ? base64Of(new Uint8Array(await c.req.arrayBuffer()))
    : await c.req.text();
  return pass({
    scope: `${role === "stranger" ? await strangerAt(c) : role} ${c.req.method} ${c.req.path} ${key}`,
    fingerprint: await fingerprint(`${type}\n${said}`),
  });
}
