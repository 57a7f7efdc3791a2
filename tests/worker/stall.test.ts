/** The stall as a real object in the Workers runtime: its transaction, its eviction, its alarm. */

import { evictDurableObject, runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { describe, expect, it } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import type { PressId } from "../../src/model/basics/ids.ts";
import type { WriteKey } from "../../src/model/basics/write-key.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { StockChange } from "../../src/model/orders/stock.ts";
import { loadState } from "../../src/stall/storage/records.ts";
import { ids } from "../ids.ts";
import { expectAgreement, expectStockHolds } from "../stall/invariants.ts";

const HOUR = 3_600_000;
let writes = 0;
const key = (): WriteKey => ({ scope: `test ${++writes}`, fingerprint: "same" });
// Brands are put on a test's own ids.
const customer = (name: string) => ids.customer(name.padEnd(16, "_"));
const lines = [{ offer: ids.offer("longtail-tee"), colour: "navy", size: "L", quantity: 1 }] as never;

/** An open stall with 20 navy L blanks and 20 transfers, under its own name. */
async function openStall(name: string) {
  const stall = env.STALL.getByName(`fair/${name}`);
  const opens = Date.now() - HOUR;
  await stall.open(
    {
      fair: ids.fair("fair"),
      stall: ids.stall(name),
      name,
      fairName: "A fair",
      timeZone: "UTC",
      openings: [{ opens, closes: opens + 10 * HOUR }],
    },
    1,
    0,
  );
  expect((await stall.setMenu(1, key(), { type: "set-menu", menu: Menu.parse(exampleMenu) })).ok).toBe(true);
  const { entries } = StockChange.parse({
    entries: [
      { sku: "tee.navy.L", counted: 20 },
      { design: "longtail", counted: 20 },
    ],
  });
  expect((await stall.changeStock(1, key(), { type: "change-stock", entries })).ok).toBe(true);
  return stall;
}

const place = (name: string) => ({
  command: { type: "place", customer: customer(name), takenBy: "counter", lines, asks: [0] } as const,
  name,
  phone: null,
  number: null,
  address: null,
  isUnknown: false,
  generation: 1,
});

describe("memory, records and journal", () => {
  it("agree after a rush of every kind of call at once, and after an eviction", async () => {
    const stall = await openStall("agree");
    const placed = await Promise.all(
      Array.from({ length: 30 }, (_, n) => stall.place(key(), place(`customer${n}`))),
    );
    expect(placed.filter((answer) => answer.ok)).toHaveLength(20);
    await Promise.all(
      (["A", "B"] as PressId[]).map(async (press) => {
        for (let n = 0; n < 6; n++) {
          const pulled = await stall.pull(1, key(), { type: "pull", press });
          if (!pulled.ok || pulled.value === null) throw new Error("nothing to pull");
          const { job } = pulled.value;
          await stall.onJob(
            1,
            key(),
            n === 2 ? { type: "spoiled", job, lost: "both", reason: "crooked" } : { type: "pressed", job },
          );
        }
      }),
    );
    const check = () =>
      runInDurableObject(stall, (_, { storage }) => {
        const state = loadState(storage.kv);
        expectAgreement(state, storage.kv);
        expectStockHolds(state);
        return state.version;
      });
    const before = await check();
    await evictDurableObject(stall);
    const stock = await stall.stock(1);
    expect(stock.ok && stock.value.skus.find(({ sku }) => sku === "tee.navy.L")).toMatchObject({
      onHand: 8,
    });
    expect(await check()).toBe(before);
  });

  it("keep what was acknowledged when the next write fails, and memory follows the records", async () => {
    const stall = await openStall("failing");
    expect((await stall.place(key(), place("ann"))).ok).toBe(true);
    const failed = await runInDurableObject(stall, async (instance, { storage }) => {
      const real = storage.transactionSync.bind(storage);
      storage.transactionSync = () => {
        throw new Error("the disk is full");
      };
      try {
        return await Promise.resolve(instance.place(key(), place("ben"))).then(() => "kept", String);
      } catch (error) {
        return String(error);
      } finally {
        storage.transactionSync = real;
      }
    });
    expect(failed).toContain("the disk is full");
    const next = await stall.place(key(), place("cat"));
    expect(next.ok && next.value.number).toBe(102);
    await runInDurableObject(stall, (_, { storage }) => expectAgreement(loadState(storage.kv), storage.kv));
  });
});

describe("the alarm", () => {
  it("releases a hold that nobody confirmed, and doing so twice does no harm", async () => {
    const stall = await openStall("alarm");
    const said = await stall.chat({
      id: "message-0000000001",
      text: "1 navy L",
      customer: customer("dan"),
      phone: null,
    });
    expect(said.ok).toBe(true);
    const held = await stall.stock(1);
    expect(held.ok && held.value.skus.find(({ sku }) => sku === "tee.navy.L")?.promised).toBe(1);
    await runInDurableObject(stall, (_, { storage }) => {
      // As if the three minutes had passed: the hold is put into the past and the object forgets it.
      for (const [row, value] of [...storage.kv.list<{ expiresAt: number }>({ prefix: "hold:" })]) {
        storage.kv.put(row, { ...value, expiresAt: Date.now() - 1 });
      }
    });
    await evictDurableObject(stall);
    await runDurableObjectAlarm(stall);
    await runDurableObjectAlarm(stall);
    const freed = await stall.stock(1);
    expect(freed.ok && freed.value.skus.find(({ sku }) => sku === "tee.navy.L")?.promised).toBe(0);
  });
});

describe("an object nobody opened", () => {
  it("answers that there is no such stall and writes nothing", async () => {
    const ghost = env.STALL.getByName("fair/ghost");
    const answers = [
      await ghost.menu(),
      await ghost.board([]),
      await ghost.pressQueue(1, []),
      await ghost.place(key(), place("eve")),
    ];
    expect(answers.map((answer) => answer.ok)).toEqual([false, false, false, false]);
    const finish = await ghost.onJob(1, key(), { type: "pressed", job: ids.job("101-1") });
    expect(finish.ok).toBe(false);
    const rows = await runInDurableObject(ghost, (_, { storage }) => [...storage.kv.list()].length);
    expect(rows).toBe(0);
  });
});
