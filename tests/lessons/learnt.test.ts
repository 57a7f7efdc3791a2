import { describe, expect, it } from "vitest";
import { watchedCrowd } from "../../src/lessons/crowd.ts";
import { learntFrom } from "../../src/lessons/learnt.ts";
import { Learnt } from "../../src/model/accounts/learnt.ts";
import { Lessons } from "../../src/model/accounts/lessons.ts";
import { judged } from "../simulation/judged-lessons.ts";
import { livedFair } from "../simulation/wishes.ts";

const fairs = Array.from({ length: 40 }, (_, index) => livedFair(9000 + index));

describe("what simulated fairs teach", () => {
  it("holds the truth about nine times of ten, and asks teach the size mix better than sales", () => {
    const found = judged(fairs);
    // Forty fairs: looser than the bench's two hundred by three standard errors of a share.
    for (const share of [found.sizes, found.colours, found.offers, found.ordersPerHundred, found.spoilage]) {
      expect(share).toBeGreaterThan(0.76);
      expect(share).toBeLessThanOrEqual(1);
    }
    expect(found.sizes).toBeLessThan(0.96);
    expect(found.asksNearer).toBeGreaterThan(0.85);
    expect(found.fromAsks).toBeLessThan(found.fromSales / 2);
  });

  it("is the shape that the planner reads", () => {
    for (const { lessons } of fairs.slice(0, 5)) expect(Lessons.parse(lessons)).toEqual(lessons);
    const lessons = fairs.map((fair) => fair.lessons);
    expect(Learnt.parse(learntFrom(lessons)).from).toHaveLength(fairs.length);
  });

  it("narrows with every fair, and the same evidence twice counts once", () => {
    const lessons = fairs.map((fair) => fair.lessons);
    const width = (count: number) => {
      const rate = learntFrom(lessons.slice(0, count)).ordersPerHundred;
      return rate === null ? Number.NaN : (rate.high - rate.low) / rate.mean;
    };
    expect(width(8)).toBeLessThan(width(1) * 0.7);
    const [first] = lessons;
    if (first === undefined) throw new Error("no fair was lived");
    expect(learntFrom([first, first])).toEqual(learntFrom([first]));
  });
});

describe("a crowd that was watched", () => {
  const hour = (name: string, watchedSeconds: number, people: number) => ({
    hour: name,
    openSeconds: 3600,
    watchedSeconds,
    people,
  });
  it("is what was seen where all of it was", () => {
    const crowd = watchedCrowd([hour("10:00", 3600, 400), hour("11:00", 3600, 600)]);
    expect(crowd?.passersBy).toBe(1000);
    // Only the clicking is left to be unsure of.
    expect(crowd?.uncertainty).toBeCloseTo(0.03, 9);
  });
  it("is stretched from ten minutes of each hour, and is less sure for it", () => {
    const crowd = watchedCrowd([hour("10:00", 600, 100), hour("11:00", 600, 50)]);
    expect(crowd?.passersBy).toBe(900);
    // A sixth was seen: 150 people with the error of a Poisson count, of the five sixths that were not.
    expect(crowd?.uncertainty).toBeCloseTo(Math.sqrt((150 * 5 * 6) / 900 ** 2 + 0.03 ** 2), 9);
    expect(crowd?.hours.get("10:00")).toBe(600);
  });
  it("takes an hour nobody watched for one like the others, and says how unsure that is", () => {
    const all = watchedCrowd([hour("10:00", 3600, 400), hour("11:00", 3600, 400)]);
    const half = watchedCrowd([hour("10:00", 3600, 400), hour("11:00", 0, 0)]);
    expect(half?.passersBy).toBe(all?.passersBy);
    expect(half?.uncertainty).toBeGreaterThan(0.15);
    expect(half?.hours.has("11:00")).toBe(false);
  });
  it("is unknown where nobody watched", () => {
    expect(watchedCrowd([hour("10:00", 0, 0)])).toBeNull();
  });
});
