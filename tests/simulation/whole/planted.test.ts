import { describe, expect, it } from "vitest";
import { PLANTED } from "./planted.ts";
import { run } from "./run.ts";
import { shrink } from "./shrink.ts";

const SEEDS = 200;

async function firstFailing(seeds: number, from = 1) {
  for (let seed = from; seed < from + seeds; seed++) {
    const { fault } = await run(seed);
    if (fault !== null) return { seed, fault };
  }
  return null;
}

describe("a planted fault is found", () => {
  it.each(Object.entries(PLANTED))(
    "%s",
    async (_, { plant, breaks, from }) => {
      const takeOut = plant();
      try {
        expect((await firstFailing(SEEDS, from))?.fault.rule).toBe(breaks);
      } finally {
        takeOut();
      }
    },
    400_000,
  );

  it("and the fair that shows it is made short", async () => {
    const takeOut = PLANTED["pickup numbers begin again"]?.plant();
    try {
      const found = await firstFailing(SEEDS);
      if (found === null) throw new Error("it was not found");
      const shrunk = await shrink(found.seed, found.fault, 60);
      expect(shrunk.fault.rule).toBe(found.fault.rule);
      expect(shrunk.acts.length).toBeLessThan(found.fault.act / 2);
      const kept = new Set(shrunk.acts);
      expect((await run(found.seed, ({ index }) => kept.has(index))).fault).toEqual(shrunk.fault);
    } finally {
      takeOut?.();
    }
  }, 400_000);
});
