import { describe, expect, it } from "vitest";
import { Rules } from "../../src/model/menu/rules.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import { noteAddress, unclaimedAt } from "../../src/stall/messages/unclaimed.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { stageOf } from "../../src/stall/state/orders.ts";
import type { PieceKey } from "../../src/stall/state/shapes/piece.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { expectAgreement, expectFloorHolds, expectStockHolds } from "./invariants.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "./test-stall.ts";

const menu = exampleMenu();
const NAVY = { sku: "tee.navy.L", counted: 100 };
const STOCK = [NAVY, { design: "longtail", counted: 100 }].map((entry) => StockEntry.parse(entry));
const PIECE = "sku:tee.navy.L" as PieceKey; // a brand for a test's own id
const press = ids.press("A");

type Payment = Rules["payment"];

/** A stall with the rules every stall begins with. */
function stallWith(payment: Payment = "not-tracked", rules: Partial<Rules> = {}): TestStall {
  return testStall({ ...menu, rules: { ...Rules.parse({ payment }), ...rules } }, STOCK);
}

let people = 0;

/** A new customer on the web orders navy L; this many garments of the address are unclaimed by then. */
function webOrder(
  stall: TestStall,
  quantity: number,
  unclaimedAtAddress: number,
  more: object = {},
  now = OPENS,
) {
  people += 1;
  return stall.run(
    {
      type: "place",
      customer: customer(`web ${people}`),
      takenBy: "web",
      lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity }],
      asks: [0],
      chance: 0.5,
      unclaimedAtAddress,
      ...more,
    } as unknown as Command, // plain ids
    now,
  );
}

const walkUp = (stall: TestStall, quantity: number, now = OPENS) =>
  webOrder(stall, quantity, 0, { takenBy: "counter" }, now);

const stageAt = (stall: TestStall, number: number): string | undefined => {
  const order = stall.state.anyOrder(number);
  return order && stageOf(order);
};
const check = (stall: TestStall): void => {
  expectAgreement(stall.state, stall.store);
  expectStockHolds(stall.state);
  expectFloorHolds(stall.state);
};

