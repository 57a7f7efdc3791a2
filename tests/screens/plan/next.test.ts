/** The day after a closed fair: what it left is owned, and what stays at home is left out. */
import { describe, expect, it } from "vitest";
import type { Closeout } from "../../../src/model/accounts/closeout.ts";
import { PlanRequest } from "../../../src/model/planning/plan-request.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../../src/screens/client/kit/json-pointer.ts";
import { dayAfter, planFor } from "../../../src/screens/client/plan/day/after.ts";
import { EXAMPLE } from "../../../src/screens/client/plan/day/first.ts";
import { withFollowing } from "../../../src/screens/client/plan/day/following.ts";
import {
  garmentsLeft,
  leftoversOf,
  STAY_HOME,
  stayingHome,
} from "../../../src/screens/client/plan/day/leftovers.ts";

const tee = { offer: "longtail-tee", blank: "tee", colour: "navy", size: "M", second: false, keptFor: null };
const left = (...rack: readonly object[]) => garmentsLeft({ rack } as unknown as Closeout, EXAMPLE.plan); // all that is read
const after = (plan: Json) => ({ ...EXAMPLE, plan, organiser: withValue(EXAMPLE.organiser, STAY_HOME, []) });

describe("what a fair left", () => {
  it("is each kind of garment on the rack that can be sold again as it is", () => {
    const wished = { ...tee, wishes: ["Back print"] };
    const gone = { ...tee, colour: "mauve" };
    expect(left(tee, tee, { ...tee, second: true }, { ...tee, keptFor: 104 }, wished, gone)).toEqual([
      { offer: "longtail-tee", colour: "navy", size: "M", owned: 2 },
    ]);
  });

  it("is owned in the next plan, with each sku's own cost kept, and what the plan does not sell left out", () => {
    const skus = [
      { sku: "tee.navy.M", cost: 5, owned: 9 },
      { sku: "tee.navy.L", casePack: 6 },
    ];
    const before = { ...EXAMPLE, plan: withValue(EXAMPLE.plan, "#/skus", skus) };
    const account = {
      fair: "Low Meadow",
      day: "2027-06-12",
      skus: [
        { sku: "tee.navy.M", left: 0 },
        { sku: "tee.navy.L", left: 4 },
        { sku: "tee.sand.L", left: 2 },
        { sku: "smock.sand.L", left: 7 },
      ],
      transfers: [{ design: "longtail", left: 3 }],
      rack: [tee],
    } as unknown as Closeout; // all that is read
    const lesson = (id: string) => ({ id, fair: id, day: "2027-06-12" });
    const taught = { ...before, plan: withValue(before.plan, "#/lessons", [lesson("a"), lesson("b")]) };
    const { plan } = dayAfter(taught, { account, lessons: [lesson("b"), lesson("c")] as never });
    // What fairs before taught stays, and what this one taught is there once.
    expect(rowsAt(plan, "#/lessons").map((row) => valueAt(row, "#/id"))).toEqual(["a", "b", "c"]);
    expect(valueAt(plan, "#/name")).toBe("After Low Meadow");
    expect(valueAt(plan, "#/skus")).toEqual([
      { sku: "tee.navy.M", cost: 5 },
      { sku: "tee.navy.L", casePack: 6, owned: 4 },
      { sku: "tee.sand.L", owned: 2 },
    ]);
    expect(valueAt(plan, "#/ready")).toEqual([
      { offer: "longtail-tee", colour: "navy", size: "M", owned: 1 },
    ]);
    expect(rowsAt(plan, "#/designs").map((row) => valueAt(row, "#/owned"))).toContain(3);
    expect(PlanRequest.safeParse(plan).success).toBe(true);
  });

  it("is asked about by design, and stays at home if its tick is taken out", () => {
    const owning = withValue(withValue(EXAMPLE.plan, "#/ready", left(tee)), "#/designs/0/owned", 7);
    expect(leftoversOf({ ...EXAMPLE, plan: owning })).toEqual([]);
    const day = after(owning);
    const design = String(valueAt(owning, "#/designs/0/id"));
    expect(leftoversOf(day)).toEqual([{ design, transfers: 7, garments: 1, staysHome: false }]);
    expect(planFor(day)).toEqual(owning);
    const { day: home } = withFollowing(day, "organiser", ...stayingHome(day, design, true));
    expect(leftoversOf(home)[0]?.staysHome).toBe(true);
    expect(rowsAt(planFor(home), "#/ready")).toEqual([]);
    expect(valueAt(planFor(home), "#/designs/0/owned")).toBeUndefined();
    const { day: back } = withFollowing(home, "organiser", ...stayingHome(home, design, false));
    expect(planFor(back)).toEqual(owning);
  });
});

describe("another short name", () => {
  const lessons = [
    {
      ...{ id: "one", fair: "Low Meadow", day: "2027-04-10" },
      colours: [{ blank: "tee", colour: "navy", asks: 9 }],
      sizes: [{ blank: "tee", size: "M", asks: 9 }],
      offers: [{ offer: "longtail-tee", asks: 9 }],
    },
  ];
  const request = [
    ["#/ready", left(tee)],
    ["#/skus", [{ sku: "tee.navy.M", owned: 3 }]],
    ["#/lessons", lessons],
  ].reduce((all: Json, [at, value]) => withValue(all, String(at), value as Json), EXAMPLE.plan); // rows as above
  const at = (list: string, id: string): number =>
    rowsAt(request, list).findIndex((row) => valueAt(row, "#/id") === id);
  const blank = `#/blanks/${at("#/blanks", "tee")}`;
  const named = (pointer: string, now: string): Json =>
    withFollowing({ ...EXAMPLE, plan: request }, "plan", `${pointer}/id`, now).day.plan;
  const rest = (plan: Json) =>
    JSON.stringify(["#/offers", "#/skus", "#/ready", "#/lessons"].map((list) => valueAt(plan, list)));

  it.each([
    ["blank", blank, "tee", "shirt"],
    ["colour", `${blank}/colours/${at(`${blank}/colours`, "navy")}`, "navy", "night-blue"],
    ["size", `${blank}/sizes/${at(`${blank}/sizes`, "M")}`, "M", "Medium"],
    ["offer", `#/offers/${at("#/offers", "longtail-tee")}`, "longtail-tee", "bird-tee"],
    ["design", `#/designs/${at("#/designs", "longtail")}`, "longtail", "bird"],
  ])("of a %s is taken up by all that names it, and gives the same plan back", (_, pointer, before, now) => {
    const plan = named(pointer, now);
    expect(rest(plan)).toContain(`"${now}`);
    expect(PlanRequest.safeParse(plan).success).toBe(true);
    const back = withFollowing({ ...EXAMPLE, plan }, "plan", `${pointer}/id`, before).day.plan;
    expect(back).toEqual(request);
    const names = new RegExp(
      `"(${before}|[a-z-]+\\.${before}\\.[^"]*|${before}\\.[^"]*|[a-z-]+\\.[a-z-]+\\.${before})"`,
    );
    expect(rest(plan)).not.toMatch(names);
  });
});
