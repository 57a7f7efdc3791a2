import { describe, expect, it } from "vitest";
import { keepingAside, outcome, pausing } from "../../src/screens/client/press/acts.ts";

const accepted = { status: 200, body: null, tag: null, date: null };

describe("what a tap came to", () => {
  it("is told of a pause, and not of garments kept aside, which the screen itself shows", () => {
    expect(outcome(pausing("a break").act, accepted)).toBe("Paused.");
    expect(outcome(keepingAside("A", 3).act, accepted)).toBeNull();
    expect(outcome(keepingAside("A", 0).act, accepted)).toBeNull();
  });
});
