import { describe, expect, it } from "vitest";
import { outcome, pausing, reserving, spoiling } from "../../src/screens/client/press/acts.ts";
import { askSpoiled, noteOf, otherSizes, ruinedChoices } from "../../src/screens/client/press/spoil.ts";
import { exampleMenu } from "../stall/test-stall.ts";

const accepted = { status: 200, body: null, tag: null, date: null };
const menu = exampleMenu();

describe("what a tap came to", () => {
  it("is told of a pause, and not of a reserve, which the screen itself shows", () => {
    expect(outcome(pausing("a break").act, accepted)).toBe("Paused.");
    expect(outcome(reserving("A", true).act, accepted)).toBeNull();
    expect(outcome(reserving("A", false).act, accepted)).toBeNull();
  });
});

describe("a spoiled garment", () => {
  const made = { blank: "tee", size: "L", own: false };
  const here = { press: "A", at: null };
  const asked = askSpoiled("A", "101-1", made);

  it("has lost blank and transfer if nothing else is said, for a reason that is asked for", () => {
    expect(noteOf(asked)).toBeNull();
    expect(noteOf({ ...asked, reason: "peeled-badly" })).toEqual({ lost: "both", reason: "peeled-badly" });
    expect(noteOf({ ...asked, ruined: "transfer", reason: "crooked", asSecond: true })).toEqual({
      lost: "transfer",
      reason: "crooked",
    });
    expect(noteOf({ ...asked, reason: "crooked", asSecond: true })?.rack).toEqual({});
  });

  it("is good in another size: it hangs on the rack in the size that it has", () => {
    expect(otherSizes(menu, made).map(([id]) => id)).not.toContain("L");
    const wrong = { ...asked, ruined: "wrong-size" as const };
    expect(noteOf(wrong)).toBeNull();
    const note = noteOf({ ...wrong, size: "XL" });
    expect(note).toEqual({ lost: "both", reason: "wrong-size", rack: { size: "XL" } });
    if (note === null) throw new Error("its size was said");
    expect(outcome(spoiling(here, "101-1", note).act, accepted)).toMatch(
      /^101-1 hangs on the rack\. A spare/,
    );
  });

  it("of the customer’s own, or not seen on this page, is in no other size", () => {
    const words = (one: typeof made | null) => ruinedChoices(menu, one).map(([, name]) => name);
    expect(words({ ...made, own: true })).toEqual([
      "Their garment and the transfer",
      "Only the transfer",
      "Only their garment",
    ]);
    expect(words(null)).toHaveLength(3);
    const own = { ...askSpoiled("A", "101-1", { ...made, own: true }), asSecond: true };
    expect(noteOf({ ...own, reason: "scorched" })).toEqual({ lost: "both", reason: "scorched" });
  });
});
