import { describe, expect, it } from "vitest";
import {
  emptyProbability,
  erlangB,
  erlangC,
  manyServers,
  oneServer,
  uneven,
} from "../../src/maths/waiting.ts";

/** The fields of a line that must have settled for the check to mean anything. */
function settled<Line>(line: Line | null): Line {
  if (line === null) throw new Error("this line should settle");
  return line;
}

describe("Erlang B", () => {
  it("gives the traffic manual's 1 % at 8.108 erlang on 15 lines (erlang.com, How much traffic?)", () => {
    expect(erlangB(8.108, 15)).toBeCloseTo(0.01, 4);
  });

  // "Carrier Grade Voice over IP", 2nd ed., Appendix A: the load to one decimal at which 1, 2, 3, 5 % are blocked.
  it.each([
    [4, [0.9, 1.1, 1.3, 1.5]],
    [5, [1.4, 1.7, 1.9, 2.2]],
    [6, [1.9, 2.3, 2.5, 3.0]],
    [8, [3.1, 3.6, 4.0, 4.5]],
    [9, [3.8, 4.3, 4.7, 5.4]],
  ])("crosses the textbook table's loads for %i lines", (lines, table) => {
    const blocked = [0.01, 0.02, 0.03, 0.05];
    table.forEach((offered, column) => {
      const goal = blocked[column] ?? 0;
      expect(erlangB(offered - 0.05, lines)).toBeLessThan(goal);
      expect(erlangB(offered + 0.05, lines)).toBeGreaterThan(goal);
    });
  });

  // Computer-algebra values kept in a public test file.
  it.each([
    [100, 120, -1.62826407041],
    [10_000, 12_000, -1.78927734649],
    [100, 10_000, -0.01004931575],
  ])("has the computer-algebra logarithm for %i lines and %i erlang", (lines, offered, logarithm) => {
    expect(Math.log(erlangB(offered, lines))).toBeCloseTo(logarithm, 9);
  });

  // Public unit tests of a telephone-traffic library.
  it.each([
    [1, 5, 0.8333333333333333, 14],
    [10, 20, 0.5379631686320729, 14],
    [190, 200, 0.08869684386923561, 13],
    [132, 123, 0.0312, 4],
  ])("gives the public test value for %i lines and %i erlang", (lines, offered, blocked, digits) => {
    expect(erlangB(offered, lines)).toBeCloseTo(blocked, digits);
  });

  // Three-decimal 1 % table, from memory; the arithmetic agrees.
  it.each([
    [10, 4.461],
    [20, 12.031],
    [50, 37.901],
    [100, 84.064],
  ])("blocks 1 %% on %i lines at the table's load", (lines, offered) => {
    expect(erlangB(offered, lines)).toBeCloseTo(0.01, 5);
  });
});

describe("Erlang C", () => {
  it("gives the public test values", () => {
    expect(erlangC(123, 132)).toBeCloseTo(0.3211, 4);
    expect(erlangC(12_345, 12_421)).toBeCloseTo(0.3812, 4);
  });

  it("needs six people for the staffing exercise: 30 calls an hour of 5 minutes, at most one in ten waiting", () => {
    const offered = (30 * 5) / 60;
    const enough = [3, 4, 5, 6, 7].find((people) => erlangC(offered, people) <= 0.1);
    expect(enough).toBe(6);
  });
});

