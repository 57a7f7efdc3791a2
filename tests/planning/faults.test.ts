import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readPlanRequest } from "../../src/model/planning/read-plan.ts";
import { planInSteps } from "../../src/planning/plan.ts";

type Json = Record<string, unknown>;

function example(): Json {
  return JSON.parse(readFileSync(new URL("../../examples/plan.json", import.meta.url), "utf8")) as Json; // an object by its first line
}

/** The example with one thing put at a pointer's place. */
function exampleWith(...changes: readonly (readonly [string, unknown])[]): Json {
  const sent = example();
  for (const [pointer, value] of changes) {
    const parts = pointer.slice(2).split("/");
    const last = parts.pop() ?? "";
    let at: Json = sent;
    for (const part of parts) at = at[part] as Json; // the pointers below lead through objects and arrays
    at[last] = value;
  }
  return sent;
}

function faultsOf(sent: unknown) {
  const read = readPlanRequest(sent);
  if (!read.ok) return read.refusal;
  // Faults are found before the first step of the work.
  const { value: outcome } = planInSteps(read.value).next();
  return "ok" in outcome && !outcome.ok ? outcome.refusal : [];
}

describe("bad input", () => {
  it("the example has no faults", () => {
    expect(faultsOf(example())).toEqual([]);
  });

  const cases: readonly (readonly [string, readonly (readonly [string, unknown])[], string, RegExp])[] = [
    [
      "weather that never comes",
      [["#/weather", [{ name: "dry", chance: 0, crowd: 1 }]]],
      "#/weather",
      /are all 0/,
    ],
    [
      "a weight that cannot be read",
      [["#/offers/0/share", "most"]],
      "#/offers/0/share",
      /cannot be read as a share/,
    ],
    [
      "a bare number among per cents",
      [["#/traffic/profile/2/share", 20]],
      "#/traffic/profile/2/share",
      /20 is no per cent, and others of the list are/,
    ],
    [
      "an hour before opening",
      [["#/traffic/profile/0/from", "9:00"]],
      "#/traffic/profile/0/from",
      /outside opening/,
    ],
    ["an hour after closing", [["#/closes", "17:00"]], "#/traffic/profile/7/from", /outside opening/],
    [
      "hours out of order",
      [["#/traffic/profile/3/from", "11:30"]],
      "#/traffic/profile/3/from",
      /does not come after/,
    ],
    ["closing before opening", [["#/closes", "09:00"]], "#/closes", /before it opens/],
    [
      "a negative count",
      [["#/traffic/passersBy", -5]],
      "#/traffic/passersBy",
      /^cannot be read$|^is too low$/,
    ],
    ["too few days", [["#/scenarios", 10]], "#/scenarios", /^is too low$/],
    ["part of a press", [["#/presses/0/count", 1.5]], "#/presses/0/count", /^is not a whole number$/],
    ["words for a number", [["#/patienceMinutes", "long"]], "#/patienceMinutes", /^is not a number$/],
    ["no list of offers", [["#/offers", undefined]], "#/offers", /^is missing$/],
    ["no offer at all", [["#/offers", []]], "#/offers", /^has too few entries$/],
    [
      "a platen of another kind",
      [["#/presses/0/platen", "round"]],
      "#/presses/0/platen",
      /none of the choices/,
    ],
    [
      "a crowd out of order",
      [["#/traffic/passersBy", { low: 900, likely: 500, high: 1200 }]],
      "#/traffic/passersBy",
      /not in order/,
    ],
    ["an absurd price", [["#/offers/1/price", 5e9]], "#/offers/1/price", /./],
    [
      "a price in another currency",
      [["#/offers/1/price", "£26"]],
      "#/offers/1/price",
      /in £, but the plan is in USD/,
    ],
    ["a price nobody can read", [["#/offers/1/price", "twenty"]], "#/offers/1/price", /cannot be read/],
    ["a share above one", [["#/spoilage", "140 %"]], "#/spoilage", /not a share/],
    ["an unknown blank", [["#/offers/2/blank", "hoodie"]], "#/offers/2/blank", /no blank "hoodie"/],
    ["an unknown design", [["#/offers/2/design", "owl"]], "#/offers/2/design", /no design "owl"/],
    [
      "a colour the blank does not come in",
      [["#/offers/2/colours", ["navy", "red"]]],
      "#/offers/2/colours/1",
      /does not come in red/,
    ],
    ["an id used twice", [["#/designs/1/id", "longtail"]], "#/designs/1/id", /used twice/],
    ["a sku no offer uses", [["#/skus/0/sku", "tee.navy.5XL"]], "#/skus/0/sku", /no offer uses/],
    [
      "minimum above maximum",
      [["#/skus/0", { sku: "tee.navy.L", minimum: 30, maximum: 20 }]],
      "#/skus/0/minimum",
      /cannot both hold/,
    ],
    [
      "packs that cannot meet the maximum",
      [["#/skus/0", { sku: "tee.navy.L", minimum: 7, maximum: 8 }]],
      "#/skus/0/minimum",
      /packs of 6/,
    ],
    [
      "minimums above the budget",
      [["#/designs/0/minimum", 2000]],
      "#/limits/budget",
      /minimums alone cost \$4,200\.00, above the budget of \$2,200\.00/,
    ],
    [
      "minimums above the van",
      [
        ["#/skus/0", { sku: "tee.navy.L", minimum: 900 }],
        ["#/limits/budget", "$9999"],
      ],
      "#/limits/van",
      /take 13, above the van's 9/,
    ],
    [
      "more than everybody taking something else",
      [["#/substitution/anotherColour", 0.9]],
      "#/substitution",
      /100 %/,
    ],
    [
      "a platen without a press",
      [["#/presses", [{ platen: "flat", count: 1 }]]],
      "#/blanks/1/platen",
      /no press has a cap platen/,
    ],
    [
      "an offer with neither share nor demand",
      [["#/offers/4", { id: "x", blank: "tote", price: 9 }]],
      "#/offers/4",
      /neither a share/,
    ],
    [
      "an offer with both",
      [["#/offers/4/demand", { kind: "poisson", mean: 9 }]],
      "#/offers/4/share",
      /both a share/,
    ],
    [
      "a stated demand tighter than chance",
      [
        [
          "#/offers/4",
          { id: "x", blank: "tote", price: 9, demand: { kind: "negative-binomial", mean: 9, deviation: 2 } },
        ],
      ],
      "#/offers/4/demand/deviation",
      /chance alone/,
    ],
    ["a field nobody knows", [["#/budgte", 3]], "#/budgte", /not a field/],
    ["a card fee in per cents", [["#/costs/cardFee/share", 0.9]], "#/costs/cardFee/share", /more than half/],
  ];
  for (const [what, changes, pointer, detail] of cases) {
    it(what, () => {
      const fault = faultsOf(exampleWith(...changes)).find((one) => one.pointer === pointer);
      expect(fault?.detail).toMatch(detail);
      expect(fault?.mend.length).toBeGreaterThan(5);
    });
  }

  it("shares need not add up to anything", () => {
    const shares = [
      ["#/blanks/0/sizes/0/share", 0.6],
      ["#/offers/0/share", 33],
    ] as const;
    expect(faultsOf(exampleWith(...shares))).toEqual([]);
  });

  it("more than 200 skus", () => {
    const colours = Array.from({ length: 40 }, (_, at) => ({ id: `c-${at}`, share: 1 / 40 }));
    const fault = faultsOf(exampleWith(["#/blanks/0/colours", colours], ["#/skus", []])).find(
      ({ pointer }) => pointer === "#/blanks",
    );
    expect(fault?.detail).toMatch(/243 skus; a plan takes at most 200/);
  });

  it("tells everything at once", () => {
    const pointers = faultsOf(
      exampleWith(["#/offers/2/blank", "hoodie"], ["#/closes", "09:00"], ["#/designs/0/cost", "£2"]),
    ).map(({ pointer }) => pointer);
    for (const pointer of ["#/offers/2/blank", "#/closes", "#/designs/0/cost"])
      expect(pointers).toContain(pointer);
  });

  it("is an answer for anything at all, never an exception", () => {
    for (const sent of [
      null,
      7,
      "plan",
      [],
      {},
      { blanks: [] },
      { ...example(), currency: "dollars" },
      { ...example(), offers: [{}] },
    ]) {
      expect(faultsOf(sent).length).toBeGreaterThan(0);
    }
  });
});