describe("unclaimed web orders", () => {
  it("go into the line while their address has at most six garments there; more wait outside it, with their stock", () => {
    const stall = stallWith();
    webOrder(stall, 6, 0);
    webOrder(stall, 1, 6);
    expect([stageAt(stall, 101), stageAt(stall, 102)]).toEqual(["waiting", "to-claim"]);
    expect(stall.state.free(PIECE)).toBe(93);
    // An order outside the line is never pulled; its wait is quoted as if it were in line.
    expect(stall.state.order(102)?.dueBy).toBeGreaterThan(OPENS);
    for (let garment = 0; garment < 7; garment++) {
      stall.run({ type: "pull", press }, OPENS + garment);
      stall.run({ type: "pressed", job: `101-${garment + 1}` as never }, OPENS + garment + MINUTE);
    }
    expect([stageAt(stall, 101), stageAt(stall, 102)]).toEqual(["ready", "to-claim"]);
    check(stall);
  });

  it.each([
    ["a tap at the counter", { type: "claimed", number: 101 }],
    ["a payment", { type: "paid", number: 101, tender: "cash" }],
  ] as const)("are claimed by %s, and leave both counts", (_, claim) => {
    const stall = stallWith("before-handover");
    webOrder(stall, 2, 6);
    expect(stageAt(stall, 101)).toBe("to-claim");
    expect(stall.state.orderIndex.webPromises.of(PIECE)).toBe(2);
    expect(stall.run(claim as Command, OPENS + MINUTE).refusal).toBeNull();
    expect(stageAt(stall, 101)).toBe("waiting");
    expect(stall.state.orderIndex.webPromises.of(PIECE)).toBe(0);
    expect(stall.state.orderIndex.unclaimed.length).toBe(0);
    check(stall);
    // The same tap again changes nothing.
    const { version } = stall.state;
    if (claim.type === "claimed") stall.run(claim, OPENS + 2 * MINUTE);
    if (claim.type === "claimed") expect(stall.state.version).toBe(version);
  });

  it("are dropped after the minutes the stall sets, and their stock is free again", () => {
    const stall = stallWith("not-tracked", { claimMinutes: 5 });
    webOrder(stall, 1, 6);
    stall.run({ type: "tick" }, OPENS + 5 * MINUTE - 1);
    expect(stageAt(stall, 101)).toBe("to-claim");
    stall.run({ type: "tick" }, OPENS + 5 * MINUTE);
    expect(stageAt(stall, 101)).toBe("dropped");
    expect(stall.state.free(PIECE)).toBe(100);
    check(stall);
  });

  it.each(["not-tracked", "before-handover", "before-pressing"] as const)(
    "hold a fifth of the stock at most where payment is %s, and never refuse the counter",
    (payment) => {
      const stall = stallWith(payment);
      const refusals = Array.from({ length: 30 }, () => webOrder(stall, 1, 99).refusal?.code ?? null);
      expect(refusals.filter((code) => code === null)).toHaveLength(20);
      expect(refusals.at(-1)).toBe("web-share");
      expect(stall.state.free(PIECE)).toBe(80);
      for (const garments of [60, 20]) expect(walkUp(stall, garments).refusal).toBeNull();
      check(stall);
    },
  );

  it("have no limit for the hour in which the crew lifts it", () => {
    const stall = stallWith();
    stall.run({ type: "lift-claims", minutes: 60 }, OPENS);
    for (let n = 0; n < 30; n++) expect(webOrder(stall, 1, 99).refusal).toBeNull();
    expect(stall.state.orderIndex.toClaim.length).toBe(0);
    expect(webOrder(stall, 1, 99, {}, OPENS + 60 * MINUTE).refusal?.code).toBe("web-share");
    check(stall);
  });

  it("are kept as long again if the crew takes one back that was dropped", () => {
    const stall = stallWith();
    webOrder(stall, 1, 6);
    stall.run({ type: "tick" }, OPENS + 15 * MINUTE);
    const late = OPENS + 16 * MINUTE;
    expect(stall.run({ type: "undo-closed", number: 101, was: "dropped" }, late).refusal).toBeNull();
    stall.run({ type: "tick" }, late + 15 * MINUTE - 1);
    expect(stageAt(stall, 101)).toBe("to-claim");
    expect(stall.run({ type: "claimed", number: 101 }, late + 15 * MINUTE - 1).refusal).toBeNull();
    expect(stageAt(stall, 101)).toBe("waiting");
    check(stall);
  });

  it("hold a fifth of all blanks at most, however few there are of each and however large an order is", () => {
    const sizes = ["S", "M", "L", "XL"];
    const counts = [...sizes.map((size) => ({ sku: `tee.navy.${size}`, counted: 8 })), STOCK[1]];
    const stall = testStall(
      { ...menu, rules: Rules.parse({}) },
      counts.map((entry) => StockEntry.parse(entry)),
    );
    for (const quantity of [6, 2, 1])
      for (const size of sizes)
        webOrder(stall, quantity, 0, {
          lines: [{ offer: "longtail-tee", colour: "navy", size, quantity }],
        });
    // A fifth of 32 is 6.4 garments.
    expect(stall.state.orderIndex.webPromises.blanks).toBe(6);
    check(stall);
  });

  it("are shown as not limited until the hour is over, and no longer", () => {
    const stall = stallWith();
    stall.run({ type: "lift-claims", minutes: 60 }, OPENS);
    const shown = (now: number) => queueView(stall.state, menu, now).claimsLiftedUntil;
    expect(Date.parse(shown(OPENS + 60 * MINUTE - 1) ?? "")).toBe(OPENS + 60 * MINUTE);
    expect(shown(OPENS + 60 * MINUTE)).toBeNull();
  });

  it("refused to somebody unknown are no asks, and write nothing", () => {
    const stall = testStall({ ...menu, rules: Rules.parse({}) }, [StockEntry.parse({ ...NAVY, counted: 0 })]);
    const { version } = stall.state;
    expect(webOrder(stall, 1, 0, { unknown: true })).toMatchObject({
      events: [],
      refusal: { code: "sold-out" },
    });
    expect(stall.state.version).toBe(version);
    // Of a customer with a token it is one.
    expect(webOrder(stall, 1, 0).events).toMatchObject([{ type: "asked", unmet: "sold-out" }]);
  });
});

describe("the garments of one address", () => {
  it("are those in line: orders outside the line do not count against the address", () => {
    const unit = new UnitOfWork(stallWith().store);
    const ordered = (quantity: number): string => {
      const address = "a keyed hash";
      people += 1;
      const command = {
        type: "place",
        customer: customer(`shared ${people}`),
        takenBy: "web",
        lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity }],
        asks: [],
        chance: 0.5,
        unclaimedAtAddress: unclaimedAt(unit, address).garments,
      } as unknown as Command; // plain ids
      const { events } = unit.carryOut(command, OPENS);
      const placed = events.find((event) => event.type === "placed");
      if (placed === undefined) return "refused";
      noteAddress(unit, placed.order.number, address);
      return stageOf(placed.order);
    };
    expect([4, 3, 2, 1].map(ordered)).toEqual(["waiting", "to-claim", "waiting", "to-claim"]);
    expect(unclaimedAt(unit, "a keyed hash")).toEqual({ keylessOrders: 0, garments: 6 });
    expect(unclaimedAt(unit, "another")).toEqual({ keylessOrders: 0, garments: 0 });
  });
});
