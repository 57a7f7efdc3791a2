/** Late undos that find the stall changed: faults that the simulation of whole fairs found. */

import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { nextPromise } from "../../src/stall/line/lateness.ts";
import { reportDue } from "../../src/stall/messages/report-to-fair.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { ids } from "../ids.ts";
import { exampleMenu, MemoryStore, OPENS, placing, testStall } from "./test-stall.ts";

const STOCK = [
  { sku: "tee.navy.L", counted: 9 },
  { design: "longtail", counted: 9 },
].map((entry) => StockEntry.parse(entry));
const identity = () => {
  const { identity: of } = testStall(exampleMenu(), STOCK).state;
  if (of === null) throw new Error("the test stall is not open");
  return of;
};
const PRESS = ids.press("A");

function stallWithOrder() {
  const menu = exampleMenu();
  const stall = testStall({ ...menu, rules: { ...menu.rules, payment: "not-tracked" } }, STOCK);
  const line = { offer: ids.offer("longtail-tee"), colour: "navy", size: "L", quantity: 2 };
  stall.run(placing("ann", { lines: [line] }), OPENS);
  return { stall, menu };
}

describe("an order that is taken up again", () => {
  it("is not, if the menu has lost what it needs: no screen could show it", () => {
    const { stall, menu } = stallWithOrder();
    stall.run({ type: "closed", number: 101, as: "dropped" }, OPENS + 1000);
    const offers = menu.offers.filter(({ id }) => id !== "longtail-tee");
    expect(stall.run({ type: "set-menu", menu: { ...menu, offers } }, OPENS + 2000).refusal).toBeNull();
    const { refusal } = stall.run({ type: "undo-closed", number: 101, was: "dropped" }, OPENS + 3000);
    expect(refusal).toMatchObject({ code: "wrong-stage", stage: "off the menu" });
  });
  it("is in line for every press, if it was reserved for one that is out of order now", () => {
    const { stall } = stallWithOrder();
    stall.run({ type: "set-reserve", press: PRESS, on: true }, OPENS + 1000);
    expect(stall.state.order(101)?.jobs[0]?.stage).toBe("reserved");
    stall.run({ type: "closed", number: 101, as: "dropped" }, OPENS + 2000);
    stall.run({ type: "press-down", press: PRESS }, OPENS + 3000);
    stall.run({ type: "undo-closed", number: 101, was: "dropped" }, OPENS + 4000);
    expect(stall.state.order(101)?.jobs.map(({ stage }) => stage)).toEqual(["waiting", "waiting"]);
  });
});

describe("a clock that is set back", () => {
  it("does not make a sign of the crew from before it news for ever", () => {
    const unit = new UnitOfWork(new MemoryStore());
    unit.carryOut({ type: "open", identity: identity() }, OPENS);
    unit.noticed.crewAt = OPENS + 3_600_000;
    unit.people.pushed.set("", { version: 1, at: OPENS, toldAt: OPENS, shares: null });
    expect(reportDue(unit, OPENS)).toBeNull();
    expect(reportDue(unit, OPENS + 3_600_000)).toBe(OPENS + 3_600_000);
  });
});

describe("the look at late orders", () => {
  it("comes after the promise, not at its very instant: nobody is late then, and it would come again at once", () => {
    const { stall } = stallWithOrder();
    const dueBy = stall.state.order(101)?.dueBy ?? 0;
    expect(nextPromise(stall.state)).toBeGreaterThan(dueBy);
  });
});
