/**
 * Rate limits. The numbers are in wrangler.toml; the platform's limiter counts if it is bound, else a bucket in memory.
 * They are for floods: a whole fair behind one carrier's address stays far below.
 */
import type { Context, MiddlewareHandler } from "hono";
import type { App, Env } from "../requests/env.ts";
import { type ProblemResponse, problem } from "../requests/problems.ts";
import { Buckets } from "./buckets.ts";
import { networkOf } from "./networks.ts";

/**
 * The kinds of caller that are counted: a key of the fair's people, a customer's token or claim, an address that reads
 * public pages, an address that writes without a valid key, and a caller who plans.
 */
export type Counted = "key" | "customer" | "reader" | "stranger" | "plan";

const LIMITERS = {
  key: { limiter: "KEY_LIMITER", perMinute: "LIMIT_KEY" },
  customer: { limiter: "CUSTOMER_LIMITER", perMinute: "LIMIT_CUSTOMER" },
  reader: { limiter: "READER_LIMITER", perMinute: "LIMIT_READER" },
  stranger: { limiter: "STRANGER_LIMITER", perMinute: "LIMIT_STRANGER" },
  plan: { limiter: "PLAN_LIMITER", perMinute: "LIMIT_PLAN" },
} as const satisfies Readonly<Record<Counted, { limiter: keyof Env; perMinute: keyof Env }>>;

/** The platform's limiter says yes or no; its period is a minute. */
const PLATFORM_SECONDS = 60;
const buckets = new Buckets();

/** Seconds the caller has to wait; 0 if the call may go on. Without limits set, nobody is counted. */
async function waitFor(env: Env, counted: Counted, caller: string): Promise<number> {
  const { limiter, perMinute } = LIMITERS[counted];
  const platform = env[limiter];
  if (platform !== undefined) return (await platform.limit({ key: caller })).success ? 0 : PLATFORM_SECONDS;
  const most = Number(env[perMinute]);
  return most > 0 ? buckets.take(`${counted} ${caller}`, most, Date.now()) : 0;
}

const HOUR = 3_600_000;
const newcomers = new Buckets();

/**
 * Counts a first message on the web, by stall and address: it makes a customer whose conversation is kept, so a flood of
 * them fills the store. Counted here, since the platform's limiter knows no hours; the response that ends the call, or null.
 */
export function tooManyNewcomers(c: Context<App>, stall: string): ProblemResponse | null {
  const most = Number(c.env.NEWCOMERS_PER_HOUR);
  if (!(most > 0)) return null;
  const caller = `${stall} ${networkOf(c.req.header("CF-Connecting-IP"))}`;
  const seconds = newcomers.take(caller, most, Date.now(), HOUR);
  return seconds === 0 ? null : tooOften(c, seconds);
}

/** A 429 with how long to wait, in words and as Retry-After. */
export const tooOften = (
  c: Context<App>,
  seconds: number,
  why = "This is asked more often than the stall can answer.",
): ProblemResponse => {
  const detail = `${why} Wait ${seconds} seconds and send it again.`;
  const response = problem(c, "too-often", [429, "Too often", detail]);
  response.headers.set("Retry-After", String(seconds));
  return response;
};

/** Counts a call; returns the response that ends it if there were too many, else null. */
export async function overLimit(
  c: Context<App>,
  counted: Counted,
  caller: string = networkOf(c.req.header("CF-Connecting-IP")),
): Promise<ProblemResponse | null> {
  const seconds = await waitFor(c.env, counted, caller);
  return seconds === 0 ? null : tooOften(c, seconds);
}

/** Counts every call of a route by its address. */
export const limited =
  (counted: "reader" | "stranger"): MiddlewareHandler<App> =>
  async (c, next) => {
    const over = await overLimit(c, counted);
    if (over !== null) return over;
    await next();
    return undefined;
  };
