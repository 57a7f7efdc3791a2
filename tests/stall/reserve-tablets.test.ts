/** Two tablets whose signal comes and goes: no garment is pressed twice, and none is lost. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { JobId, PressId } from "../../src/model/basics/ids.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { SILENT_FOR } from "../../src/stall/line/reserve.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { ids } from "../ids.ts";
import { expectAgreement, expectFloorHolds } from "./invariants.ts";
import { Tablet, unpressed, type World } from "./tablets.ts";
import { exampleMenu, OPENS, placing, testStall } from "./test-stall.ts";

const A = ids.press("A");
const B = ids.press("B");
const STOCK = [
  { sku: "tee.navy.L", counted: 200 },
  { design: "longtail", counted: 200 },
].map((entry) => StockEntry.parse(entry));

const place = (n: number): Command => placing(`customer-${n}`, { chance: 0.1 });

const which = fc.constantFrom(0, 1);
const step = fc.oneof(
  { weight: 3, arbitrary: fc.record({ do: fc.constant("order" as const) }) },
  { weight: 6, arbitrary: fc.record({ do: fc.constant("look" as const), which }) },
  { weight: 6, arbitrary: fc.record({ do: fc.constant("take" as const), which, lost: fc.boolean() }) },
  { weight: 6, arbitrary: fc.record({ do: fc.constant("press" as const), which }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant("flush" as const), which }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant("signal" as const), which, there: fc.boolean() }) },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant("wait" as const),
      seconds: fc.constantFrom(1, 30, 75, 600, 1300),
    }),
  },
);

function live(steps: readonly (typeof step extends fc.Arbitrary<infer T> ? T : never)[]) {
  const world: World = {
    stall: testStall(exampleMenu(), STOCK),
    now: OPENS,
    pressed: new Map(),
    lies: new Map(),
  };
  const jobs: JobId[] = [];
  const order = (): void => {
    world.stall.run(place(jobs.length), world.now);
    jobs.push(ids.job(`${101 + jobs.length}-1`));
  };
  for (let n = 0; n < 6; n++) order();
  const tablets = [new Tablet(world, A), new Tablet(world, B)] as const;
  const garment = (job: JobId) => world.stall.state.order(Number(job.split("-")[0]))?.jobs[0];
  const heldBy = (job: JobId): PressId | null => {
    const found = garment(job);
    return found?.stage === "reserved" ? found.press : null;
  };
  for (const one of steps) {
    const held = new Map(jobs.map((job) => [job, heldBy(job)] as const));
    if (one.do === "wait") {
      world.now += one.seconds * 1000;
      world.stall.run({ type: "tick" }, world.now);
    } else if (one.do === "order") order();
    else {
      const tablet = tablets[one.which === 0 ? 0 : 1];
      if (one.do === "look") tablet.look();
      if (one.do === "take") tablet.take(one.lost);
      if (one.do === "press") tablet.press();
      if (one.do === "flush") tablet.flush();
      if (one.do === "signal") tablet.signal = one.there;
      // A tablet's acts never change the other's reserve; only a long silence does.
      const own = one.which === 0 ? A : B;
      for (const [job, press] of held)
        if (press !== null && press !== own && heldBy(job) !== press)
          expect(
            garment(job)?.letGo?.map((one) => one.press),
            job,
          ).toContain(press);
    }
    world.now += 1000;
    for (const [job, times] of world.pressed) expect(times, job).toBe(1);
  }
  return { world, tablets, jobs };
}

describe("two presses whose tablets lose and find their signal", () => {
  it("press no garment twice, and in the end every garment once", () => {
    let silent = 0;
    fc.assert(
      fc.property(fc.array(step, { minLength: 20, maxLength: 90, size: "max" }), (steps) => {
        const { world, tablets, jobs } = live(steps);
        // The signal is back for good, and everything is worked off.
        for (let round = 0; round < 400 && unpressed(world, jobs).length > 0; round++) {
          for (const tablet of tablets) {
            tablet.signal = true;
            tablet.press();
            tablet.flush();
            tablet.look();
            tablet.flush();
            tablet.take(false);
          }
          world.now += 2000;
        }
        expect(unpressed(world, jobs)).toEqual([]);
        expect(tablets.map(({ waiting }) => waiting)).toEqual([0, 0]);
        expect(jobs.map((job) => world.pressed.get(job))).toEqual(jobs.map(() => 1));
        const events = [...world.stall.store.list({ prefix: "journal:" })].map(([, entry]) =>
          JSON.stringify(entry),
        );
        silent += events.filter((entry) => entry.includes('"reserve-let-go"')).length;
        expectFloorHolds(world.stall.state);
        expectAgreement(world.stall.state, world.stall.store);
      }),
      { numRuns: 40 },
    );
    // Silences long enough to lose a reserve did happen.
    expect(silent).toBeGreaterThan(2);
    expect(SILENT_FOR).toBe(20 * 60_000);
  });
});
