/** Contacts of stalls, and this fair beside an earlier one, on the organiser's page. */
import { h } from "preact";
import render from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import { timeOfDay } from "../../src/screens/client/crew/words/clock.ts";
import { Contact } from "../../src/screens/client/organiser/beside/contact.tsx";
import { typedContact } from "../../src/screens/client/organiser/beside/typed-contact.ts";
import {
  earlierFair,
  readEarlier,
  stallYears,
  yearRows,
} from "../../src/screens/client/organiser/beside/years.ts";
import { BesideLastYear } from "../../src/screens/client/organiser/beside/years-view.tsx";
import { OrganiserWord } from "../../src/screens/client/organiser/word/view.tsx";

/** A fair with a quarter of an hour for each pair of start and orders; the rest of a quarter is 0. */
function fair(
  days: readonly string[],
  asOf: string,
  quarters: readonly (readonly [start: string, placed: number])[],
) {
  const tally = (placed: number) => ({ placed, pressed: placed * 2, promised: placed, kept: placed });
  const placed = quarters.reduce((sum, [, orders]) => sum + orders, 0);
  return {
    fair: `Fair of ${days[0]?.slice(0, 4)}`,
    asOf,
    timeZone: "America/New_York",
    days,
    buckets: quarters.map(([start, orders]) => ({ start, ...tally(orders) })),
    stalls: [{ stall: "tern", name: "Tern & Tide", placed, pressed: placed * 2 }],
    total: {
      ...tally(placed),
      waitMinutes: { median: 7, p90: 12 },
      takings: [{ amount: 12_300, currency: "USD" }],
    },
  } as unknown as Throughput; // the parts that are read
}

const LAST = fair(["2026-06-13", "2026-06-14"], "2026-06-15T12:00:00Z", [
  ["2026-06-13T10:00:00-04:00", 10],
  ["2026-06-13T17:45:00-04:00", 20],
  ["2026-06-14T00:15:00-04:00", 1],
  ["2026-06-14T11:00:00-04:00", 30],
  ["2026-06-14T12:00:00-04:00", 40],
]);
/** The second day at noon, New York time. */
const NOW = fair(["2027-06-12", "2027-06-13"], "2027-06-13T16:00:00Z", [
  ["2027-06-12T10:00:00-04:00", 40],
  ["2027-06-13T11:45:00-04:00", 50],
]);

describe("this fair beside an earlier one", () => {
  const earlier = earlierFair(LAST);
  it("compares with the earlier fair's counts by the same day of the fair and time of day", () => {
    const [orders, , pressed] = yearRows(NOW, earlier);
    // 10 + 20 on the first day, 1 after midnight, 30 at eleven; those at noon come later.
    expect(orders).toEqual({ of: "Orders", now: "90", byNow: "61", change: "+48 %", inAll: "101" });
    expect(pressed).toMatchObject({ now: "180", byNow: "122", inAll: "202" });
  });
  it("says nothing of a change from none, and adds no amounts of two currencies", () => {
    const rows = yearRows(NOW, {
      ...earlier,
      takings: [...earlier.takings, { amount: 500, currency: "CAD" }],
    });
    expect(rows.find(({ of }) => of === "Requests turned away")).toMatchObject({ byNow: "0", change: null });
    expect(rows.find(({ of }) => of.startsWith("Takings"))?.inAll).toMatch(/123\.00.*\+.*5\.00/);
  });
  it("finds a stall again by its short name, and lists those that are gone", () => {
    const more = [...earlier.stalls, { stall: "gannet", name: "Gannet Goods", placed: 1, pressed: 3 }];
    expect(stallYears(NOW, { ...earlier, stalls: more })).toEqual([
      { name: "Gannet Goods", now: "–", inAll: "3" },
      { name: "Tern & Tide", now: "180", inAll: "202" },
    ]);
  });
  it("reads the file it saved, and says of any other that it has no figures", () => {
    const read = readEarlier(JSON.stringify(LAST));
    expect(read.ok && read.value).toEqual(earlier);
    for (const other of [
      "",
      "{}",
      "[]",
      '{"fair":7}',
      "Orders,Pressed\n1,2",
      JSON.stringify({ ...LAST, total: {} }),
    ])
      expect(readEarlier(other)).toMatchObject({ ok: false, refusal: expect.stringContaining("no figures") });
  });
  it("stands on the page as a table, and asks for the file before that", () => {
    const actions = { save: () => undefined, open: () => undefined, close: () => undefined };
    const html = render(h(BesideLastYear, { years: { earlier, whole: NOW, fault: null }, actions }));
    expect(html).toContain("<caption>Fair of 2027 beside Fair of 2026</caption>");
    expect(html).toContain("+48 %");
    const before = render(
      h(BesideLastYear, { years: { earlier: null, whole: null, fault: "Not a file." }, actions }),
    );
    expect(before).not.toContain("<table");
    expect(before).toContain("Not a file.");
  });
});

describe("whom to call at a stall", () => {
  it("is kept as typed, its number without spaces, or what is wrong is said", () => {
    expect(typedContact({ name: " Wren ", phone: "+1 (212) 555-0100", note: "" })).toEqual({
      ok: true,
      value: { name: "Wren", phone: "+12125550100", note: null },
    });
    expect(typedContact({ name: "", phone: "", note: "x" })).toEqual({ ok: false, refusal: "Type a name." });
    expect(typedContact({ name: "Wren", phone: "555-0100", note: "" }).ok).toBe(false);
  });
  it("can be called with one tap, and forgotten", () => {
    const [phone] = ["+12125550100"] as unknown as [
      NonNullable<Parameters<typeof Contact>[0]["contact"]>["phone"],
    ]; // a number that was checked
    const html = render(
      h(Contact, { contact: { name: "Wren", phone, note: "pitch 12" }, keep: () => undefined }),
    );
    expect(html).toContain('href="tel:+12125550100"');
    expect(html).toContain("Forget it");
    expect(render(h(Contact, { contact: null, keep: () => undefined }))).toContain("Add whom to call");
  });
});

it("says since when all orders are stopped by the fair's clock, and offers to go on", () => {
  const news = {
    stop: { reason: "Storm", pressing: false, since: "2027-06-12T19:13:00Z" },
    announcements: [],
    untold: [],
  };
  const actions = { stop: () => undefined, announce: () => undefined, takeBack: () => undefined };
  const clock = (instant: string) => timeOfDay(instant, "America/New_York");
  const html = render(
    h(OrganiserWord, {
      news,
      said: null,
      busy: false,
      actions,
      stalls: [{ stall: "tern", name: "Tern & Tide" }],
      clock,
    }),
  ).replaceAll(/\s+/g, " ");
  expect(html).toMatch(/stopped since (?:3:13 PM|15:13): Storm\./);
  expect(html).toContain("Every stall has it.");
  expect(html).toContain("Go on");
});
