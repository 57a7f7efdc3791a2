import { describe, expect, it } from "vitest";
import { unreached } from "./marks.ts";
import { firstFault } from "./plays.ts";
import { run } from "./run.ts";

/** `npm run simulate -- --seeds 20000` plays on from here. */
const AT_LEAST = 20;
const AT_MOST = 120;

describe("fairs, each with faults of its own", () => {
  it("break no rule, and meet every refusal there is", async () => {
    expect(await firstFault(1, AT_LEAST)).toBeNull();
    for (let seed = AT_LEAST + 1; unreached().length > 0 && seed <= AT_MOST; seed++)
      expect(await firstFault(seed, 1)).toBeNull();
    expect(unreached()).toEqual([]);
  }, 400_000);
});

describe("fairs that broke a rule once", () => {
  it.each([19, 101, 124, 599])("break none: seed %i", async (seed) => {
    expect((await run(seed)).fault).toBeNull();
  });
});

describe("a seed", () => {
  it("plays the same fair twice", async () => {
    const { trace } = await run(7);
    expect((await run(7)).trace).toBe(trace);
    expect((await run(8)).trace).not.toBe(trace);
  });
});
