import { describe, expect, it } from "vitest";
import type { StallPace } from "../../src/model/throughput.ts";
import { everyQuarter } from "../../src/screens/client/organiser/buckets.ts";
import { COLUMNS, type Column, sorted } from "../../src/screens/client/organiser/columns.ts";
import { minutesToClear, signsOf } from "../../src/screens/client/organiser/signs.ts";

const NOW = Date.parse("2027-06-12T15:07:00Z");
const ago = (minutes: number): string => new Date(NOW - minutes * 60_000).toISOString();

const BUSY = { heardAt: ago(0), backlog: 4, perHour: 20, soldOut: 0 };

describe("what a stall's figures say", () => {
  it.each([
    ["keeping up", BUSY, ["keeping up"]],
    ["more than half an hour of work", { ...BUSY, backlog: 11 }, ["swamped"]],
    ["work and no pressing at all", { ...BUSY, backlog: 5, perHour: 0 }, ["swamped"]],
    ["a few garments and none pressed yet", { ...BUSY, backlog: 2, perHour: 0 }, ["keeping up"]],
    ["an offer gone", { ...BUSY, soldOut: 1 }, ["out of stock"]],
    ["work, and not a word for ten minutes", { ...BUSY, heardAt: ago(10) }, ["gone quiet"]],
    ["never heard of", { ...BUSY, heardAt: null, backlog: 0 }, ["gone quiet"]],
    ["no work, and nothing new for ten minutes", { ...BUSY, heardAt: ago(12), backlog: 0 }, ["idle"]],
    ["no work left a moment ago", { ...BUSY, backlog: 0 }, ["keeping up"]],
    [
      "all at once",
      { heardAt: ago(30), backlog: 90, perHour: 12, soldOut: 3 },
      ["gone quiet", "swamped", "out of stock"],
    ],
  ] as const)("%s", (_, figures, signs) => {
    expect(signsOf(figures, NOW)).toEqual(signs);
  });

  it("tell how long the work will take at the pace of the last hour", () => {
    expect(minutesToClear({ ...BUSY, backlog: 10, perHour: 40 })).toBe(15);
    expect(minutesToClear({ ...BUSY, backlog: 0, perHour: 0 })).toBe(0);
    expect(minutesToClear({ ...BUSY, backlog: 3, perHour: 0 })).toBeNull();
  });
});

describe("the quarters of an hour", () => {
  it("have no gaps, and the backlog stands where nothing happened", () => {
    const bucket = (start: string, backlog: number) => ({
      start,
      placed: 1,
      pressed: 2,
      collected: 0,
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
    const old = { start: "2027-06-01T00:00:00Z", placed: 1, pressed: 0, collected: 0, backlog: 9 };
    const quarters = everyQuarter([old], NOW);
    expect(quarters).toHaveLength(192);
    expect(quarters[0]?.backlog).toBe(9);
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
    const quiet = stall("Knot", { heardAt: ago(40) });
    const slow = stall("Tern", { backlog: 30, waitMinutes: { median: 20, p90: 31 } });
    const quick = stall("Smew", { waitMinutes: { median: 4, p90: 8 } });
    const names = (id: string, descending: boolean) =>
      sorted([quick, slow, quiet], { column: column(id), descending }, NOW).map(({ name }) => name);
    expect(names("sign", false)).toEqual(["Knot", "Tern", "Smew"]);
    expect(names("p90", true)).toEqual(["Tern", "Smew", "Knot"]);
    expect(names("p90", false)).toEqual(["Smew", "Tern", "Knot"]);
    expect(names("stall", false)).toEqual(["Knot", "Smew", "Tern"]);
    expect(names("clears", true)[0]).toBe("Tern");
  });
});
