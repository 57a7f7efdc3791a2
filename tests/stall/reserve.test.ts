import { describe, expect, it } from "vitest";
import type { PressId } from "../../src/model/basics/ids.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import {
  expectedSeconds,
  HEARD_EVERY,
  LET_GO_AFTER,
  nextLetGo,
  RESERVED_MOST,
  reserveUntil,
  SILENT_FOR,
} from "../../src/stall/line/reserve.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { hearingChanges } from "../../src/stall/rules/decide/reserving.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { expectAgreement } from "./invariants.ts";
import { customer, exampleMenu, OPENS, placing, testStall } from "./test-stall.ts";

const A = ids.press("A");
const B = ids.press("B");
const STOCK = [
  { sku: "tee.navy.L", counted: 90 },
  { design: "longtail", counted: 90 },
].map((entry) => StockEntry.parse(entry));
const job = (number: number) => ids.job(`${number}-1`);

type TestFloor = ReturnType<typeof waiting>;

const place = (n: number): Command => placing(`customer-${n}`, { chance: 0.1 });

/** A stall with this many orders of one tee in line. */
function waiting(orders: number, menu: Menu = exampleMenu()) {
  const stall = testStall(menu, STOCK);
  for (let n = 0; n < orders; n++) stall.run(place(n), OPENS);
  return stall;
}
/** The example stall with press A as the only flat one. */
function onlyA(orders: number) {
  const menu = exampleMenu();
  return waiting(orders, { ...menu, presses: menu.presses.filter(({ id }) => id !== B) });
}
const reserveOf = ({ state }: TestFloor, press: PressId): readonly number[] =>
  [...(state.orderIndex.reserved.get(press) ?? [])].map(({ number }) => number);
const on = ({ state }: TestFloor, press: PressId) => state.orderIndex.onPress.get(press)?.number;
const stageOf = ({ state }: TestFloor, number: number) => state.order(number)?.jobs[0]?.stage;
const reserve = (press: PressId, set = true): Command => ({ type: "set-reserve", press, on: set });

