import { describe, expect, it } from "vitest";
import { menuFaults } from "../../src/model/menu/menu-faults.ts";
import { GarmentWish } from "../../src/model/menu/wishes.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import { quoteSeconds } from "../../src/stall/line/quote.ts";
import { noteChanged, notePlaced } from "../../src/stall/messages/notes.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { ids } from "../ids.ts";
import { expectAccounts } from "./account.ts";
import { expectAgreement, expectFloorHolds, expectStockHolds } from "./invariants.ts";
import { exampleMenu, MemoryStore, OPENS, placing, type TestStall, testStall } from "./test-stall.ts";

const WISHES = [
  { id: "back-print", name: "Back print", surcharge: 500, seconds: 30, second: {} },
  { id: "own-shirt", name: "Own garment", surcharge: -600, ownGarment: true },
  { id: "otter-back", name: "Otter on the back", second: { design: "otter" } },
].map((wish) => GarmentWish.parse(wish));
const menu = { ...exampleMenu(), wishes: WISHES };
const STOCK = [
  { sku: "tee.navy.L", counted: 2 },
  { design: "longtail", counted: 3 },
  { design: "otter", counted: 1 },
].map((entry) => StockEntry.parse(entry));
const line = (...wishes: readonly string[]) => ({
  offer: "longtail-tee",
  colour: "navy",
  size: "L",
  quantity: 1,
  ...(wishes.length === 0 ? {} : { wishes }),
});
const place = (...lines: readonly object[]): Command => placing("ann", { lines });
const free = (stall: TestStall, piece: string) => stall.state.free(piece as never); // a brand for a test's own key

