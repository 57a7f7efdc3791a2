/** Stores that released programs wrote are opened by this one, and those of newer programs are not. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Fair } from "../../src/fair/fair.ts";
import { FAIR_RECORDS_VERSION } from "../../src/fair/records.ts";
import { areNewerRecords } from "../../src/model/basics/newer-records.ts";
import { fold } from "../../src/stall/rules/replay.ts";
import { Stall } from "../../src/stall/stall.ts";
import { presentRow } from "../../src/stall/storage/earlier-names.ts";
import { RECORDS_VERSION, readJournal, write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { Life, Rows, storageFor } from "../simulation/whole/storage.ts";
import { expectAgreement, expectStockHolds } from "../stall/invariants.ts";

const folder = import.meta.dirname;
const shapesOf = (object: "stall" | "fair"): number[] =>
  readdirSync(folder)
    .flatMap((name) => new RegExp(`^${object}-(\\d+)\\.jsonl$`).exec(name)?.[1] ?? [])
    .map(Number)
    .sort((one, other) => one - other);
const upTo = (most: number): number[] => Array.from({ length: most }, (_, before) => before + 1);

/** The learnt pace goes on from the row, as the rule of its time had it; a replay learns by today's rule. */
const LEARNT = ["pace"];

/** The rows of a kept store. */
const rowsIn = (name: string): [string, unknown][] =>
  readFileSync(`${folder}/${name}.jsonl`, "utf8")
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line) as [string, unknown]); // written by keep.ts only

function storeWith(rows: readonly (readonly [string, unknown])[]): Rows {
  const store = new Rows();
  for (const [key, value] of rows) store.put(key, value);
  return store;
}

/** Storage as an object is given it, with these rows. */
function objectWith<T>(Kind: new (ctx: never, env: never) => T, given: readonly [string, unknown][]) {
  const rows = new Rows();
  for (const [key, value] of given) rows.put(key, value);
  rows.takeWritten();
  const alarm = { at: null as number | null, set: () => {} };
  const ctx = { storage: storageFor(rows, new Life(), alarm) };
  return { rows, make: () => new Kind(ctx as never, {} as never) }; // as far as the objects use them
}

describe("a kept store", () => {
  it("is there for every shape a stall's and a fair's records ever had", () => {
    expect(shapesOf("stall")).toEqual(upTo(RECORDS_VERSION));
    expect(shapesOf("fair")).toEqual(upTo(FAIR_RECORDS_VERSION));
  });

  it.each(shapesOf("stall"))(
    "of a stall in shape %i is opened, goes on, and is then of this shape",
    (shape) => {
      const rows = rowsIn(`stall-${shape}`);
      const store = storeWith(rows);
      expect(store.get("records-version") ?? 1).toBe(shape);
      const unit = new UnitOfWork(store);
      expectAgreement(unit.state, store, LEARNT);
      expectStockHolds(unit.state);
      const orders = rows.filter(([key]) => key.startsWith("order:"));
      expect(orders.length).toBeGreaterThan(0);
      for (const [key, row] of orders)
        expect(unit.state.orders.get(key.slice("order:".length))).toEqual(presentRow("order:", row));
      const journalBefore = [...readJournal(store)].map(({ sequence, events }) => ({ sequence, events }));
      expect(rows.filter(([key]) => key.startsWith("journal:")).length).toBe(journalBefore.length);

      const last = [...readJournal(store)].at(-1)?.at ?? 0;
      const { events } = unit.carryOut({ type: "set-hands", hands: 9 }, last + 1);
      expect(events.length).toBeGreaterThan(0);
      write(store, unit.drain());
      expect(store.get("records-version")).toBe(RECORDS_VERSION);
      expectAgreement(new UnitOfWork(store).state, store, LEARNT);
      expect(fold(readJournal(store)).version).toBe(journalBefore.length + 1);
    },
  );

  it("of a stall whose presses kept garments aside has the same garments reserved for them", () => {
    const rows = rowsIn("stall-2");
    const asides = rows.flatMap(([key, row]) =>
      key.startsWith("order:") ? (row as { jobs: { stage: string }[] }).jobs : [],
    );
    const kept = asides.filter(({ stage }) => stage === "aside").length;
    expect(kept).toBeGreaterThan(0);
    const { state } = new UnitOfWork(storeWith(rows));
    expect([...state.orderIndex.reserved.values()].reduce((sum, { length }) => sum + length, 0)).toBe(kept);
    const keeping = rows.filter(([, row]) => ((row as { keepsAside?: number }).keepsAside ?? 0) > 0);
    expect(keeping.length).toBeGreaterThan(0);
    for (const [key] of keeping) expect(state.press(key.slice("press:".length) as never).reserves).toBe(true);
  });

  it.each(shapesOf("fair"))("of a fair in shape %i is opened with its stalls, keys and gateway", (shape) => {
    const rows = rowsIn(`fair-${shape}`);
    const fair = objectWith(Fair, rows).make();
    expect(fair.admits(1)).toBe(true);
    const [, gateway] = rows.find(([key]) => key === "gateway") ?? [];
    expect(fair.gateway()).toEqual(gateway);
    const pace = fair.throughput(1, { span: "all" } as never, []);
    for (const stall of ["gannet", "plover", "tern"])
      expect(pace).toMatchObject({ ok: true, value: { text: expect.stringContaining(stall) } });
    expect(fair.addStall(1, "skua" as never, "Skua")).toEqual({ ok: true, value: 1 });
  });
});

