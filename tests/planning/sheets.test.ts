import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SheetPlan, SheetRequest } from "../../src/model/planning/sheets.ts";
import { planSheets } from "../../src/planning/sheets/sheets.ts";
import { COMMON_SHEET, gangingProblem } from "./ganging.ts";
import { brokenRules } from "./verify.ts";

const design = (id: string, width: number, height: number, count: number, more: object = {}) => ({
  id,
  name: id,
  width,
  height,
  count,
  ...more,
});

function planned(request: SheetRequest): SheetPlan {
  const plan = planSheets(request);
  if (plan.kind !== "plan") throw new Error(JSON.stringify(plan.faults));
  expect(brokenRules(request, plan)).toEqual([]);
  return plan;
}

const request = (parts: object) =>
  SheetRequest.parse({ sheets: [COMMON_SHEET], extraLayoutPrice: 1500, steps: 2_000_000, ...parts });

const halfInches = (least: number, most: number) =>
  fc.integer({ min: least * 2, max: most * 2 }).map((halves) => halves / 2);
const anyDesign = fc.record({
  width: halfInches(1, 10),
  height: halfInches(1, 10),
  count: fc.integer({ min: 1, max: 60 }),
  mayTurn: fc.boolean(),
  valueOfOneMore: fc.option(fc.integer({ min: 0, max: 900 }), { nil: undefined }),
});
const anyRequest = fc
  .record({
    designs: fc.array(anyDesign, { minLength: 1, maxLength: 6 }),
    margin: fc.constantFrom(0, 0.25, 0.4),
    gap: fc.constantFrom(0, 0.125, 0.3),
    cuts: fc.constantFrom("free", "guillotine"),
    minimumCopies: fc.constantFrom(1, 5, 12),
    extraLayoutPrice: fc.constantFrom(0, 500, 4000),
    second: fc.boolean(),
    unit: fc.constantFrom("in", "cm"),
  })
  .map(({ designs, margin, gap, minimumCopies, second, unit, ...rest }) => {
    const by = unit === "cm" ? 2.54 : 1;
    const size = {
      ...COMMON_SHEET,
      width: 12 * by,
      height: 14 * by,
      margin: margin * by,
      gap: gap * by,
      minimumCopies,
    };
    const sheets = second
      ? [
          size,
          { ...size, id: "large", width: 20 * by, height: 15 * by, prices: [{ copies: 1, price: 1500 }] },
        ]
      : [size];
    return {
      ...rest,
      unit,
      steps: 200_000,
      sheets,
      designs: designs.map((one, at) => ({
        ...one,
        id: `d${at}`,
        name: `d${at}`,
        width: one.width * by,
        height: one.height * by,
      })),
    };
  });

