/** The organiser stops all orders of the fair and lets them go on: which orders are refused, and which waits move. */

import { beforeEach, describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import { boardView, menuView } from "../../src/stall/calls/views.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { ids } from "../ids.ts";
import { expectAgreement, expectStockHolds } from "./invariants.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "./test-stall.ts";

const MINUTE = 60_000;
const STOCK = [
  { sku: "tee.navy.L", counted: 20 },
  { design: "longtail", counted: 20 },
].map((entry) => StockEntry.parse(entry));
const LINES = [{ offer: ids.offer("longtail-tee"), colour: "navy", size: "L", quantity: 1 }];
const STORM = { reason: "storm", pressing: false };
const EVACUATED = { reason: "evacuation", pressing: true };

let stall: TestStall;
let now: number;

beforeEach(() => {
  stall = testStall(exampleMenu(), STOCK);
  now = OPENS + 10 * MINUTE;
});

const does = (command: object, at = now) => stall.run(command as unknown as Command, at); // plain ids
const order = (takenBy: string, more: object = {}) =>
  does({ type: "place", customer: customer(takenBy), takenBy, lines: LINES, asks: [], chance: 0.3, ...more });
const dueBy = (number: number): number => stall.state.order(number)?.dueBy ?? Number.NaN;

describe("while the organiser has stopped all orders", () => {
  it.each(["web", "text", "counter", "paper"])(
    "no order is taken by %s, and its ask is counted where it is one",
    (takenBy) => {
      does({ type: "set-fair-stop", stop: STORM });
      const { refusal } = order(
        takenBy,
        takenBy === "paper" ? { paper: { number: 7001, takenAt: now } } : {},
      );
      expect(refusal).toEqual({ code: "fair-stopped", reason: "storm" });
      expect(stall.state.orders.size).toBe(0);
      expectAgreement(stall.state, stall.store);
    },
  );

  it("a customer who was asked to confirm before it is refused as well, and can say yes when the stalls go on", () => {
    const held = does({ type: "hold", customer: customer("text"), takenBy: "text", lines: LINES, asks: [] });
    expect(held.refusal).toBeNull();
    does({ type: "set-fair-stop", stop: STORM });
    expect(order("text").refusal).toMatchObject({ code: "fair-stopped" });
    does({ type: "set-fair-stop", stop: null });
    expect(order("text").refusal).toBeNull();
    expectStockHolds(stall.state);
  });

  it("orders taken before on paper, or by a counter without signal, are accepted", () => {
    does({ type: "set-fair-stop", stop: STORM });
    now += MINUTE;
    expect(order("paper", { paper: { number: 7001, takenAt: now - 2 * MINUTE } }).refusal).toBeNull();
    expect(order("counter", { late: true }).refusal).toBeNull();
  });

  it("the crew cannot override it: neither by its own resume nor by keeping intake open", () => {
    does({ type: "set-fair-stop", stop: STORM });
    for (const command of [
      { type: "resume" },
      { type: "keep-open", open: true },
      { type: "set-web-orders", open: true },
    ])
      does(command);
    expect(order("counter").refusal).toMatchObject({ code: "fair-stopped" });
    does({ type: "pause", reason: "lunch" });
    does({ type: "set-fair-stop", stop: null });
    expect(order("web").refusal).toMatchObject({ code: "paused" });
    expect(order("counter").refusal).toBeNull();
  });

  it("an order gets no further garment from the crew, and none in exchange; it can still change or lose one", () => {
    order("counter");
    order("counter");
    const [size, line] = [{ ...LINES[0], size: "L" }, LINES[0]];
    does({ type: "pull", press: "A" });
    does({ type: "pressed", job: "101-1" });
    does({ type: "set-fair-stop", stop: STORM });
    const stopped = { code: "fair-stopped", reason: "storm" };
    const exchange = {
      type: "garment-exchanged",
      number: 101,
      n: 1,
      instead: size,
      keeps: true,
      chance: 0.3,
    };
    expect(does(exchange).refusal).toEqual(stopped);
    const onOther = (...changes: readonly object[]) => does({ type: "changed", number: 102, changes });
    expect(onOther({ type: "add", line }).refusal).toEqual(stopped);
    expect(onOther({ type: "instead", jobs: [1], garment: size }).refusal).toBeNull();
    does({ type: "set-fair-stop", stop: null });
    expect(does(exchange).events.map(({ type }) => type)).toContain("changed");
    expect(onOther({ type: "add", line }).refusal).toBeNull();
    expect(stall.state.order(102)?.jobs).toHaveLength(2);
    expectStockHolds(stall.state);
    expectAgreement(stall.state, stall.store);
  });

  it("every screen says so", () => {
    const menu = exampleMenu();
    does({ type: "set-fair-stop", stop: STORM });
    expect(menuView(stall.state, menu, now).paused).toBe(true);
    const queue = queueView(stall.state, menu, now);
    expect(queue.fairStop).toEqual({ ...STORM, since: new Date(now).toISOString() });
    expect([queue.intake.open, queue.paused]).toEqual([false, null]);
    expect(boardView(stall.state, now).stall).toBe("Tern & Tide");
  });
});

describe("promised waits", () => {
  it("stay as they are while the presses work", () => {
    order("counter");
    const promised = dueBy(101);
    does({ type: "set-fair-stop", stop: STORM });
    expect(does({ type: "pull", press: ids.press("A") }).refusal).toBeNull();
    now += 20 * MINUTE;
    does({ type: "set-fair-stop", stop: null });
    expect(dueBy(101)).toBe(promised);
  });

  it("move by as long as pressing was stopped; nothing is pulled in that time, but a garment on a press can be finished", () => {
    order("counter");
    order("web");
    does({ type: "pull", press: ids.press("A") });
    const promised = dueBy(102);
    does({ type: "set-fair-stop", stop: EVACUATED });
    expect(does({ type: "pull", press: ids.press("B") }).refusal).toMatchObject({ code: "fair-stopped" });
    expect(does({ type: "pressed", job: "101-1" }).refusal).toBeNull();
    now += 20 * MINUTE;
    // No "runs late" is sent while everything is stopped.
    expect(does({ type: "tick" }, now).events).toEqual([]);
    does({ type: "set-fair-stop", stop: null });
    expect(dueBy(102)).toBe(promised + 20 * MINUTE);
    expectAgreement(stall.state, stall.store);
  });

  it.each([
    [
      "the crew",
      [
        { type: "pause", reason: "rain" },
        { type: "set-fair-stop", stop: EVACUATED },
      ],
    ],
    [
      "the organiser",
      [
        { type: "set-fair-stop", stop: EVACUATED },
        { type: "pause", reason: "rain" },
      ],
    ],
  ])("move once by all of it where %s stops first and both stand still for a while", (_, [first, second]) => {
    for (const [one, other] of [
      [{ type: "resume" }, { type: "set-fair-stop", stop: null }],
      [{ type: "set-fair-stop", stop: null }, { type: "resume" }],
    ]) {
      const number = stall.state.status.nextNumber;
      order("counter");
      const promised = dueBy(number);
      does(first as object);
      now += 5 * MINUTE;
      does(second as object);
      now += 5 * MINUTE;
      does(one as object);
      expect(dueBy(number)).toBe(promised);
      now += 5 * MINUTE;
      does(other as object);
      expect(dueBy(number)).toBe(promised + 15 * MINUTE);
      expectAgreement(stall.state, stall.store);
    }
  });

  it("begin to run again if only pressing goes on", () => {
    order("counter");
    const promised = dueBy(101);
    does({ type: "set-fair-stop", stop: EVACUATED });
    now += 5 * MINUTE;
    does({ type: "set-fair-stop", stop: { ...EVACUATED, pressing: false } });
    expect(dueBy(101)).toBe(promised + 5 * MINUTE);
    now += 5 * MINUTE;
    does({ type: "set-fair-stop", stop: null });
    expect(dueBy(101)).toBe(promised + 5 * MINUTE);
    expectAgreement(stall.state, stall.store);
  });
});

describe("announcements", () => {
  const said = (id: string, at: number) => ({ id, text: `${id} says`, at });
  const shown = () => queueView(stall.state, exampleMenu(), now).announcements?.map(({ id }) => id);

  it("are shown until the crew has read them, or the organiser takes them back; said again they are no news", () => {
    const [one, other] = [said("rain-at-four", now), said("lost-child", now + 1000)];
    does({ type: "hear-announcements", announcements: [one, other] });
    expect(shown()).toEqual([one.id, other.id]);
    does({ type: "read-announcement", id: one.id });
    expect(shown()).toEqual([other.id]);
    expect(does({ type: "hear-announcements", announcements: [one, other] }).events).toEqual([]);
    does({ type: "hear-announcements", announcements: [one] });
    expect(shown()).toEqual([]);
    expect(does({ type: "read-announcement", id: other.id }).events).toEqual([]);
    expectAgreement(stall.state, stall.store);
  });

  it("are kept to the latest 20, and an old one does not come back", () => {
    const all = Array.from({ length: 25 }, (_, n) => said(`announcement-${n + 10}`, now + n));
    for (const [n] of all.entries())
      does({ type: "hear-announcements", announcements: all.slice(Math.max(0, n - 19), n + 1) });
    expect(stall.state.announcements.size).toBe(20);
    expect(shown()).toEqual(all.slice(5).map(({ id }) => id));
    expectAgreement(stall.state, stall.store);
  });
});
