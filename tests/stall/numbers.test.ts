import { describe, expect, it } from "vitest";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { dropStopped, duePhones, takeDue } from "../../src/stall/messages/delivery.ts";
import { erase } from "../../src/stall/messages/erasing.ts";
import { customerOfNumber, knownCustomer } from "../../src/stall/messages/known-numbers.ts";
import { queueText, setStopped } from "../../src/stall/messages/text-queue.ts";
import { NOBODY } from "../../src/stall/storage/people.ts";
import { write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { CLOSES, customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

const PHONE = "+12125550151" as PhoneNumber; // brand put on
const HASH = customer("keyed-hash");

describe("the customer of a number", () => {
  it("is the same each time, and cannot be found from the number any more once people were erased", () => {
    const { store } = testStall(exampleMenu(), []);
    const unit = new UnitOfWork(store);
    const first = customerOfNumber(unit, HASH, customer("first"));
    expect(customerOfNumber(unit, HASH, customer("second"))).toBe(first);
    expect(first).toBe(customer("first"));
    write(store, unit.drain());
    // Long past its time when it is first noticed, erasing waits 48 hours.
    const later = CLOSES + 40 * 24 * 3_600_000;
    for (const hours of [0, 48]) write(store, erase(unit, store, later + hours * 3_600_000));
    expect([...store.rows].filter(([row]) => row.includes(HASH) || row.startsWith("known:"))).toEqual([]);
    expect(customerOfNumber(new UnitOfWork(store), HASH, customer("third"))).toBe(customer("third"));
  });
  it("is the keyed hash itself if an earlier version wrote its rows", () => {
    const unit = new UnitOfWork(testStall(exampleMenu(), []).store);
    expect(knownCustomer(unit, HASH)).toBeUndefined();
    unit.people.persons.set(HASH, { ...NOBODY, phone: PHONE });
    expect(customerOfNumber(unit, HASH, customer("fresh"))).toBe(HASH);
  });
});

describe("a number that the fair knows to have said STOP", () => {
  it("is sent nothing that is due, but for the answer to STOP itself", () => {
    const unit = new UnitOfWork(testStall(exampleMenu(), []).store);
    const lane = customer("ann");
    const row = { customer: lane, lane, to: PHONE, whileReady: null, dueAt: OPENS, own: true };
    queueText(unit, exampleMenu(), { ...row, id: "1", text: "It is ready" }, OPENS);
    queueText(unit, exampleMenu(), { ...row, id: "2", text: "No more texts", answersStop: true }, OPENS);
    unit.people.budget.set("", { day: "2027-06-12", segments: 9, own: 9 });
    expect(duePhones(unit, OPENS)).toEqual([PHONE]);
    dropStopped(unit, OPENS, new Set([PHONE]));
    expect(takeDue(unit, OPENS, "2027-06-12", new Set()).map(({ id }) => id)).toEqual(["2"]);
    expect(unit.people.person(lane).optedOut).toBe(true);
  });
  it("is not sent what an earlier START was answered either, if that still waits when it says STOP again", () => {
    const unit = new UnitOfWork(testStall(exampleMenu(), []).store);
    const lane = customer("ann");
    const row = { customer: lane, lane, to: PHONE, whileReady: null, dueAt: OPENS, own: true };
    queueText(unit, exampleMenu(), { ...row, id: "1", text: "Welcome back", answersStop: true }, OPENS);
    setStopped(unit, exampleMenu(), lane, true);
    expect([...unit.people.outbox.of(lane)]).toEqual([]);
  });
});
