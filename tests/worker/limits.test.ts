/** The platform's own limiters, as they are bound in wrangler.toml: here the numbers there are the ones that count. */
import { env } from "cloudflare:workers";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { app } from "../../src/http/app.ts";

/** Calls a minute of one address without a good key, as wrangler.toml has it. */
const STRANGERS = 600;

// A line for each refusal of a flood would drown everything else.
beforeEach(() => void vi.spyOn(console, "info").mockReturnValue());
afterEach(() => void vi.restoreAllMocks());

const ask = async (address: string): Promise<Response> =>
  app.request(
    "https://stallpress.test/v1/fairs/brackenfield/stalls/tern/queue",
    { headers: { "cf-connecting-ip": address, authorization: "Bearer crew.1.made-up" } },
    env,
  );

it("are bound, each of them", () => {
  for (const limiter of [
    "KEY_LIMITER",
    "CUSTOMER_LIMITER",
    "READER_LIMITER",
    "STRANGER_LIMITER",
    "PLAN_LIMITER",
  ] as const)
    expect([limiter, typeof env[limiter]?.limit]).toEqual([limiter, "function"]);
});

it("turn away a flood from one address, say for how long, and let every other address through", async () => {
  let answer = await ask("203.0.113.9");
  let asked = 1;
  // The platform counts by the minute by the clock: a flood may meet the end of one.
  for (; answer.status === 403 && asked <= 2 * STRANGERS; asked++) answer = await ask("203.0.113.9");
  expect(asked).toBeGreaterThan(STRANGERS);
  expect([answer.status, answer.headers.get("retry-after")]).toEqual([429, "60"]);
  expect(await answer.json()).toMatchObject({ type: "/problems/too-often", status: 429 });
  expect((await ask("203.0.113.10")).status).toBe(403);
}, 60_000);