describe("M/M/c worked examples", () => {
  it("Bronson, Operations Research (1982) 23.3: 24 an hour, 2 minutes, one server", () => {
    const line = settled(manyServers(24, 2 / 60, 1));
    expect(line.meanPresent).toBeCloseTo(4, 9);
    expect(line.meanStay).toBeCloseTo(1 / 6, 9);
    expect(emptyProbability(24 * (2 / 60), 1)).toBeCloseTo(0.2, 9);
  });

  it("Bronson 23.14: 30 an hour, 1.5 minutes", () => {
    const line = settled(manyServers(30, 1.5 / 60, 1));
    expect(line.meanQueue).toBeCloseTo(2.25, 9);
    expect(line.meanWait).toBeCloseTo(0.075, 9);
  });

  it("Bronson 23.16: 1 a minute, 45 seconds", () => {
    const line = settled(manyServers(1, 0.75, 1));
    expect([line.meanQueue, line.meanWait, line.meanStay]).toEqual([2.25, 2.25, 3]);
  });

  it("Bronson 24.6: 300 a year, 2 days, three servers", () => {
    const line = settled(manyServers(300, 2 / 365, 3));
    expect(line.meanQueue).toBeCloseTo(0.352, 3);
    expect(line.meanPresent).toBeCloseTo(1.996, 3);
    expect(line.meanWait).toBeCloseTo(0.001175, 6);
    expect(line.meanStay).toBeCloseTo(0.006654, 6);
    expect(emptyProbability(600 / 365, 3)).toBeCloseTo(0.17754, 5);
  });

  it("Hillier & Lieberman, county hospital (from memory): 2 an hour, 20 minutes, two doctors or one", () => {
    const two = settled(manyServers(2, 1 / 3, 2));
    expect(two.meanQueue).toBeCloseTo(1 / 12, 9);
    expect(two.meanStay).toBeCloseTo(3 / 8, 9);
    expect(two.waitProbability).toBeCloseTo(1 / 6, 9);
    expect(settled(manyServers(2, 1 / 3, 1)).meanWait).toBeCloseTo(2 / 3, 9);
  });

  it("Gross & Harris, eye clinic (from memory): 6 an hour, 20 minutes, three", () => {
    const line = settled(manyServers(6, 1 / 3, 3));
    expect(line.waitProbability).toBeCloseTo(4 / 9, 9);
    expect(line.meanPresent).toBeCloseTo(26 / 9, 9);
    expect(line.meanStay * 60).toBeCloseTo(28.9, 1);
  });
});

describe("M/G/1 worked examples", () => {
  // Hillier & Lieberman ch. 17: 0.2 arrivals, rate 0.25, deviations 4 to 0.
  it.each([
    [4, 3.2, 16],
    [3, 2.5, 12.5],
    [2, 2.0, 10],
    [1, 1.7, 8.5],
    [0, 1.6, 8],
  ])("Hillier & Lieberman: deviation %d", (deviation, queue, wait) => {
    const line = settled(oneServer(0.2, 4, deviation));
    expect(line.meanQueue).toBeCloseTo(queue, 9);
    expect(line.meanWait).toBeCloseTo(wait, 9);
  });

  it("Gross & Harris 5.1 (from memory): 10 an hour, 5.5 minutes, deviation 4; and before the course", () => {
    const after = settled(oneServer(10 / 60, 5.5, 4));
    expect(after.meanPresent).toBeCloseTo(8.625, 9);
    expect(after.meanStay).toBeCloseTo(51.75, 9);
    const before = settled(manyServers(10 / 60, 5, 1));
    expect([before.meanPresent, before.meanStay]).toEqual([expect.closeTo(5, 9), expect.closeTo(30, 9)]);
  });
});

describe("Allen-Cunneen", () => {
  it("equals Pollaczek-Khinchine on the Gross & Harris case", () => {
    expect(settled(uneven(10 / 60, 5.5, 1, 1, (4 / 5.5) ** 2)).meanWait).toBeCloseTo(46.25, 9);
  });

  // Sakasegawa's approximation (open lecture notes) is an independent one: within 1 % here.
  it("lies near Sakasegawa's approximation on two servers", () => {
    const use = 0.9;
    const sakasegawa = ((use ** (Math.sqrt(2 * 3) - 1) * 2) / (2 * (1 - use))) * ((1 + 0.25) / 2);
    expect(sakasegawa).toBeCloseTo(5.364818, 6);
    const wait = settled(uneven(0.9, 2, 2, 1, 0.25)).meanWait;
    expect(Math.abs(wait / sakasegawa - 1)).toBeLessThan(0.01);
  });
});
