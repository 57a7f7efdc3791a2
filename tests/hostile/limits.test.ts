/** Floods are turned away; a fair is not. */
import { beforeAll, describe, expect, it } from "vitest";
import { unstable_readConfig } from "wrangler";
import { Buckets } from "../../src/http/doors/buckets.ts";
import { networkOf } from "../../src/http/doors/networks.ts";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import { at, example } from "../http/running.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";

type Config = {
  readonly vars: Readonly<Record<string, string>>;
  readonly ratelimits: readonly {
    readonly name: string;
    readonly namespace_id: string;
    readonly simple: { readonly limit: number; readonly period: number };
  }[];
};
const config = unstable_readConfig({ config: "wrangler.toml" }) as unknown as Config; // as the file is written
const LIMITS = Object.fromEntries(Object.entries(config.vars).filter(([name]) => name.startsWith("LIMIT_")));
/** Few, so that a flood is over soon. */
const STRANGERS = 30;
const ADDRESS = { "cf-connecting-ip": "203.0.113.7" };
const CARRIER = { "cf-connecting-ip": "203.0.113.8" };

let startWorker: Awaited<ReturnType<typeof bundled>>;
let worker: InProcess;
let base: string;
let crew: Client;
let count = 0;

beforeAll(async () => {
  startWorker = await bundled();
  worker = startWorker({ ...LIMITS, LIMIT_STRANGER: String(STRANGERS) });
  const fair = await example(worker);
  base = at(fair);
  crew = worker.anyone.withKey(fair.stalls[0]?.key ?? "");
}, BUNDLING);

const first = (headers: Readonly<Record<string, string>>, by = worker, stall = base) =>
  by.anyone.post<Problem & { customer: string }>(
    `${stall}/chat`,
    { id: `a-first-message-number-${++count}`, text: "menu" },
    headers,
  );

describe("a bucket", () => {
  it("lets a minute's calls through at once, then one each time it fills by one", () => {
    const buckets = new Buckets();
    const now = 1_000_000;
    for (let n = 0; n < 60; n++) expect(buckets.take("a", 60, now)).toBe(0);
    expect(buckets.take("a", 60, now)).toBe(1);
    expect(buckets.take("b", 60, now)).toBe(0);
    expect(buckets.take("a", 60, now + 1000)).toBe(0);
    expect(buckets.take("a", 60, now + 1000)).toBe(1);
    expect(buckets.take("slow", 1, now)).toBe(0);
    expect(buckets.take("slow", 1, now)).toBe(60);
    for (let n = 0; n < 60; n++) expect(buckets.take("a", 60, now + 61_000)).toBe(0);
    expect(buckets.take("a", 60, now + 61_000)).toBeGreaterThan(0);
  });
  it("locks nobody out when the clock is set back, and forgets who has been quiet", () => {
    const buckets = new Buckets();
    for (let n = 0; n < 10; n++) buckets.take("a", 10, 10_000_000);
    expect(buckets.take("a", 10, 1_000_000)).toBe(0);
    for (let n = 0; n < 50_000; n++) buckets.take(`caller ${n}`, 10, 1_010_000);
    for (let n = 0; n < 9; n++) expect(buckets.take("caller 49999", 10, 1_010_000)).toBe(0);
    expect(buckets.take("caller 49999", 10, 1_010_000)).toBe(6);
    for (let n = 0; n < 10; n++) expect(buckets.take("caller 0", 10, 1_010_000)).toBe(0);
  });
});

describe("what is counted of an address", () => {
  it.each([
    ["203.0.113.7", "203.0.113.7"],
    ["2001:db8:1:2:3:4:5:6", "2001:db8:1:2"],
    ["2001:0db8:0001:0002::1", "2001:db8:1:2"],
    ["2001:DB8::1", "2001:db8:0:0"],
    ["::1", "0:0:0:0"],
    [undefined, "unknown"],
  ])("of %s it is %s", (address, network) => {
    expect(networkOf(address)).toBe(network);
  });
});

