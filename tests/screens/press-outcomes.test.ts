import { describe, expect, it } from "vitest";
import { outcome, pausing, reserving } from "../../src/screens/client/press/acts.ts";

const accepted = { status: 200, body: null, tag: null, date: null };

describe("what a tap came to", () => {
  it("is told of a pause, and not of a reserve, which the screen itself shows", () => {
    expect(outcome(pausing("a break").act, accepted)).toBe("Paused.");
    expect(outcome(reserving("A", true).act, accepted)).toBeNull();
    expect(outcome(reserving("A", false).act, accepted)).toBeNull();
  });
});