describe("layouts and copies", () => {
  test("every plan keeps gap, margin, sheet, counts, cuts and sums", () => {
    fc.assert(
      fc.property(anyRequest, (parts) => {
        const asked = SheetRequest.parse(parts);
        const plan = planned(asked);
        expect(plan.cost.total).toBeGreaterThanOrEqual(plan.bound.limit);
        expect(plan.cost.total).toBeLessThanOrEqual(plan.oneDesignASheet?.cost ?? 0);
        expect(plan.bound.proven).toBe(plan.bound.limit === plan.cost.total);
      }),
      { numRuns: 50, seed: 7 },
    );
  });

  test("every affordable mix keeps to the means and the rules", () => {
    fc.assert(
      fc.property(
        anyRequest,
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1000, max: 60_000 }),
        (parts, sheets, money) => {
          const designs = parts.designs.map((one) => ({ ...one, valueOfOneMore: one.valueOfOneMore ?? 10 }));
          const plan = planned(
            SheetRequest.parse({ ...parts, designs, question: { ask: "affordable", sheets, money } }),
          );
          expect(plan.sheets).toBeLessThanOrEqual(sheets);
          expect(plan.cost.total).toBeLessThanOrEqual(money);
          expect(plan.value).toBeLessThanOrEqual(plan.bound.limit + 1e-6);
        },
      ),
      { numRuns: 40, seed: 8 },
    );
  });

  test("the same request gives the same plan", () => {
    const asked = { ...gangingProblem(6), steps: 1_000_000 };
    expect(planSheets(asked)).toEqual(planSheets(asked));
  });

  test("inches and centimetres of the same sheets give the same plan", () => {
    const designs = [design("a", 9, 9, 40), design("b", 4.5, 2.25, 60), design("c", 5, 4, 35)];
    const cm = (length: number) => length * 2.54;
    const asked = request({
      unit: "cm",
      designs: designs.map((one) => ({ ...one, width: cm(one.width), height: cm(one.height) })),
      sheets: [{ ...COMMON_SHEET, width: cm(11.25), height: cm(14), margin: cm(0.25), gap: cm(0.25) }],
    });
    expect(planned(asked)).toEqual(planned(request({ designs })));
  });

  test("two halves of a sheet go on one sheet, bought up to the better price", () => {
    // 12 x 14 in without margin or gap: halves of 12 x 7. 45 sheets at 640 hold them, 50 at 520 cost less; alone
    // each design needs 23 sheets, of which 25 at 640 are cheaper too.
    const sheet = { ...COMMON_SHEET, width: 12, margin: 0, gap: 0 };
    const plan = planned(
      request({ sheets: [sheet], designs: [design("a", 12, 7, 45), design("b", 12, 7, 45)] }),
    );
    expect(plan.layouts.map(({ copies, pricePerSheet }) => [copies, pricePerSheet])).toEqual([[50, 520]]);
    expect(plan.bound.proven).toBe(true);
    expect(plan.oneDesignASheet).toEqual({
      sheets: 50,
      cost: 25 * 640 * 2 + 1500,
      savedSheets: 0,
      savedMoney: 33_500 - 26_000,
    });
  });

  test("minimum copies make one layout of what else would be two", () => {
    const sheet = { ...COMMON_SHEET, width: 12, margin: 0, gap: 0, prices: [{ copies: 1, price: 100 }] };
    const designs = [design("a", 12, 14, 20), design("b", 12, 7, 3)];
    expect(planned(request({ sheets: [sheet], designs, extraLayoutPrice: 0 })).sheets).toBe(22);
    const dear = planned(
      request({ sheets: [{ ...sheet, minimumCopies: 10 }], designs, extraLayoutPrice: 0 }),
    );
    expect(dear.layouts.map(({ copies }) => copies)).toEqual([20, 10]);
  });

  test("spare room goes to the design whose next transfer is worth most, and only where one has a value", () => {
    const designs = [design("front", 10, 10, 30), design("cap", 5, 3, 10), design("pocket", 2.25, 3, 10)];
    const bare = planned(request({ designs }));
    const valued = planned(
      request({
        designs: designs.map((one) => (one.id === "pocket" ? { ...one, valueOfOneMore: 200 } : one)),
      }),
    );
    expect(valued.cost.total).toBe(bare.cost.total);
    const spare = (plan: SheetPlan, id: string) =>
      plan.transfers.find(({ design }) => design === id)?.spare ?? 0;
    expect(spare(valued, "pocket")).toBeGreaterThan(spare(bare, "pocket"));
    expect(valued.value).toBe(200 * spare(valued, "pocket"));
  });

  test("guillotine layouts cost no less than free ones", () => {
    for (const seed of [3, 8]) {
      const asked = { ...gangingProblem(seed), steps: 1_000_000 };
      const free = planned({ ...asked, cuts: "free" });
      const straight = planned({ ...asked, cuts: "guillotine" });
      expect(straight.cost.total).toBeGreaterThanOrEqual(free.bound.limit);
      expect(straight.layouts.every(({ cuts }) => cuts !== null)).toBe(true);
    }
  });

  test("large plans stay inside their steps and still keep every rule", () => {
    const designs = Array.from({ length: 200 }, (_, at) => design(`d${at}`, 1 + (at % 9), 1 + (at % 7), 25));
    const plan = planned(request({ designs, steps: 500_000 }));
    expect(plan.cost.total).toBeLessThan(plan.oneDesignASheet?.cost ?? 0);
    expect(plan.notes).toHaveLength(1);
  });
});

describe("the other way round", () => {
  test("with sheets enough for every count the mix is all that is wanted, proven", () => {
    const plan = planned(
      request({
        designs: [design("a", 9, 9, 10), design("b", 9, 4, 10)],
        question: { ask: "affordable", sheets: 10 },
      }),
    );
    expect(plan.value).toBe(20);
    expect(plan.bound).toMatchObject({ measure: "value", limit: 20, proven: true });
  });

  test("too few sheets go to what is worth most a sheet", () => {
    const sheet = { ...COMMON_SHEET, width: 12, margin: 0, gap: 0 };
    // A whole-sheet design worth 500 against two half-sheet ones worth 300 each.
    const designs = [
      design("whole", 12, 14, 40, { valueOfOneMore: 500 }),
      design("half", 12, 7, 40, { valueOfOneMore: 300 }),
    ];
    const plan = planned(request({ sheets: [sheet], designs, question: { ask: "affordable", sheets: 30 } }));
    // 20 sheets of two halves (12,000), then 10 whole ones (5,000).
    expect(plan.value).toBe(17_000);
    expect(plan.bound.proven).toBe(true);
  });

  test("money is kept to, and too little buys nothing", () => {
    const designs = [design("a", 9, 9, 40)];
    expect(planned(request({ designs, question: { ask: "affordable", money: 12 * 850 } })).sheets).toBe(12);
    const none = planned(request({ designs, question: { ask: "affordable", money: 1199 } }));
    expect(none.layouts).toEqual([]);
    expect(none.notes[1]).toMatch(/cheapest order costs more/);
  });
});
