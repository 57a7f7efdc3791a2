import { describe, expect, it } from "vitest";
import type { JobId, PressId } from "../../src/model/basics/ids.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { ASIDE_FOR, asideUntil, nextAsideBack } from "../../src/stall/line/reserve.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

const A = "A" as PressId; // brands for the example menu's own ids
const B = "B" as PressId;
const MINUTE = 60_000;
const STOCK = [
  { sku: "tee.navy.L", counted: 20 },
  { design: "longtail", counted: 20 },
].map((entry) => StockEntry.parse(entry));

/** A stall with so many orders of one tee in line. */
function waiting(orders: number) {
  const stall = testStall(exampleMenu(), STOCK);
  const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
  for (let n = 0; n < orders; n++) {
    const who = customer(`customer-${n}`);
    const place = { type: "place", customer: who, takenBy: "counter", lines, asks: [], chance: 0.1 };
    stall.run(place as unknown as Command, OPENS); // plain ids
  }
  return stall;
}
const asideOf = (stall: ReturnType<typeof waiting>, press: PressId): readonly number[] =>
  [...(stall.state.orderIndex.aside.get(press) ?? [])].map(({ number }) => number);

describe("jobs kept aside", () => {
  it("are the press's own: no other press gets them, and it takes them first", () => {
    const stall = waiting(8);
    stall.run({ type: "keep-aside", press: A, jobs: 3 }, OPENS);
    expect(asideOf(stall, A)).toEqual([101, 102, 103]);
    stall.run({ type: "pull", press: B }, OPENS);
    expect(stall.state.orderIndex.onPress.get(B)?.number).toBe(104);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(stall.state.orderIndex.onPress.get(A)?.number).toBe(101);
    // Taking one of them puts the next aside in its stead.
    expect(asideOf(stall, A)).toEqual([102, 103, 105]);
  });
  it("are the one a tablet took without signal, and nothing else", () => {
    const stall = waiting(8);
    stall.run({ type: "keep-aside", press: A, jobs: 2 }, OPENS);
    const other = stall.run({ type: "pull", press: A, job: "105-1" as JobId }, OPENS);
    expect(other.refusal).toMatchObject({ code: "wrong-stage" });
    stall.run({ type: "pull", press: A, job: "102-1" as JobId }, OPENS);
    expect(stall.state.orderIndex.onPress.get(A)?.number).toBe(102);
    expect(stall.state.order(101)?.jobs[0]).toMatchObject({ stage: "aside", overtaken: 0 });
  });
  it("go back by themselves where nothing is heard of the press for twenty minutes, and keep their turn", () => {
    const stall = waiting(8);
    stall.run({ type: "keep-aside", press: A, jobs: 3 }, OPENS);
    stall.run({ type: "pull", press: A }, OPENS + MINUTE);
    const until = OPENS + MINUTE + ASIDE_FOR;
    expect(asideUntil(stall.state, A)).toBe(until);
    expect(nextAsideBack(stall.state)).toBe(until);
    stall.run({ type: "tick" }, until - 1);
    expect(asideOf(stall, A)).toHaveLength(3);
    stall.run({ type: "tick" }, until);
    expect(asideOf(stall, A)).toEqual([]);
    expect(nextAsideBack(stall.state)).toBeNull();
    // What lies on it stays: only another tablet at this press knows more.
    expect(stall.state.orderIndex.onPress.get(A)?.number).toBe(101);
    stall.run({ type: "pull", press: B }, until);
    expect(stall.state.orderIndex.onPress.get(B)?.number).toBe(102);
  });
  it("stay as long as the press is heard of, by a garment pressed", () => {
    const stall = waiting(8);
    stall.run({ type: "keep-aside", press: A, jobs: 3 }, OPENS);
    stall.run({ type: "pull", press: A }, OPENS + MINUTE);
    stall.run({ type: "finish", job: "101-1" as JobId, press: A }, OPENS + 15 * MINUTE);
    expect(asideUntil(stall.state, A)).toBe(OPENS + 15 * MINUTE + ASIDE_FOR);
  });
  it("go back by a tap, all or one, and keep their turn", () => {
    const stall = waiting(8);
    stall.run({ type: "keep-aside", press: A, jobs: 3 }, OPENS);
    stall.run({ type: "hand-back", job: "102-1" as JobId }, OPENS);
    expect(asideOf(stall, A)).toEqual([101, 103]);
    stall.run({ type: "keep-aside", press: A, jobs: 0 }, OPENS);
    expect(asideOf(stall, A)).toEqual([]);
    stall.run({ type: "pull", press: B }, OPENS);
    expect(stall.state.orderIndex.onPress.get(B)?.number).toBe(101);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(asideOf(stall, A)).toEqual([]);
  });
  it("are never more than the press's share of the line, so that another does not stand idle", () => {
    const stall = waiting(3);
    stall.run({ type: "keep-aside", press: A, jobs: 3 }, OPENS);
    expect(asideOf(stall, A)).toEqual([101]);
  });
  it("go back to the line with the press that is down", () => {
    const stall = waiting(6);
    stall.run({ type: "keep-aside", press: A, jobs: 2 }, OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    stall.run({ type: "press-down", press: A }, OPENS);
    expect(asideOf(stall, A)).toEqual([]);
    expect(stall.run({ type: "pull", press: A }, OPENS).refusal).toMatchObject({ code: "press-down" });
    stall.run({ type: "pull", press: B }, OPENS);
    expect(stall.state.orderIndex.onPress.get(B)?.number).toBe(101);
    stall.run({ type: "press-up", press: A }, OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(stall.state.orderIndex.onPress.get(A)?.number).toBe(102);
  });
});

describe("a press that is occupied", () => {
  it("answers with the job it has, and takes no second", () => {
    const stall = waiting(3);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(stall.run({ type: "pull", press: A }, OPENS + 1000)).toEqual({ events: [], refusal: null });
    expect(stall.state.orderIndex.onPress.get(A)?.number).toBe(101);
  });
});