describe("limits", () => {
  it("stand in wrangler.toml, for the platform's limiters and for the buckets alike", () => {
    const platform = config.ratelimits.map(({ name, simple }) => [
      name.replace(/(.*)_LIMITER/, "LIMIT_$1"),
      String((simple.limit * 60) / simple.period),
    ]);
    expect(Object.fromEntries(platform)).toEqual(LIMITS);
    expect(new Set(config.ratelimits.map(({ namespace_id }) => namespace_id)).size).toBe(platform.length);
  });

  it("turn a flood of first messages away with when to come back, and nobody else", async () => {
    const answers: number[] = [];
    // The bucket fills while it is emptied, on a slow machine by a good deal.
    while (answers.at(-1) !== 429 && answers.length < 20 * STRANGERS)
      answers.push((await first(ADDRESS)).status);
    expect(answers.length).toBeGreaterThan(STRANGERS);
    const { body, headers } = await first(ADDRESS);
    expect(body.type).toBe("/problems/too-often");
    expect(Number(headers.get("retry-after"))).toBeGreaterThan(0);
    // A wrong key counts as a stranger's, and the answer does not reveal that it is wrong.
    expect((await worker.anyone.withKey("x").get(`${base}/queue`, ADDRESS)).status).toBe(429);
    expect((await crew.get(`${base}/queue`, ADDRESS)).status).toBe(200);
    expect((await first(CARRIER)).status).toBe(200);
    expect((await worker.anyone.get(`${base}/menu`, ADDRESS)).status).toBe(200);
  });

  it("leave 300 phones behind one address alone: each starts, orders and polls for a minute", async () => {
    const fairground = startWorker(LIMITS);
    const base = at(await example(fairground));
    const phones = { "cf-connecting-ip": "198.51.100.20" };
    const statuses = new Map<number, number>();
    const note = ({ status }: { status: number }) => statuses.set(status, (statuses.get(status) ?? 0) + 1);
    const one = async (): Promise<void> => {
      const { body, status } = await first(phones, fairground, base);
      note({ status });
      const phone = fairground.anyone.withKey(body.customer);
      // Every four seconds its conversation, every three the board on the next phone.
      for (let n = 0; n < 15; n++) note(await phone.get(`${base}/chat`, phones));
      for (let n = 0; n < 20; n++) note(await fairground.anyone.get(`${base}/board`, phones));
    };
    for (let n = 0; n < 300; n += 50) await Promise.all(Array.from({ length: 50 }, one));
    expect([...statuses]).toEqual([[200, 300 * 36]]);
  });

  it("keep one address from filling a stall with conversations, whatever it does with its tokens", async () => {
    const few = startWorker({ ...LIMITS, NEWCOMERS_PER_HOUR: "5" });
    const fair = await example(few);
    const base = at(fair);
    const statuses: number[] = [];
    for (let n = 0; n < 7; n++) statuses.push((await first(ADDRESS, few, base)).status);
    expect(statuses).toEqual([200, 200, 200, 200, 200, 429, 429]);
    // Another address, another stall, and a customer who is known.
    const known = (await first(CARRIER, few, base)).body.customer;
    expect(known).toContain("customer.");
    const message = { id: "a-message-to-another-stall", text: "menu" };
    expect((await few.anyone.post(`${at(fair, 1)}/chat`, message, ADDRESS)).status).toBe(200);
    const next = { id: "the-second-message-of-a-customer", text: "menu" };
    expect((await few.anyone.withKey(known).post(`${base}/chat`, next, ADDRESS)).status).toBe(200);
  });

  it("are the platform's if its limiter is bound", async () => {
    const asked: string[] = [];
    const limiter = (name: string, success: boolean) => ({
      limit: async ({ key }: { key: string }) => {
        asked.push(`${name} ${key}`);
        return { success };
      },
    });
    const bound = startWorker({
      KEY_LIMITER: limiter("key", true),
      READER_LIMITER: limiter("reader", false),
    });
    const fair = await example(bound);
    const read = await bound.anyone.get<Problem>(`${at(fair)}/menu`, ADDRESS);
    expect([read.status, read.headers.get("retry-after")]).toEqual([429, "60"]);
    expect(asked).toContain("key owner");
    expect(asked).toContain(`key crew ${fair.fair}/${fair.stalls[0]?.stall} 1`);
    expect(asked.at(-1)).toBe("reader 203.0.113.7");
    // What the platform is given to count by holds no key.
    expect(asked.join()).not.toContain(fair.stalls[0]?.key.split(".")[2] ?? "crew");
  });

  it("stop a flood of forged web hooks before the fair is asked", async () => {
    const forger = { "cf-connecting-ip": "203.0.113.99", "text-signature": "sha256=00" };
    const statuses: number[] = [];
    while (statuses.at(-1) !== 429 && statuses.length < 20 * STRANGERS)
      statuses.push((await worker.anyone.post("/v1/fairs/brackenfield/texts", {}, forger)).status);
    expect(new Set(statuses)).toEqual(new Set([401, 429]));
  });
});
