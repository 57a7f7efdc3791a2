import { describe, expect, it } from "vitest";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { LATE_MOST } from "../../src/stall/line/late-taps.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { bucketKey } from "../../src/time/bucket.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { expectAgreement } from "./invariants.ts";
import { exampleMenu, OPENS, placing, testStall } from "./test-stall.ts";

const A = ids.press("A");
const B = ids.press("B");
const first = ids.job("101-1");
const second = ids.job("102-1");

/** A stall with garments in line, the first of them pulled for press A a minute after opening. */
function stallWith(orders: number) {
  const menu = exampleMenu();
  const stall = testStall({ ...menu, rules: { ...menu.rules, payment: "not-tracked" } }, [
    StockEntry.parse({ sku: "tee.navy.L", counted: 9 }),
    StockEntry.parse({ design: "longtail", counted: 9 }),
  ]);
  for (let i = 0; i < orders; i += 1) {
    stall.run(placing(`c${i}`), OPENS);
  }
  stall.run({ type: "pull", press: A }, OPENS + MINUTE);
  return stall;
}

describe("a tap that arrives late", () => {
  it("counts from when it was made: the order was ready then, and kept its promise", () => {
    const stall = stallWith(1);
    const dueBy = stall.state.order(101)?.dueBy ?? 0;
    const heard = dueBy + 30 * MINUTE;
    const tapped = OPENS + 3 * MINUTE;
    stall.run({ type: "pressed", job: first, press: A, at: tapped }, heard);
    expect(stall.state.order(101)?.readyAt).toBe(tapped);
    expect(stall.state.pace.freed[A]).toBe(tapped);
    expect(stall.state.buckets.get(bucketKey(tapped))).toMatchObject({
      pressed: 1,
      pressSeconds: 120,
      promised: 1,
      kept: 1,
    });
    expectAgreement(stall.state, stall.store);
  });
  it("teaches the pace the same as if it had been heard at once", () => {
    const [late, prompt] = [stallWith(1), stallWith(1)];
    late.run({ type: "pressed", job: first, at: OPENS + 3 * MINUTE }, OPENS + 50 * MINUTE);
    prompt.run({ type: "pressed", job: first }, OPENS + 3 * MINUTE);
    expect(late.state.pace).toEqual(prompt.state.pace);
  });
  it("is never put after now, before what came last of its garment, or back by more than some hours", () => {
    const when = (at: number, now: number) => {
      const stall = stallWith(1);
      stall.run({ type: "pressed", job: first, at }, now);
      return stall.state.order(101)?.readyAt;
    };
    expect(when(OPENS + 9 * MINUTE, OPENS + 5 * MINUTE)).toBe(OPENS + 5 * MINUTE);
    expect(when(OPENS - 9 * MINUTE, OPENS + 5 * MINUTE)).toBe(OPENS + MINUTE);
    expect(when(OPENS + 2 * MINUTE, OPENS + LATE_MOST + 60 * MINUTE)).toBe(OPENS + 60 * MINUTE);
  });
  it("holds for garments taken from the reserve, one after the other", () => {
    const stall = stallWith(4);
    stall.run({ type: "set-reserve", press: A, on: true }, OPENS + MINUTE);
    const reserved = [...(stall.state.orderIndex.reserved.get(A) ?? [])].map(({ number, n }) =>
      ids.job(`${number}-${n}`),
    );
    const [next] = reserved;
    if (next === undefined) throw new Error("nothing was reserved");
    const heard = OPENS + 15 * MINUTE;
    stall.run({ type: "pressed", job: first, press: A, at: OPENS + 3 * MINUTE }, heard);
    stall.run({ type: "pull", press: A, job: next, at: OPENS + 4 * MINUTE }, heard);
    stall.run({ type: "pressed", job: next, press: A, at: OPENS + 6 * MINUTE }, heard);
    const number = Number(next.split("-")[0]);
    expect(stall.state.order(number)?.readyAt).toBe(OPENS + 6 * MINUTE);
    expectAgreement(stall.state, stall.store);
  });
});

describe("a garment taken without signal, if the tap arrives after the garment went back to the line", () => {
  function takenThen(between: (stall: ReturnType<typeof stallWith>, heard: number) => void) {
    const stall = stallWith(4);
    stall.run({ type: "pressed", job: first, press: A }, OPENS + 2 * MINUTE);
    stall.run({ type: "set-reserve", press: A, on: true }, OPENS + 2 * MINUTE);
    const heard = OPENS + 30 * MINUTE;
    stall.run({ type: "tick" }, heard);
    expect(stall.state.order(102)?.jobs[0]?.stage).toBe("waiting");
    between(stall, heard);
    return stall.run({ type: "pull", press: A, job: second, at: OPENS + 3 * MINUTE }, heard);
  }
  it("is on that press after all if nobody else took it", () => {
    expect(takenThen(() => undefined).refusal).toBeNull();
  });
  it("stays with whoever took it meanwhile", () => {
    const { refusal } = takenThen((stall, heard) => void stall.run({ type: "pull", press: B }, heard));
    expect(refusal).toMatchObject({ code: "wrong-stage", stage: "elsewhere" });
  });
});

describe("a tap at a press that does not have the garment any more", () => {
  it("is refused, whatever it says became of it, and the garment stays with the other press", () => {
    const stall = stallWith(1);
    stall.run({ type: "returned", job: first }, OPENS + 2 * MINUTE);
    stall.run({ type: "pull", press: B }, OPENS + 3 * MINUTE);
    const taps: readonly Command[] = [
      { type: "pressed", job: first, press: A },
      { type: "spoiled", job: first, lost: "both", reason: "crooked", press: A },
      { type: "returned", job: first, press: A },
    ];
    for (const tap of taps) {
      const { refusal } = stall.run(tap, OPENS + 4 * MINUTE);
      expect(refusal, tap.type).toMatchObject({ code: "wrong-stage", stage: "elsewhere" });
    }
    expect(stall.state.orderIndex.onPress.get(B)?.number).toBe(101);
    expect(stall.run({ type: "pressed", job: first, press: B }, OPENS + 5 * MINUTE).refusal).toBeNull();
  });
});
