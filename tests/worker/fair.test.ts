/** The fair as a real object in the Workers runtime: what the stalls report, and what a reader is given. */

import { evictDurableObject, runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { describe, expect, it } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import type { StallReport } from "../../src/fair/reports.ts";
import type { WriteKey } from "../../src/model/basics/write-key.ts";
import { CreateFair } from "../../src/model/fair/fair.ts";
import { type Throughput, ThroughputQuery } from "../../src/model/fair/throughput.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { HEARTBEAT } from "../../src/stall/messages/report-to-fair.ts";
import { bucketKey, EMPTY_BUCKET } from "../../src/time/bucket.ts";
import { ids } from "../ids.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const TERN = ids.stall("tern");
const ask = (query: object = {}) => ThroughputQuery.parse(query);

async function openFair(name: string) {
  const fair = env.FAIR.getByName(name);
  const now = Date.now();
  const openings = [
    { opens: new Date(now - 5 * DAY).toISOString(), closes: new Date(now + HOUR).toISOString() },
  ];
  const request = CreateFair.parse({ fair: name, name, timeZone: "America/New_York", openings });
  await fair.create({ scope: "test", fingerprint: "same" }, request);
  await fair.addStall(1, TERN, "Tern & Tide");
  const read = async (query: object = {}, have: string[] = []) => {
    const answer = await fair.throughput(1, ask(query), have);
    if (!answer.ok) throw new Error(`the fair answered ${answer.refusal.code}`);
    const { tag, text } = answer.value;
    return { tag, pace: text === null ? null : (JSON.parse(text) as Throughput) };
  };
  return { fair, now, read };
}

const report = (now: number, version: number, more: Partial<StallReport> = {}): StallReport => ({
  stall: TERN,
  version,
  at: now,
  crewAt: now,
  paused: false,
  setUp: true,
  read: [],
  shares: null,
  backlog: 0,
  soldOut: 0,
  backlogEnds: null,
  buckets: [],
  ...more,
});
const placed = (at: number, orders: number) => [bucketKey(at), { ...EMPTY_BUCKET, placed: orders }] as const;

describe("a report", () => {
  it("that comes twice, or days late, replaces its buckets and adds nothing twice", async () => {
    const { fair, now, read } = await openFair("late");
    const first = report(now, 7, { buckets: [placed(now - 4 * DAY, 3), placed(now, 5)] });
    await fair.report(first);
    await fair.report(first);
    expect((await read({ span: "all" })).pace?.total.placed).toBe(8);
    expect((await read({ span: "now" })).pace?.total.placed).toBe(5);

    // Four days ago one more was taken on paper, and keyed in now.
    await fair.report(report(now + 1, 8, { buckets: [placed(now - 4 * DAY, 4)] }));
    const { pace } = await read({ span: "all", stall: "tern" });
    expect(pace?.total.placed).toBe(9);
    expect(pace?.stalls[0]?.buckets?.map((quarter) => quarter.placed)).toEqual([4, 5]);
    const about = now - 4 * DAY;
    const span = { from: new Date(about).toISOString(), to: new Date(about + 1).toISOString() };
    expect((await read(span)).pace?.total.placed).toBe(4);

    await evictDurableObject(fair);
    expect((await read({ span: "all" })).pace?.total.placed).toBe(9);
  });

  it("older than the last is ignored, and a sign of life without news is not", async () => {
    const { fair, now, read } = await openFair("older");
    await fair.report(report(now, 7, { backlog: 4, buckets: [placed(now, 5)] }));
    await fair.report(report(now - 1000, 6, { backlog: 9, buckets: [placed(now, 4)] }));
    await fair.report(report(now - 1000, 7, { backlog: 9 }));
    expect((await read()).pace?.stalls[0]).toMatchObject({ placed: 5, backlog: 4 });
    await fair.report(report(now + 60_000, 7, { backlog: 4, crewAt: null }));
    const [tern] = (await read()).pace?.stalls ?? [];
    expect(tern?.heardAt).toBe(new Date(now + 60_000).toISOString());
    // The stall has slept and has not seen its crew since: the fair remembers when it last was there.
    expect(tern?.crewAt).toBe(new Date(now).toISOString());
  });
});

describe("the version of the pace", () => {
  it("answers without the figures while nothing changed, after an eviction too", async () => {
    const { fair, now, read } = await openFair("versions");
    await fair.report(report(now, 1, { buckets: [placed(now, 1)] }));
    const { tag, pace } = await read();
    expect(pace?.total.placed).toBe(1);
    expect(await read({}, ["v0.0.0.0", tag])).toEqual({ tag, pace: null });
    await evictDurableObject(fair);
    expect(await read({}, [tag])).toEqual({ tag, pace: null });
    await fair.report(report(now + 1, 2, { buckets: [placed(now, 2)] }));
    const next = await read({}, [tag]);
    expect(next.tag).not.toBe(tag);
    expect(next.pace?.total.placed).toBe(2);
  });

  it("reads no storage for a 304, and no more of it on the third day than on the first", async () => {
    const { fair, now, read } = await openFair("reads");
    const day = (back: number) =>
      Array.from({ length: 40 }, (_, n) => placed(now - back * DAY - n * 900_000, 1));
    await fair.report(report(now, 1, { buckets: [0, 3, 4].flatMap(day) }));
    const { tag } = await read();
    await evictDurableObject(fair);
    const listed = await runInDurableObject(fair, async (instance, { storage }) => {
      const real = storage.kv.list.bind(storage.kv);
      let rows = 0;
      storage.kv.list = ((options: never) => {
        const found = [...real(options)];
        rows += found.length;
        return found;
      }) as never;
      instance.throughput(1, ask(), [tag]);
      const unchanged = rows;
      instance.throughput(1, ask(), []);
      return { unchanged, whole: rows };
    });
    // The stall's own row, and the buckets of the last two days.
    expect(listed).toEqual({ unchanged: 1, whole: 1 + 40 });
  });
});

describe("a stall at which nothing happens", () => {
  it("tells its fair of its crew while a screen asks, and has no alarm without one", async () => {
    const { now, read } = await openFair("idle");
    const stall = env.STALL.getByName("idle/tern");
    const openings = [{ opens: now - HOUR, closes: now + HOUR }];
    const identity = { fair: "idle", stall: TERN, name: "Tern", fairName: "idle", timeZone: "UTC", openings };
    await stall.open(identity as never, 1, 0); // a test's own ids
    const key: WriteKey = { scope: "test menu", fingerprint: "same" };
    const menu = Menu.parse(exampleMenu);
    expect((await stall.setMenu(1, key, { type: "set-menu", menu })).ok).toBe(true);
    // The news was delivered. The alarm that was set in case the delivery failed rings once more without effect.
    const ring = async () => {
      await runDurableObjectAlarm(stall);
      await runDurableObjectAlarm(stall);
    };
    await ring();
    expect((await read()).pace?.stalls[0]?.heardAt).not.toBeNull();
    const alarmIn = () =>
      runInDurableObject(
        stall,
        async (_, { storage }) => (await storage.getAlarm()) ?? Number.POSITIVE_INFINITY,
      );
    const past = now - HEARTBEAT - 1000;
    await runInDurableObject(stall, (_, { storage }) => {
      // As if the report had been made a while ago.
      const pushed = storage.kv.get<object>("pushed");
      storage.kv.put("pushed", { ...pushed, at: past, toldAt: past });
    });
    await evictDurableObject(stall);
    await stall.menu();
    expect(await alarmIn()).toBeGreaterThan(now + HEARTBEAT);

    await stall.pressQueue(1, "any");
    expect(await alarmIn()).toBeLessThanOrEqual(Date.now());
    await ring();
    const crewAt = Date.parse((await read()).pace?.stalls[0]?.crewAt ?? "");
    expect(crewAt).toBeGreaterThanOrEqual(now);
    await stall.pressQueue(1, "any");
    expect(await alarmIn()).toBeGreaterThan(now + HEARTBEAT);
  });
});
