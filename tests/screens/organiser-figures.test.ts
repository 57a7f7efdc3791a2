import { describe, expect, it } from "vitest";
import type { StallPace } from "../../src/model/fair/throughput.ts";
import { queryOf } from "../../src/screens/client/organiser/asking.ts";
import { everyQuarter, spanOf } from "../../src/screens/client/organiser/buckets.ts";
import { COLUMNS, type Column, sorted } from "../../src/screens/client/organiser/columns.ts";
import { minutesToClear, signsOf } from "../../src/screens/client/organiser/signs.ts";
import { unmetWords } from "../../src/screens/client/organiser/unmet.ts";

const NOW = Date.parse("2027-06-12T15:07:00Z");
const ago = (minutes: number): string => new Date(NOW - minutes * 60_000).toISOString();

const OPEN = { now: NOW, open: true };
const SHUT = { now: NOW, open: false };
const BUSY = {
  crewAt: ago(0),
  orderedAt: ago(7),
  backlog: 4,
  backlogEnds: null,
  perHour: 20,
  soldOut: 0,
  paused: false,
};

describe("what a stall's figures say", () => {
  it.each([
    ["keeping up", BUSY, OPEN, ["keeping up"]],
    ["more than half an hour of work", { ...BUSY, backlog: 11 }, OPEN, ["swamped"]],
    [
      "as much, on more presses than the last hour had",
      { ...BUSY, backlog: 11, backlogEnds: ago(-20) },
      OPEN,
      ["keeping up"],
    ],
    [
      "less, by a stall that expects to take long",
      { ...BUSY, backlog: 6, backlogEnds: ago(-50) },
      OPEN,
      ["swamped"],
    ],
    ["work and no pressing at all", { ...BUSY, backlog: 5, perHour: 0 }, OPEN, ["swamped"]],
    ["a few garments and none pressed yet", { ...BUSY, backlog: 2, perHour: 0 }, OPEN, ["keeping up"]],
    ["an offer gone", { ...BUSY, soldOut: 1 }, OPEN, ["out of stock"]],
    ["intake stopped", { ...BUSY, paused: true }, OPEN, ["paused"]],
    [
      "a crew not heard of for ten minutes, orders coming in",
      { ...BUSY, crewAt: ago(10) },
      OPEN,
      ["gone quiet"],
    ],
    ["a crew never heard of", { ...BUSY, crewAt: null, orderedAt: null, backlog: 0 }, OPEN, ["gone quiet"]],
    [
      "a crew that is there, no work and no orders",
      { ...BUSY, orderedAt: ago(37), backlog: 0 },
      OPEN,
      ["idle"],
    ],
    ["no work left a moment ago", { ...BUSY, backlog: 0 }, OPEN, ["keeping up"]],
    ["after closing, nothing left", { ...BUSY, crewAt: ago(60), backlog: 0 }, SHUT, ["closed"]],
    ["after closing, still pressing", BUSY, SHUT, ["keeping up"]],
    ["after closing, work and nobody there", { ...BUSY, crewAt: ago(60) }, SHUT, ["gone quiet"]],
    [
      "all at once",
      { ...BUSY, crewAt: ago(30), backlog: 90, perHour: 12, soldOut: 3, paused: true },
      OPEN,
      ["gone quiet", "swamped", "paused", "out of stock"],
    ],
  ] as const)("%s", (_, figures, moment, signs) => {
    expect(signsOf(figures, moment)).toEqual(signs);
  });

  it("tell how long the work will take: as the stall expects, else at the pace of the last hour", () => {
    expect(minutesToClear({ ...BUSY, backlog: 10, backlogEnds: ago(-25) }, NOW)).toBe(25);
    expect(minutesToClear({ ...BUSY, backlog: 10, perHour: 40 }, NOW)).toBe(15);
    // The expected time has passed, and the work is not done.
    expect(minutesToClear({ ...BUSY, backlog: 10, perHour: 40, backlogEnds: ago(1) }, NOW)).toBe(15);
    expect(minutesToClear({ ...BUSY, backlog: 0, perHour: 0 }, NOW)).toBe(0);
    expect(minutesToClear({ ...BUSY, backlog: 3, perHour: 0 }, NOW)).toBeNull();
  });
});

