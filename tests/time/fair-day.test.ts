import { describe, expect, it } from "vitest";
import { accountDay } from "../../src/stall/state/account-day.ts";
import { StallState } from "../../src/stall/state/state.ts";
import { daySpan, fairDay } from "../../src/time/fair-day.ts";

const NEW_YORK = "America/New_York";
const at = (text: string): number => Date.parse(text);
const opening = (opens: string, closes: string) => ({ opens: at(opens), closes: at(closes) });

/** Two evenings past midnight, one that ends before it, and one of two days. */
const HOURS = [
  opening("2027-06-11T18:00:00-04:00", "2027-06-12T01:00:00-04:00"),
  opening("2027-06-12T12:00:00-04:00", "2027-06-12T22:00:00-04:00"),
  opening("2027-06-13T10:00:00-04:00", "2027-06-15T18:00:00-04:00"),
];

/** The day a stall's account puts an instant down to. */
function accountedOn(instant: number): string {
  const state = new StallState();
  const identity = { fair: "fair", stall: "tern", name: "Tern", fairName: "Fair" } as never; // no name matters here
  state.setIdentity({ ...(identity as object), timeZone: NEW_YORK, openings: HOURS } as never);
  return accountDay(state, instant);
}

describe("a day of the fair", () => {
  it.each([
    ["before anything opens", "2027-06-11T09:00:00-04:00", "2027-06-11"],
    ["in the evening", "2027-06-11T23:30:00-04:00", "2027-06-11"],
    ["after midnight", "2027-06-12T00:30:00-04:00", "2027-06-11"],
    ["while the stalls pack up", "2027-06-12T06:30:00-04:00", "2027-06-11"],
    ["in the morning after", "2027-06-12T07:00:00-04:00", "2027-06-12"],
    ["packing up after an evening that ended before midnight", "2027-06-13T03:00:00-04:00", "2027-06-12"],
    ["on the second day of one long opening", "2027-06-14T11:00:00-04:00", "2027-06-14"],
  ])("%s is the same for the stall's account and the organiser's pace", (_, instant, day) => {
    expect(fairDay(at(instant), NEW_YORK, HOURS)).toBe(day);
    expect(accountedOn(at(instant))).toBe(day);
    const { from, to } = daySpan(day, NEW_YORK, HOURS);
    expect(from).toBeLessThanOrEqual(at(instant));
    expect(to).toBeGreaterThan(at(instant));
  });

  it("follows the day before without a gap", () => {
    const days = ["2027-06-10", "2027-06-11", "2027-06-12", "2027-06-13", "2027-06-14", "2027-06-15"];
    const spans = days.map((day) => daySpan(day, NEW_YORK, HOURS));
    for (const [index, span] of spans.slice(1).entries()) expect(span.from).toBe(spans[index]?.to);
  });
});