describe("a wish on a garment", () => {
  it("costs its surcharge and takes a second transfer, counted and pressed as two", () => {
    const stall = testStall(menu, STOCK);
    stall.run(place(line("back-print")), OPENS);
    expect(stall.state.order(101)).toMatchObject({ total: 3110, lines: [{ second: ["longtail"] }] });
    expect([free(stall, "sku:tee.navy.L"), free(stall, "transfer:longtail")]).toEqual([1, 1]);
    // One transfer is left, but the garment needs two.
    expect(stall.run(place(line("back-print")), OPENS).refusal).toMatchObject({ code: "sold-out" });
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    stall.run({ type: "pressed", job: ids.job("101-1") }, OPENS + 120_000);
    expect(stall.state.count("transfer:longtail" as never)).toMatchObject({ pressed: 2 }); // as above
    stall.run({ type: "paid", number: 101, tender: "cash" }, OPENS + 121_000);
    expectStockHolds(stall.state);
    expectFloorHolds(stall.state);
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 200_000);
  });

  it("is quoted by the longer time at the press, and teaches the pace as a plain one", () => {
    const stall = testStall(menu, STOCK);
    const seconds = (effort?: number) =>
      quoteSeconds(
        stall.state,
        menu,
        [
          {
            platen: "flat",
            kind: "screen-printed",
            quantity: 1,
            ...(effort === undefined ? {} : { effort }),
          },
        ],
        OPENS,
      );
    expect(seconds(2)).toBeGreaterThan(1.4 * seconds());
    stall.run(place(line("back-print")), OPENS);
    const [made] = stall.state.order(101)?.lines ?? [];
    // Two transfers and 30 seconds more, at presses that take 60 seconds for one.
    const each = menu.presses.filter(({ platen }) => platen === "flat");
    const mean = each.reduce((sum, { garmentSeconds }) => sum + garmentSeconds, 0) / each.length;
    expect(made?.effort).toBeCloseTo(2 + 30 / mean, 1);
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    const on = stall.state.order(101)?.jobs[0];
    const since =
      on?.stage === "pressing" ? Math.max(on.since, stall.state.press(ids.press("A")).heat?.readyAt ?? 0) : 0;
    const took = (made?.effort ?? 0) * 50_000;
    stall.run({ type: "pressed", job: ids.job("101-1") }, since + took);
    expect(stall.state.pace.work["flat/screen-printed"]?.mean).toBeCloseTo(50, 0);
  });

  it("on the customer's own garment takes no blank and can be made when all blanks are gone", () => {
    const stall = testStall(menu, STOCK);
    stall.run(
      { type: "change-stock", entries: [StockEntry.parse({ sku: "tee.navy.L", counted: 0 })] },
      OPENS,
    );
    expect(stall.run(place(line()), OPENS).refusal).toMatchObject({ code: "sold-out" });
    expect(stall.run(place(line("own-shirt")), OPENS).refusal).toBeNull();
    expect(stall.state.order(101)?.total).toBe(1931);
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 1000);
    stall.run({ type: "spoiled", job: ids.job("101-1"), lost: "both", reason: "crooked" }, OPENS + 60_000);
    expect(stall.state.count("sku:tee.navy.L" as never).spoiled).toBe(0); // as above
    expect(stall.state.count("transfer:longtail" as never).spoiled).toBe(1); // as above
    expectStockHolds(stall.state);
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 200_000);
  });

  it("can be added to a garment that waits, which keeps its price otherwise", () => {
    const stall = testStall(menu, STOCK);
    stall.run(place(line()), OPENS);
    const change = (garment: object): Command =>
      ({
        type: "changed",
        number: 101,
        changes: [{ type: "instead", jobs: [1], garment }],
      }) as unknown as Command;
    const { quantity: _, ...wished } = line("otter-back");
    expect(stall.run(change(wished), OPENS).refusal).toBeNull();
    expect(free(stall, "transfer:otter")).toBe(0);
    const { quantity: __, ...plain } = line();
    stall.run(change(plain), OPENS);
    expect([free(stall, "transfer:otter"), stall.state.order(101)?.total]).toEqual([1, 2574]);
    expectAgreement(stall.state, stall.store);
  });

  it("is on the press's tag with its second transfer", () => {
    const stall = testStall(menu, STOCK);
    stall.run(place(line("otter-back", "own-shirt")), OPENS);
    const words = { wishOf: () => undefined, noteOf: () => "ANNA in red" };
    const [job] = queueView(stall.state, menu, OPENS, null, words).next;
    expect(job).toMatchObject({
      wishes: [{ name: "Own garment" }, { name: "Otter on the back" }],
      note: "ANNA in red",
      ownGarment: true,
      second: [{ design: "otter" }],
    });
  });

  it("is refused if the menu has no such wish, or no longer takes it", () => {
    const stall = testStall(menu, STOCK);
    expect(stall.run(place(line("monogram")), OPENS).refusal).toMatchObject({
      what: "wish",
      given: "monogram",
    });
    const off = { ...menu, wishes: WISHES.map((wish) => ({ ...wish, offered: false })) };
    stall.run({ type: "set-menu", menu: off }, OPENS);
    expect(stall.run(place(line("back-print")), OPENS).refusal).toMatchObject({ what: "wish" });
    const broken = {
      ...menu,
      wishes: [GarmentWish.parse({ id: "x", name: "X", second: { design: "nothing" } })],
    };
    expect(menuFaults(broken as typeof menu)).toMatchObject([{ pointer: "#/wishes/0/second/design" }]);
  });
});

describe("a wish in free words", () => {
  it("goes with its garment in the people's rows and never into the journal", () => {
    const store = new MemoryStore();
    const unit = new UnitOfWork(store);
    const lines = [{ ...line(), quantity: 2, note: "for ANNA" }, line()] as never; // plain ids
    notePlaced(unit, 101, lines);
    expect([1, 2, 3].map((n) => unit.people.noteOf(101, n))).toEqual(["for ANNA", "for ANNA", undefined]);
    noteChanged(unit, 101, [{ type: "take-off", jobs: [2] }]);
    noteChanged(unit, 101, [{ type: "instead", jobs: [1], garment: { ...line(), note: "BEN" } as never }]); // plain ids
    expect([1, 2].map((n) => unit.people.noteOf(101, n))).toEqual(["BEN", undefined]);
    const rows = unit.drain();
    expect(rows.filter(([, row]) => JSON.stringify(row)?.includes("BEN")).map(([key]) => key)).toEqual([
      "at-order:101",
    ]);
  });
});