describe("the quarters of an hour", () => {
  it("have no gaps, and the backlog stands if nothing happened", () => {
    const bucket = (start: string, backlog: number) => ({
      start,
      placed: 1,
      pressed: 2,
      collected: 0,
      dropped: 0,
      unmet: 0,
      backlog,
    });
    const quarters = everyQuarter(
      [bucket("2027-06-12T14:15:00Z", 7), bucket("2027-06-12T14:45:00Z", 5)],
      NOW,
    );
    expect(quarters.map(({ start, placed, backlog }) => [start.slice(11, 16), placed, backlog])).toEqual([
      ["14:15", 1, 7],
      ["14:30", 0, 7],
      ["14:45", 1, 5],
      ["15:00", 0, 5],
    ]);
  });

  it("are at most two days' worth", () => {
    const old = {
      start: "2027-06-01T00:00:00Z",
      placed: 1,
      pressed: 0,
      collected: 0,
      dropped: 0,
      unmet: 0,
      backlog: 9,
    };
    const quarters = everyQuarter([old], NOW);
    expect(quarters).toHaveLength(192);
    expect(quarters[0]?.backlog).toBe(9);
  });
  it("have room for half a bar at each end, also a single one", () => {
    expect(spanOf([])).toEqual([-900, 900]);
    expect(spanOf([1800])).toEqual([900, 2700]);
    expect(spanOf([1800, 2700, 3600])).toEqual([900, 4500]);
  });
});

describe("what is asked for", () => {
  it("is a stretch by its name or a day by its date, and one stall's own quarters", () => {
    expect(queryOf("today", null)).toBe("span=today");
    expect(queryOf("all", "tern")).toBe("span=all&stall=tern");
    expect(queryOf("2027-06-12", null)).toBe("day=2027-06-12");
  });
});

describe("asks that were not met", () => {
  it("are told with their reasons", () => {
    const met = { unmet: 0, unmetSoldOut: 0, unmetClosed: 0, unmetWait: 0 };
    expect(unmetWords(met)).toBe("0");
    expect(unmetWords({ ...met, unmet: 7, unmetSoldOut: 5, unmetWait: 2 })).toBe(
      "7 (5 sold out, 2 long wait)",
    );
  });
});

describe("sorting the stalls", () => {
  const column = (id: string): Column => {
    const found = COLUMNS.find((one) => one.id === id);
    if (found === undefined) throw new Error(`no column ${id}`);
    return found;
  };
  const stall = (name: string, more: object) =>
    ({
      ...BUSY,
      name,
      stall: name,
      waitMinutes: { median: null, p90: null },
      promised: 0,
      kept: 0,
      ...more,
    }) as StallPace; // what the columns under test read

  it("puts the stall that most needs a look first, and an unknown figure last either way", () => {
    const quiet = stall("Knot", { crewAt: ago(40) });
    const slow = stall("Tern", { backlog: 30, waitMinutes: { median: 20, p90: 31 } });
    const quick = stall("Smew", { waitMinutes: { median: 4, p90: 8 } });
    const names = (id: string, descending: boolean) =>
      sorted([quick, slow, quiet], { column: column(id), descending }, OPEN).map(({ name }) => name);
    expect(names("sign", false)).toEqual(["Knot", "Tern", "Smew"]);
    expect(names("p90", true)).toEqual(["Tern", "Smew", "Knot"]);
    expect(names("p90", false)).toEqual(["Smew", "Tern", "Knot"]);
    expect(names("stall", false)).toEqual(["Knot", "Smew", "Tern"]);
    expect(names("clears", true)[0]).toBe("Tern");
  });
});
