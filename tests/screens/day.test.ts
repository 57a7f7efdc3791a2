import { h } from "preact";
import render from "preact-render-to-string";
import { expect, it } from "vitest";
import { shownOf } from "../../src/screens/client/day/state.ts";
import { SoFar } from "../../src/screens/client/day/view.tsx";

const day = {
  asOf: "2027-05-01T14:00:00Z",
  plan: "Low Meadow",
  closes: "2027-05-01T18:00:00Z",
  dayGone: 0.5,
  ordered: 31,
  plannedByNow: { likely: 20, low: 12.4, high: 28 },
  pace: "above",
  wholeDay: { likely: 54, low: 47.6, high: 61.2 },
  runsOut: [
    { name: "Tee, Navy, M", free: 4, at: "2027-05-01T15:40:00Z" },
    { name: "Otter transfer", free: 0, at: "2027-05-01T14:00:00Z" },
  ],
  comesHome: [{ name: "Cap, Black, one size", free: 20, left: 15, loses: 1500 }],
  stopPressing: [],
} as const;
const shown = shownOf(
  { ...day, runsOut: [...day.runsOut], comesHome: [...day.comesHome], stopPressing: [] },
  "USD",
  (at) => at.slice(11, 16),
);

it("says the day in a sentence and three figures, and what to do about what", () => {
  expect(shown.verdict).toBe("Busier than planned: 31 garments ordered, the plan has 12 to 28 by now.");
  expect(shown.figures.map(([, figure]) => figure)).toEqual(["31", "12 to 28", "48 to 61"]);
  expect(shown.lists.map(({ title }) => title)).toEqual([
    "Runs out before closing",
    "Mark down: much will be left",
  ]);
  expect(shown.lists[0]?.lines.map(({ says }) => says)).toEqual(["4 free, gone about 15:40", "none free"]);
  expect(shown.lists[1]?.lines[0]?.says).toBe("15 pieces left at closing, $15.00 lost in worth");
  const html = render(h(SoFar, { shown }));
  expect(html).toContain("<caption>Runs out before closing</caption>");
  expect(render(h(SoFar, { shown: null }))).toContain("This stall has no plan yet");
});

it("has nothing to say before the day begins, and says which of several days it is", () => {
  const before = shownOf(
    { ...day, dayGone: 0, runsOut: [], comesHome: [], stopPressing: [] },
    "USD",
    (at) => at,
  );
  expect([before.verdict, before.lists]).toEqual(["The day has not begun.", []]);
  const second = shownOf(
    { ...day, planDay: { day: 2, of: 3 }, runsOut: [], comesHome: [...day.comesHome], stopPressing: [] },
    "USD",
    (at) => at,
  );
  expect(second.verdict).toMatch(/^Day 2 of 3. Busier/);
  expect(second.lists[0]?.lines[0]?.says).toContain("left after the last day");
});
