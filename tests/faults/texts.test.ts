import { describe, expect, it } from "vitest";
import { badness, faultsOf } from "./texts/account.ts";
import { textRush } from "./texts/rush.ts";

describe("a rush by text through a gateway on a bad day, the runtime killed twice", () => {
  it("loses and doubles no order and no text", async () => {
    const rush = await textRush({ customers: 24, seed: 4, atOnce: 12 });
    try {
      expect(await faultsOf(rush)).toEqual([]);
      // The day was bad: replies were lost, so texts came again, and were known by their keys.
      expect(badness(rush).again).toBeGreaterThan(0);
    } finally {
      await rush.stop();
    }
  }, 170_000);
});
