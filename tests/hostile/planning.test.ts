/** Planning takes a whole isolate's time: one at a time, a few a minute. And writes without a key are their address's. */
import { beforeAll, describe, expect, it } from "vitest";
import { loadExample } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";

let start: (bindings?: Readonly<Record<string, unknown>>) => InProcess;
beforeAll(async () => {
  start = await bundled();
}, BUNDLING);

describe("a plan", () => {
  it("is worked out one at a time; others are told how long to wait and where to plan", async () => {
    const { owner } = start();
    const answers = await Promise.all([1, 2, 3].map(() => owner.post<Problem>("/v1/plans", {})));
    expect(answers.map(({ status }) => status).sort()).toEqual([422, 429, 429]);
    const refused = answers.find(({ status }) => status === 429);
    const seconds = refused?.headers.get("retry-after");
    expect(Number(seconds)).toBeGreaterThanOrEqual(1);
    expect(refused?.body.detail).toContain(`Wait ${seconds} seconds`);
    expect(refused?.body.detail).toContain("/plan");
    expect((await owner.post("/v1/plans", {})).status).toBe(422);
  });

  it("has a limit of its own, for the keys of the fair's people and for addresses", async () => {
    const keyed = start({ LIMIT_PLAN: "3" });
    const open = start({ LIMIT_PLAN: "3", OPEN_PLANNING: "yes" });
    const from = (address: string) => ({ "cf-connecting-ip": address });
    const ask = async (address: string) => (await open.anyone.post("/v1/sheets", {}, from(address))).status;
    for (let n = 0; n < 3; n++) {
      expect((await keyed.owner.post("/v1/plans", {})).status).toBe(422);
      expect(await ask("203.0.113.7")).toBe(422);
    }
    expect((await keyed.owner.post("/v1/plans", {})).status).toBe(429);
    expect([await ask("203.0.113.7"), await ask("203.0.113.8")]).toEqual([429, 422]);
  });
});

describe("an Idempotency-Key without a key of the stall's", () => {
  it("is its address's: nobody elsewhere gets the answer, with the order's claim, by sending the same", async () => {
    const { owner, anyone } = start();
    const fair = await loadExample(owner, Date.now(), "brackenfield");
    const path = `/v1/fairs/${fair.fair}/stalls/${fair.stalls[0]?.stall}/orders`;
    const order = { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }] };
    const place = async (address: string) =>
      (
        await anyone.post<PlacedOrder>(path, order, {
          "idempotency-key": '"the-first-order"',
          "cf-connecting-ip": address,
        })
      ).body;
    const first = await place("203.0.113.7");
    expect(await place("203.0.113.7")).toEqual(first);
    const elsewhere = await place("203.0.113.8");
    expect(elsewhere.number).toBeGreaterThan(first.number);
    expect(elsewhere.claim).not.toBe(first.claim);
  });
});