describe("the reserve of a press", () => {
  it("is the press's own: no other press gets it, and the press takes it first", () => {
    const stall = waiting(8);
    stall.run(reserve(A), OPENS);
    const own = reserveOf(stall, A);
    expect(own.slice(0, 3)).toEqual([101, 102, 103]);
    stall.run({ type: "pull", press: B }, OPENS);
    expect(own).not.toContain(on(stall, B));
    stall.run({ type: "pull", press: A }, OPENS);
    expect(on(stall, A)).toBe(101);
  });
  it("is all that waits if no other press has the platen, up to what a screen is sent", () => {
    const stall = onlyA(30);
    stall.run(reserve(A), OPENS);
    expect(reserveOf(stall, A)).toHaveLength(30);
    for (let n = 30; n < 60; n++) stall.run(place(n), OPENS);
    stall.run({ type: "fill-reserve", press: A }, OPENS);
    expect(reserveOf(stall, A)).toHaveLength(RESERVED_MOST);
  });
  it("is what 20 minutes need at the stall's pace if another press has the platen", () => {
    const stall = waiting(70);
    stall.run(reserve(A), OPENS);
    const { state } = stall;
    const { menu } = state;
    const press = menu?.presses.find(({ id }) => id === A);
    if (menu === null || press === undefined) throw new Error("the example has a press A");
    const own = [...(state.orderIndex.reserved.get(A) ?? [])];
    expect(expectedSeconds(state, menu, press, own) * 1000).toBeGreaterThanOrEqual(SILENT_FOR);
    expect(expectedSeconds(state, menu, press, own.slice(1)) * 1000).toBeLessThan(SILENT_FOR);
  });
  it("fills as orders come, when its tablet asks for the queue, and not after each question", () => {
    const stall = onlyA(0);
    stall.run(reserve(A), OPENS);
    expect(reserveOf(stall, A)).toEqual([]);
    const { menu } = stall.state;
    if (menu === null) throw new Error("the example has a menu");
    expect(hearingChanges(stall.state, menu, A, OPENS + 1000)).toBe(false);
    stall.run(place(1), OPENS + 2000);
    expect(hearingChanges(stall.state, menu, A, OPENS + 3000)).toBe(true);
    stall.run({ type: "fill-reserve", press: A }, OPENS + 3000);
    expect(reserveOf(stall, A)).toEqual([101]);
    expect(hearingChanges(stall.state, menu, A, OPENS + 4000)).toBe(false);
    expect(hearingChanges(stall.state, menu, A, OPENS + 3000 + HEARD_EVERY)).toBe(true);
  });
  it("holds the one that its tablet took without signal, and no other garment can be taken so", () => {
    const stall = waiting(8);
    stall.run(reserve(A), OPENS);
    const other = stall.run({ type: "pull", press: A, job: job(108) }, OPENS);
    expect(other.refusal).toMatchObject({ code: "wrong-stage" });
    stall.run({ type: "pull", press: A, job: job(102) }, OPENS);
    expect(on(stall, A)).toBe(102);
    expect(stall.state.order(101)?.jobs[0]).toMatchObject({ stage: "reserved", overtaken: 0 });
  });
  it("counts an overtaking when a garment is reserved, and not again when it is pulled", () => {
    const otter = [
      { sku: "tee.sand.M", counted: 9 },
      { design: "otter", counted: 9 },
    ];
    const stall = testStall(exampleMenu(), [...STOCK, ...otter.map((entry) => StockEntry.parse(entry))]);
    // Another heat than that of the tees before and after it.
    const cooler = { offer: "otter-tee", colour: "sand", size: "M", quantity: 1 };
    for (let n = 0; n < 8; n++) {
      const order = place(n);
      stall.run(n === 1 ? ({ ...order, lines: [cooler] } as unknown as Command) : order, OPENS); // plain ids
    }
    const overtaken = (): number => {
      const [one] = stall.state.order(102)?.jobs ?? [];
      return one !== undefined && "overtaken" in one ? one.overtaken : 0;
    };
    stall.run({ type: "pull", press: A }, OPENS);
    expect(overtaken()).toBe(0);
    stall.run(reserve(A), OPENS);
    const counted = overtaken();
    expect(counted).toBeGreaterThan(0);
    expect(reserveOf(stall, A)[0]).toBe(103);
    stall.run({ type: "pressed", job: job(101) }, OPENS + MINUTE);
    stall.run({ type: "pull", press: A }, OPENS + MINUTE);
    expect(on(stall, A)).toBe(103);
    expect(overtaken()).toBe(counted);
  });
  it("is never more than the press's share of the line, so that another does not stand idle", () => {
    const stall = waiting(3);
    stall.run(reserve(A), OPENS);
    expect(reserveOf(stall, A)).toEqual([101]);
  });
  it("goes back to the line with the press that is out of order", () => {
    const stall = waiting(6);
    stall.run(reserve(A), OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    stall.run({ type: "press-down", press: A }, OPENS);
    expect(reserveOf(stall, A)).toEqual([]);
    expect(stall.run({ type: "pull", press: A }, OPENS).refusal).toMatchObject({ code: "press-down" });
    stall.run({ type: "pull", press: B }, OPENS);
    expect(on(stall, B)).toBe(101);
  });
});

describe("a silent press", () => {
  it("keeps its reserve for 20 minutes after its tablet was last heard, and then loses it with its turn kept", () => {
    const stall = waiting(8);
    stall.run(reserve(A), OPENS);
    // The tablet keeps polling, and nothing is written each time; then it falls silent.
    let heard = OPENS;
    for (let at = OPENS; at <= OPENS + 5 * MINUTE; at += 2000) {
      stall.run({ type: "fill-reserve", press: A }, at);
      heard = at;
    }
    const until = reserveUntil(stall.state, A) ?? 0;
    expect(until - heard).toBeGreaterThan(SILENT_FOR);
    expect(until - heard).toBeLessThanOrEqual(LET_GO_AFTER);
    expect(nextLetGo(stall.state)).toBe(until);
    stall.run({ type: "tick" }, until - 1);
    const own = reserveOf(stall, A);
    expect(own.length).toBeGreaterThan(1);
    stall.run({ type: "tick" }, until);
    expect(reserveOf(stall, A)).toEqual([]);
    expect(nextLetGo(stall.state)).toBeNull();
    stall.run({ type: "pull", press: B }, until);
    expect(on(stall, B)).toBe(101);
    // The press that has it now is told to look at the silent press first.
    expect(stall.state.order(101)?.jobs[0]?.letGo).toMatchObject([{ press: A }]);
    expectAgreement(stall.state, stall.store);
  });
  it("gets nothing more reserved until its tablet has shown what was let go", () => {
    const stall = waiting(8);
    stall.run(reserve(A), OPENS);
    const own = reserveOf(stall, A);
    const later = OPENS + LET_GO_AFTER;
    stall.run({ type: "pull", press: B }, later);
    expect(stall.state.press(A).letGo?.jobs.map(({ number }) => number)).toEqual(own);
    stall.run({ type: "fill-reserve", press: A }, later + 1000);
    expect(reserveOf(stall, A)).toEqual([]);
    stall.run(reserve(A), later + 2000);
    expect(stall.state.press(A).letGo).toBeUndefined();
    expect(reserveOf(stall, A).length).toBeGreaterThan(0);
    stall.evict();
    expectAgreement(stall.state, stall.store);
  });
});

describe("a reserve that is wanted elsewhere", () => {
  it("is asked back in half if another press of the platen would stand idle, and comes with the answer only", () => {
    const stall = waiting(6);
    stall.run(reserve(A), OPENS);
    stall.run({ type: "set-reserve", press: B, on: false }, OPENS);
    // B works off all that is open.
    while (stall.state.orderIndex.waiting.flat.length > 0) {
      stall.run({ type: "pull", press: B }, OPENS);
      stall.run({ type: "pressed", job: job(on(stall, B) ?? 0) }, OPENS);
    }
    const own = reserveOf(stall, A);
    expect(own.length).toBeGreaterThan(1);
    stall.run({ type: "pull", press: B }, OPENS);
    expect(on(stall, B)).toBeUndefined();
    const asked = own.filter((number) => {
      const [one] = stall.state.order(number)?.jobs ?? [];
      return one?.stage === "reserved" && one.askedBack === true;
    });
    expect(asked).toEqual(own.slice(Math.floor(own.length / 2)));
    // Until the tablet answers, no other press gets them, not even by asking again.
    expect(stall.run({ type: "pull", press: B }, OPENS + MINUTE).events).toEqual([]);
    expect(stall.run({ type: "returned", job: job(asked[0] ?? 0) }, OPENS).refusal).not.toBeNull();
    stall.run({ type: "reserve-returned", press: A, jobs: asked.map(job) }, OPENS + MINUTE);
    stall.run({ type: "pull", press: B }, OPENS + MINUTE);
    expect(on(stall, B)).toBe(asked[0]);
    // The press does not take back the garments it gave.
    stall.run({ type: "fill-reserve", press: A }, OPENS + MINUTE);
    expect(reserveOf(stall, A)).toEqual(own.filter((number) => !asked.includes(number)));
  });
  it("stays with the tablet for the garment it has taken meanwhile", () => {
    const stall = onlyA(3);
    stall.run(reserve(A), OPENS);
    stall.run({ type: "reserve-asked-back", press: A }, OPENS);
    stall.run({ type: "pull", press: A, job: job(101), at: OPENS + 500 }, OPENS + 1000);
    stall.run({ type: "reserve-returned", press: A, jobs: [job(101), job(102)] }, OPENS + 2000);
    expect([101, 102, 103].map((number) => stageOf(stall, number))).toEqual([
      "pressing",
      "waiting",
      "reserved",
    ]);
  });
  it("is not pulled by its own press while somebody else wants it", () => {
    const stall = onlyA(1);
    stall.run(reserve(A), OPENS);
    stall.run({ type: "reserve-asked-back", press: A }, OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(on(stall, A)).toBeUndefined();
  });
  it("comes back at once with the tablet that leaves the press, in one tap", () => {
    const stall = waiting(8);
    stall.run(reserve(A), OPENS);
    stall.run(reserve(A, false), OPENS);
    expect(reserveOf(stall, A)).toEqual([]);
    stall.run({ type: "fill-reserve", press: A }, OPENS);
    expect(reserveOf(stall, A)).toEqual([]);
    stall.run({ type: "pull", press: B }, OPENS);
    expect(on(stall, B)).toBe(101);
  });
});

describe("an order with a reserved garment", () => {
  const drop = (number: number, by?: string): Command => ({
    type: "closed",
    number,
    as: "dropped",
    ...(by === undefined ? {} : { byCustomer: customer(by) }),
  });
  it("is dropped once its press has given the garment back, and not before", () => {
    const stall = onlyA(2);
    stall.run(reserve(A), OPENS);
    const asked = stall.run(drop(101, "customer-0"), OPENS);
    expect(asked.refusal).toMatchObject({ code: "reserved", number: 101, press: "A" });
    expect(stageOf(stall, 101)).toBe("reserved");
    stall.run({ type: "reserve-returned", press: A, jobs: [job(101)] }, OPENS + 2000);
    expect(stall.state.order(101)).toBeUndefined();
    expect(stall.state.anyOrder(101)?.closed?.as).toBe("dropped");
    expectAgreement(stall.state, stall.store);
  });
  it("goes on if the tablet had taken the garment already, and can be dropped again by the crew", () => {
    const stall = onlyA(2);
    stall.run(reserve(A), OPENS);
    stall.run(drop(101, "customer-0"), OPENS);
    const taken = stall.run({ type: "pull", press: A, job: job(101) }, OPENS + 1000);
    expect(taken.events).toContainEqual({ type: "closing-declined", number: 101, byCustomer: true });
    stall.run({ type: "reserve-returned", press: A, jobs: [job(101)] }, OPENS + 2000);
    expect(stageOf(stall, 101)).toBe("pressing");
    expect(stall.state.order(101)?.closing).toBeUndefined();
    expect(stall.run(drop(101), OPENS + 3000).refusal).toBeNull();
  });
  it("is dropped at the latest when the silent press loses its reserve", () => {
    const stall = onlyA(2);
    stall.run(reserve(A), OPENS);
    stall.run(drop(102), OPENS + MINUTE);
    stall.run({ type: "tick" }, OPENS + LET_GO_AFTER);
    expect(stall.state.anyOrder(102)?.closed?.as).toBe("dropped");
    expect(stageOf(stall, 101)).toBe("waiting");
  });
  it("keeps its payment if payment comes first: the press may be at work on it", () => {
    const menu = exampleMenu();
    const stall = onlyA(0);
    stall.run(
      { type: "set-menu", menu: { ...menu, rules: { ...menu.rules, payment: "before-pressing" } } },
      OPENS,
    );
    stall.run(place(0), OPENS);
    stall.run({ type: "paid", number: 101, tender: "cash" }, OPENS);
    stall.run(reserve(A), OPENS);
    stall.run({ type: "fill-reserve", press: B }, OPENS);
    expect(stageOf(stall, 101)).toBe("waiting");
    stall.run(place(1), OPENS);
    stall.run({ type: "paid", number: 102, tender: "cash" }, OPENS);
    stall.run({ type: "fill-reserve", press: A }, OPENS);
    expect(stageOf(stall, 101)).toBe("reserved");
    expect(stall.run({ type: "undo-paid", number: 101 }, OPENS).refusal).toMatchObject({
      code: "wrong-stage",
    });
  });
  it("gives up its stock last when a count falls below what is promised", () => {
    const stall = waiting(6);
    stall.run(reserve(A), OPENS);
    const own = reserveOf(stall, A);
    const entries = [StockEntry.parse({ sku: "tee.navy.L", counted: own.length })];
    stall.run({ type: "change-stock", entries }, OPENS);
    expect(reserveOf(stall, A)).toEqual(own);
    expect(stall.state.orderIndex.waiting.flat.length).toBe(0);
  });
});

describe("a press that is occupied", () => {
  it("answers with the job it has, and takes no second", () => {
    const stall = waiting(3);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(stall.run({ type: "pull", press: A }, OPENS + 1000)).toEqual({ events: [], refusal: null });
    expect(on(stall, A)).toBe(101);
  });
});
