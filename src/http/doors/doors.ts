/**
 * Which callers each route admits, in one place: a route spreads one of these into `createRoute`. Its `security` is
 * both what the OpenAPI document says and what the guard checks before it reads the request.
 */
import type { Context, MiddlewareHandler, Next } from "hono";
import { FairId, StallId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import { SIGNATURE_HEADER } from "../../texting/signing/signature.ts";
import type { Caller } from "../requests/caller.ts";
import type { App } from "../requests/env.ts";
import { fairOf, stallOf } from "../requests/objects.ts";
import { forbidden, type ProblemResponse, pressOnly, unauthorised } from "../requests/problems.ts";
import { secretOf } from "../secrets.ts";
import { claims, customerOf, type Guarded, keysOf } from "./guard.ts";
import { bearer, sameSecret } from "./keys.ts";
import { limited, overLimit, tooOften } from "./limits.ts";

type Ctx = Context<App>;

const shown = (description: string) => ({ type: "http", scheme: "bearer", description }) as const;

/** Every kind of key there is, as the OpenAPI document names it. */
export const KEYS = {
  owner: shown("The secret of whoever owns the deployment"),
  organiser: shown("The key of a fair's organiser"),
  crew: shown("The key of a stall's crew"),
  press: shown("A key of a stall's presses: pulls, presses, spoils, counts, and nothing else"),
  customer: shown("The token that a customer's first message brought"),
  claim: shown("The claim that came with an order: opens that order"),
  gateway: {
    type: "apiKey",
    in: "header",
    name: SIGNATURE_HEADER,
    description: "The text gateway's signature, in whatever form the fair's gateway mapping says",
  },
} as const;

/** The roles that have a key of their own. */
export type Role = Exclude<keyof typeof KEYS, "gateway">;

/** The fair and stall a key must be for; planning has no address of its own and names them in the query. */
function placeOf(c: Ctx) {
  const fair = FairId.safeParse(c.req.param("fair") ?? c.req.query("fair"));
  const stall = StallId.safeParse(c.req.param("stall") ?? c.req.query("stall"));
  return { fair: fair.data ?? null, stall: stall.data ?? null };
}

/** The token's claims, if it is for this role and place; else null. */
async function callerBy(c: Ctx, role: Role, token: string): Promise<Caller | null> {
  const { fair, stall } = placeOf(c);
  if (role === "owner") return (await sameSecret(token, secretOf(c.env, "OWNER_SECRET"))) ? { role } : null;
  const keys = keysOf(c);
  if (role === "organiser") {
    const generation = fair === null ? null : await keys.organiserGeneration(fair, token);
    return generation === null ? null : { role, generation };
  }
  if (fair === null || stall === null) return null;
  switch (role) {
    case "crew":
    case "press": {
      const generation = await keys.stallGeneration(role, { fair, stall }, token);
      return generation === null ? null : { role, generation };
    }
    case "customer": {
      const customer = await customerOf(c, { fair, stall }, token);
      return customer === null ? null : { role, customer };
    }
    case "claim":
      return (await claims(c, { fair, stall }, Number(c.req.param("number")), token)) ? { role } : null;
    default:
      return role satisfies never;
  }
}

/** Each valid key has its own count, whatever its address; all other callers are counted by address. */
function tooMany(c: Ctx, role: Role | "stranger"): Promise<ProblemResponse | null> {
  if (role === "stranger") return overLimit(c, "stranger");
  const { fair, stall } = placeOf(c);
  const named = bearer(c.req.header("Authorization"))?.split(".")[1] ?? "";
  const caller = role === "owner" ? role : `${role} ${fair}/${stall} ${named}`;
  return overLimit(c, role === "customer" || role === "claim" ? "customer" : "key", caller);
}

/** The caller, if this route admits it. A key that is sent must be valid even if none is needed. */
async function shownKey(c: Ctx, roles: readonly Role[], strangers: boolean): Promise<Guarded<Caller>> {
  const header = c.req.header("Authorization");
  const token = bearer(header);
  let shown: Caller = { role: "stranger" };
  for (const role of roles) {
    if (token === null || shown.role !== "stranger") break;
    shown = (await callerBy(c, role, token)) ?? shown;
  }
  const isPress = shown.role === "stranger" && token !== null && (await callerBy(c, "press", token)) !== null;
  const over = await tooMany(c, isPress ? "press" : shown.role);
  if (over !== null) return refused(over);
  if (isPress) return refused(pressOnly(c));
  if (shown.role !== "stranger" || (header === undefined && strangers)) return ok(shown);
  return refused(token === null ? unauthorised(c) : forbidden(c));
}

/** Lets the caller in, and the route know who it is (`callerOf`). */
const guarding =
  (roles: readonly Role[], strangers: boolean): MiddlewareHandler<App> =>
  async (c, next) => {
    const shown = await shownKey(c, roles, strangers);
    if (!shown.ok) return shown.refusal;
    c.set("caller", shown.value);
    await next();
    return undefined;
  };

const named = (roles: readonly Role[]) => roles.map((role) => ({ [role]: [] as string[] }));

/** A route for callers with a key of one of these roles, for the fair and stall of the address. */
export const onlyFor = (...roles: readonly Role[]) => ({
  security: named(roles),
  middleware: guarding(roles, false),
});

/** Like onlyFor, and also for callers without a key. */
export const forAllAnd = (...roles: readonly Role[]) => ({
  security: [...named(roles), {}],
  middleware: guarding(roles, true),
});

/** A route for everybody: no key is asked for or checked. */
export const forAll = { security: [{}], middleware: limited("reader") };

/** A route for everybody that writes: an address may make fewer such calls. */
export const forAllToWrite = { security: [{}], middleware: limited("stranger") };

/** A web hook: the gateway's signature is over the body, so the route itself checks it. */
export const forGateway = { security: [{ gateway: [] as string[] }] };

/** Whether the object still accepts the caller's generation; the place is in the query and was checked. */
async function stillGood(c: Ctx, caller: Caller): Promise<boolean> {
  const { fair, stall } = placeOf(c);
  if (caller.role === "owner") return true;
  if (fair === null) return false;
  if (caller.role === "organiser") return fairOf(c, fair).admits(caller.generation);
  return (
    caller.role === "crew" && stall !== null && (await stallOf(c, { fair, stall }).admits(caller.generation))
  );
}

/** The owner last: their secret is only compared if the key fits nobody else. */
const PLANNERS = ["organiser", "crew", "owner"] as const;

/** When the running plan was begun, if there is one, and how long the longest recent one took. */
let begunAt: number | null = null;
let longestMs = 3000;
/** A plan that runs longer than those before is asked for again after this many milliseconds. */
const ASK_AGAIN_MS = 2000;
/** Each plan makes an old long one count for less. */
const FADES = 0.8;
const BUSY = "Another plan is being worked out here. The page /plan works one out in your own browser.";

/** Lets waiting requests be answered before work goes on. */
export const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** Does one plan at a time. A request that comes during a plan is refused, with the expected time of its end. */
async function oneAtATime(c: Ctx, next: Next): Promise<ProblemResponse | undefined> {
  const now = Date.now();
  if (begunAt !== null) {
    const left = longestMs - (now - begunAt);
    return tooOften(c, Math.ceil((left > 0 ? left : ASK_AGAIN_MS) / 1000), BUSY);
  }
  begunAt = now;
  try {
    await turn();
    await next();
    await turn();
  } finally {
    longestMs = Math.max(Date.now() - now, FADES * longestMs);
    begunAt = null;
  }
  return undefined;
}

async function planner(c: Ctx, next: Next): Promise<ProblemResponse | undefined> {
  const { OPEN_PLANNING } = c.env;
  let caller: string | undefined;
  if (OPEN_PLANNING === undefined || OPEN_PLANNING === "") {
    const shown = await shownKey(c, PLANNERS, false);
    if (!shown.ok) return shown.refusal;
    if (!(await stillGood(c, shown.value))) return forbidden(c);
    const { role } = shown.value;
    const { fair, stall } = placeOf(c);
    caller = role === "owner" ? role : `${role} ${fair}/${stall}`;
  }
  return (await overLimit(c, "plan", caller)) ?? oneAtATime(c, next);
}

/**
 * Planning is open to the owner, and to the organiser or crew whose fair and stall the query names (a key is signed for
 * its place, so it cannot be checked without the place). It is open to everybody if the deployment sets OPEN_PLANNING.
 */
export const forPlanners = { security: named(PLANNERS), middleware: planner };
