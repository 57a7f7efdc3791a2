import { describe, expect, it } from "vitest";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { tell } from "../../src/stall/messages/notices.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { NOBODY } from "../../src/stall/storage/people.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { CLOSES, customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

describe("last orders", () => {
  it("remind once whoever has something ready, and nobody else", () => {
    const counts = [
      { sku: "tee.navy.L", counted: 5 },
      { design: "longtail", counted: 5 },
    ].map((entry) => StockEntry.parse(entry));
    const { store } = testStall(exampleMenu(), counts);
    const unit = new UnitOfWork(store);
    const carryOut = (command: Command, now: number) => {
      const { events } = unit.carryOut(command, now);
      tell(unit, exampleMenu(), events, now);
      return events;
    };
    for (const [n, name] of ["ann", "ben"].entries()) {
      const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
      // Brands for a test's own ids.
      const place = {
        type: "place",
        customer: customer(name),
        takenBy: "text",
        lines,
        asks: [],
        chance: 0,
      } as unknown as Command;
      const phone = `+1212555010${n}` as PhoneNumber;
      unit.people.persons.set(customer(name), { ...NOBODY, phone, wroteFirst: true });
      carryOut(place, OPENS);
    }
    carryOut({ type: "pull", press: ids.press("A") }, OPENS + MINUTE);
    carryOut({ type: "pressed", job: ids.job("101-1") }, OPENS + 2 * MINUTE);
    const before = unit.people.out.size;
    const called = carryOut({ type: "tick" }, CLOSES - 25 * MINUTE);
    expect(called.map(({ type }) => type)).toContain("last-orders");
    const reminders = [...unit.people.out.values()].filter(({ id }) => id.includes("closing-soon"));
    expect(reminders.map(({ to }) => to)).toEqual(["+12125550100"]);
    expect(reminders[0]?.text).toContain("101");
    carryOut({ type: "tick" }, CLOSES - 20 * MINUTE);
    expect([...unit.people.out.values()].filter(({ id }) => id.includes("closing-soon"))).toHaveLength(1);
    expect(unit.people.out.size).toBeGreaterThan(before);
  });
});
