import { describe, expect, it } from "vitest";
import { watchedCrowd } from "../../src/lessons/crowd.ts";
import { fairsOf } from "../../src/lessons/fairs.ts";
import { learntFrom } from "../../src/lessons/learnt.ts";
import { Learnt } from "../../src/model/accounts/learnt.ts";
import { Lessons } from "../../src/model/accounts/lessons.ts";
import { judged } from "../simulation/judged-lessons.ts";
import { livedFair } from "../simulation/wishes.ts";
import { coverage, family } from "./families.ts";

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

  it("narrows with every fair from the second on, and the same evidence twice counts once", () => {
    const lessons = fairs.map((fair) => fair.lessons);
    const width = (count: number) => {
      const rate = learntFrom(lessons.slice(0, count)).ordersPerHundred;
      return rate === null ? Number.NaN : (rate.high - rate.low) / rate.mean;
    };
    expect(width(20)).toBeLessThan(width(2));
    const [first] = lessons;
    if (first === undefined) throw new Error("no fair was lived");
    expect(learntFrom([first, first])).toEqual(learntFrom([first]));
  });

  it("says whose truth the spans are of", () => {
    const lessons = fairs.map((fair) => fair.lessons);
    expect(learntFrom(lessons.slice(0, 1))).toMatchObject({ fairs: 1, spans: "this-fair" });
    expect(learntFrom(lessons.slice(0, 2))).toMatchObject({ fairs: 2, spans: "next-fair" });
  });
});

describe("fairs that differ", () => {
  it.each([2, 3, 5, 10])(
    "%i of them: a 90 %% span holds the next one's truth in 85 to 95 %% of cases",
    (count) => {
      const { all } = coverage((lessons) => learntFrom(lessons), 60, count);
      expect(all).toBeGreaterThan(0.85);
      expect(all).toBeLessThan(0.95);
    },
  );

  it("are told apart by name and by year, and days of one fair count as one", () => {
    const { lessons } = family(3, 2);
    const [first, second] = lessons;
    if (first === undefined || second === undefined) throw new Error("no family");
    const days = (other: Partial<Lessons>) =>
      learntFrom([first, { ...second, fair: first.fair, ...other }]).fairs;
    expect(days({ day: "2027-05-02" })).toBe(1);
    expect(days({ day: "2028-05-01" })).toBe(2);
    expect(days({ fair: "Another fair" })).toBe(2);
  });

  it("fade: an old fair moves the figures less, at the stated rate", () => {
    const { lessons } = family(5, 3);
    const [first, ...others] = lessons;
    if (first === undefined) throw new Error("no family");
    const rateWith = (day: string, orders: number) =>
      learntFrom([
        ...others,
        { ...first, day, buying: { orders, passersBy: 2000, passersByUncertainty: 0.15 } },
      ]).ordersPerHundred?.mean ?? Number.NaN;
    const pull = (day: string) => rateWith(day, 300) - rateWith(day, 20);
    expect(pull("2027-05-01")).toBeGreaterThan(pull("2021-05-01"));
    expect(pull("2021-05-01")).toBeGreaterThan(pull("2009-05-01"));
    const halved = fairsOf([
      { ...first, day: "2024-05-01" },
      { ...first, fair: "Another fair", day: "2027-05-01" },
    ]);
    expect(halved.map(({ weight }) => Number(weight.toFixed(3)))).toEqual([0.5, 1]);
  });

  it("can be asked for by kind, in the user's own word; a kind nobody has seen takes them all", () => {
    const { lessons } = family(7, 4);
    const kinds = ["music", "Music", "food", undefined];
    const named = lessons.map((lesson, at) =>
      kinds[at] === undefined ? lesson : { ...lesson, kind: kinds[at] },
    );
    expect(learntFrom(named, "music").fairs).toBe(2);
    expect(learntFrom(named, "music")).toEqual(learntFrom(named.slice(0, 2)));
    expect(learntFrom(named, "school")).toEqual(learntFrom(named));
  });

  it("teach nothing if there are none", () => {
    expect(learntFrom([])).toMatchObject({ fairs: 0, offers: [], ordersPerHundred: null, spoilage: null });
  });
});

describe("a crowd that was watched", () => {
  const hour = (name: string, watchedSeconds: number, people: number) => ({
    hour: name,
    openSeconds: 3600,
    watchedSeconds,
    people,
  });
  it("is what was seen if all of it was", () => {
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
  it("is unknown if nobody watched", () => {
    expect(watchedCrowd([hour("10:00", 0, 0)])).toBeNull();
  });
});