describe("a store of a newer program", () => {
  it.each([
    ["stall", Stall, RECORDS_VERSION + 1],
    ["fair", Fair, FAIR_RECORDS_VERSION + 1],
  ] as const)("of a %s is refused with what to do, and nothing is written", async (name, Kind, newer) => {
    const kept = rowsIn(`${name}-${newer - 1}`).filter(([key]) => key !== "records-version");
    const { rows, make } = objectWith<Stall | Fair>(Kind as never, [...kept, ["records-version", newer]]);
    let thrown: unknown;
    try {
      await make().under("a request", "admits", [1]);
    } catch (error) {
      thrown = error;
    }
    expect(areNewerRecords(thrown)).toBe(true);
    expect(String(thrown)).toContain(`version ${newer}`);
    expect(String(thrown)).toContain("Run the newer program again");
    expect([...rows.takeWritten()]).toEqual([]);
  });
});

describe("an upgrade with tablets open, and the way back", () => {
  const previous = RECORDS_VERSION - 1;
  const line = (unit: UnitOfWork) =>
    [...unit.state.orders.values()].map(({ number, jobs }) => [number, jobs.map(({ stage }) => stage)]);

  it("shows the same line, writes nothing until the first tap, and takes that tap", () => {
    const store = storeWith(rowsIn(`stall-${previous}`));
    store.takeWritten();
    const before = line(new UnitOfWork(store));
    expect(before.length).toBeGreaterThan(0);
    // Until now the earlier program can run again: no row of it has changed.
    expect([...store.takeWritten()]).toEqual([]);
    expect(store.get("records-version")).toBe(previous);

    const unit = new UnitOfWork(store);
    const last = [...readJournal(store)].at(-1)?.at ?? 0;
    unit.carryOut({ type: "set-hands", hands: 7 }, last + 1);
    write(store, unit.drain());
    expect(store.get("records-version")).toBe(RECORDS_VERSION);
    expect(line(new UnitOfWork(store))).toEqual(before);
  });

  it("is refused by the program before it, whoever asks, and the newer one then finds every row as it left it", async () => {
    const kept = rowsIn(`stall-${RECORDS_VERSION}`).filter(([key]) => key !== "records-version");
    const newer: [string, unknown][] = [...kept, ["records-version", RECORDS_VERSION + 1]];
    const { rows, make } = objectWith<Stall>(Stall as never, newer);
    const stall = make();
    for (const [method, values] of [
      ["admits", [1]],
      ["board", []],
      ["order", [101]],
    ] as const) {
      const thrown = await stall.under("a request", method, values).catch((error: unknown) => error);
      expect([method, areNewerRecords(thrown)]).toEqual([method, true]);
    }
    await stall.alarm().catch(() => undefined);
    expect([...rows.takeWritten()]).toEqual([]);
    const after = storeWith(newer.map(([key]) => [key, rows.get(key)] as const));
    after.put("records-version", RECORDS_VERSION);
    const opened = new UnitOfWork(after);
    expectAgreement(opened.state, after, LEARNT);
    expect(line(opened)).toEqual(line(new UnitOfWork(storeWith(kept))));
  });
});
