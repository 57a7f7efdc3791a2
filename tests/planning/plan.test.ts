import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Plan } from "../../src/model/planning/plan-answer.ts";
import type { PlanRequest, PlanRequestSent } from "../../src/model/planning/plan-request.ts";
import { readPlanRequest } from "../../src/model/planning/read-plan.ts";
import { openingStock, type PlanProgress, planFair } from "../../src/planning/plan.ts";
import { planned } from "./planned.ts";

function example(more: Partial<PlanRequestSent> = {}): PlanRequest {
  const sent = JSON.parse(
    readFileSync(new URL("../../examples/plan.json", import.meta.url), "utf8"),
  ) as PlanRequestSent; // checked by the next line
  const read = readPlanRequest({ ...sent, scenarios: 100, ...more });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

/** Worked out once for all that is asked of it. */
const plan = planned(example());

describe("a whole plan", () => {
  it("is what its schema says", () => {
    expect(Plan.parse(plan)).toEqual(plan);
  });

  it("is the same for the same request, and tells its progress in steps", () => {
    const seen: PlanProgress[] = [];
    const again = planFair(example(), (progress) => seen.push(progress));
    expect(again).toEqual({ ok: true, value: plan });
    expect(new Set(seen.map(({ stage }) => stage))).toEqual(
      new Set(["demand", "what to bring", "smaller menu", "money"]),
    );
  });

  it("shows the ways to run the stall side by side and says which is best", () => {
    expect(plan.manners.map(({ manner }) => manner)).toEqual(["press-on-site", "print-ahead", "mixed"]);
    const [onSite, ahead] = plan.manners;
    expect(ahead?.waitMinutes.median).toBeLessThan(onSite?.waitMinutes.median ?? 0);
    expect(ahead?.soldOutAsks).toBeGreaterThan(onSite?.soldOutAsks ?? 0);
    expect(plan.bring.manner).toBe(plan.best);
  });

  it("follows the way that is chosen by hand, and still says which earns most", () => {
    const way = plan.best === "print-ahead" ? "press-on-site" : "print-ahead";
    const chosen = planned(example({ way }));
    expect([chosen.best, chosen.bring.manner, chosen.earnsMost]).toEqual([way, way, plan.best]);
    expect(plan.earnsMost).toBe(plan.best);
    expect(chosen.money.expectedProfit).toBe(plan.manners.find(({ manner }) => manner === way)?.profit);
    expect(chosen.advice).toMatch(/^You chose /);
  });

  it("refuses a way that there is nothing for", () => {
    const outcome = planFair(example({ way: "mixed", presses: [] }));
    expect(!outcome.ok && outcome.refusal.map(({ pointer }) => pointer)).toEqual(["#/way"]);
  });

  it("lists in cartons exactly what is to be brought", () => {
    const packed = plan.cartons.reduce((sum, { pieces }) => sum + pieces, 0);
    const transfers = plan.bring.transfers.reduce((sum, { bring }) => sum + bring, 0);
    expect(packed).toBe(plan.bring.pieces + transfers);
    for (const carton of plan.cartons)
      expect(carton.lines.reduce((sum, { pieces }) => sum + pieces, 0)).toBe(carton.pieces);
  });

  it("fills the opening stock in one step", () => {
    const opening = openingStock(plan);
    expect(opening.skus.find(({ sku }) => sku === "tee.navy.L")?.counted).toBe(
      plan.bring.skus.find(({ sku }) => sku === "tee.navy.L")?.bring,
    );
    expect(opening.transfers.map(({ design }) => design)).toEqual([
      "longtail",
      "heron",
      "fair-day",
      "small-wren",
    ]);
  });

  it("asks first about what the plan hangs on most", () => {
    const most = plan.money.swings[0]?.what ?? "";
    expect(plan.questions[0]?.why).toContain(most);
  });
});

describe("can it pay", () => {
  const { money, manners, best } = plan;

  it("takings less costs are the expected profit", () => {
    const costs = money.costs.reduce((sum, { amount }) => sum + amount, 0);
    expect(money.takings - costs).toBe(money.expectedProfit);
    expect(manners.find(({ manner }) => manner === best)?.profit).toBe(money.expectedProfit);
  });

  it("tax, card fees and bags follow from the takings by hand", () => {
    const other = money.costs.find(({ name }) => name.startsWith("Tax"))?.amount ?? 0;
    const sold = manners.find(({ manner }) => manner === best)?.garmentsSold ?? 0;
    // 7.25 % on top; 2.7 % + $0.10 on 80 % of payments of 1.34 garments; $0.15 a garment.
    const byHand =
      money.takings * (0.0725 / 1.0725) + money.takings * 0.027 * 0.8 + (sold / 1.34) * 10 * 0.8 + sold * 15;
    expect(Math.abs(other / byHand - 1)).toBeLessThan(0.001);
  });

  it("a pitch at the highest fee worth paying leaves nothing", () => {
    const sent = example();
    const fixed = sent.costs.fixed.map((row) =>
      row.kind === "pitch" ? { ...row, cost: money.pitchFee.highest / 100 } : row,
    );
    const dear = planned({ ...sent, costs: { ...sent.costs, fixed } });
    expect(Math.abs(dear.money.expectedProfit)).toBeLessThanOrEqual(1);
  });

  it("quantiles are in order, the bars hold every day, odds agree with them", () => {
    const { p5, p25, p50, p75, p95 } = money.profit;
    expect([p5, p25, p50, p75, p95]).toEqual([p5, p25, p50, p75, p95].sort((a, b) => a - b));
    expect(money.histogram.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 9);
    const surelyLost = money.histogram.reduce((sum, bar) => sum + (bar.to <= 0 ? bar.chance : 0), 0);
    const perhapsLost = money.histogram.reduce((sum, bar) => sum + (bar.from < 0 ? bar.chance : 0), 0);
    expect(money.oddsOfLoss).toBeGreaterThanOrEqual(surelyLost - 1e-9);
    expect(money.oddsOfLoss).toBeLessThanOrEqual(perhapsLost + 1e-9);
  });

  it("more people are needed to break even if the pitch costs more", () => {
    const sent = example();
    const dearer = planned({
      ...sent,
      costs: {
        ...sent.costs,
        fixed: [...sent.costs.fixed, { name: "More", cost: 300, kind: "pitch", onlyWhenPressing: false }],
      },
    });
    expect(dearer.money.breakEven.garments).toBeGreaterThan(money.breakEven.garments ?? 0);
    expect(dearer.money.breakEven.passersBy).toBeGreaterThan(money.breakEven.passersBy ?? 0);
  });

  it("swings are told largest first and point the way they should", () => {
    const swings = money.swings.map(({ swing }) => swing);
    expect(swings).toEqual([...swings].sort((a, b) => b - a));
    const of = (what: string) => money.swings.find((swing) => swing.what === what);
    for (const what of ["passers-by", "share who stop and buy", "weather", "garments an hour at a press"]) {
      expect(of(what)?.high.profit).toBeGreaterThan(of(what)?.low.profit ?? 0);
    }
    for (const what of ["cost of blanks", "cost of transfers", "spoilage"]) {
      expect(of(what)?.high.profit).toBeLessThan(of(what)?.low.profit ?? 0);
    }
  });
});

describe("what a plan answers to", () => {
  const oneBlank = (more: Partial<PlanRequestSent>): PlanRequestSent => ({
    scenarios: 100,
    traffic: {
      kind: "total",
      passersBy: { low: 2500, likely: 3500, high: 4500 },
      profile: [
        { from: "10:00", share: 0.1 },
        { from: "12:00", share: 0.8 },
        { from: "14:00", share: 0.1 },
      ],
    },
    buying: { share: { low: 0.04, likely: 0.05, high: 0.06 } },
    blanks: [
      {
        id: "tee",
        cost: 4,
        colours: [{ id: "navy", share: 1 }],
        sizes: [
          { id: "M", share: 0.5 },
          { id: "L", share: 0.5 },
        ],
      },
    ],
    designs: [
      { id: "wren", cost: 2 },
      { id: "owl", cost: 2 },
    ],
    offers: [
      { id: "wren-tee", blank: "tee", design: "wren", price: 25, share: 0.6 },
      { id: "owl-tee", blank: "tee", design: "owl", price: 25, share: 0.4 },
    ],
    ...more,
  });

  it("where the presses cannot keep up at noon, the mixed plan is best and says what to print ahead", () => {
    const plan = planned(
      oneBlank({
        presses: [{ platen: "flat", count: 1, garmentsPerHour: 45 }],
        patienceMinutes: 12,
        blanks: [
          {
            id: "tee",
            cost: 6,
            colours: ["navy", "sand", "moss"].map((id) => ({ id, share: 1 / 3 })),
            sizes: ["S", "M", "L", "XL"].map((id) => ({ id, share: 1 / 4 })),
          },
        ],
      }),
    );
    const profit = (manner: string) => plan.manners.find((row) => row.manner === manner)?.profit ?? 0;
    expect(profit("mixed")).toBeGreaterThan(profit("press-on-site") * 1.02);
    expect(plan.best).toBe("mixed");
    expect(plan.bring.ready.length).toBeGreaterThan(0);
    // What is decorated beforehand has to be bought as blanks and transfers too.
    const shirts =
      plan.bring.ready.reduce((sum, { bring }) => sum + bring, 0) +
      plan.bring.skus.reduce((sum, { bring }) => sum + bring, 0);
    expect(plan.bring.shopping.reduce((sum, { kind, need }) => sum + (kind === "sku" ? need : 0), 0)).toBe(
      shirts,
    );
    expect(plan.manners.find(({ manner }) => manner === "press-on-site")?.waitAsks).toBeGreaterThan(20);
  });

  it("without a limit on pressing there is no wait and no mixed plan", () => {
    const plan = planned(oneBlank({}));
    expect(plan.manners.map(({ manner }) => manner)).toEqual(["press-on-site", "print-ahead"]);
    expect(plan.manners[0]?.waitAsks).toBe(0);
    expect(plan.best).toBe("press-on-site");
  });

  it("a design that few want and costs much to set up is advised against", () => {
    const designs = [
      { id: "wren", cost: 2 },
      { id: "owl", cost: 2, setUpCost: 400 },
    ];
    const offers = [
      { id: "wren-tee", blank: "tee", design: "wren", price: 25, share: 0.95 },
      { id: "owl-tee", blank: "tee", design: "owl", price: 25, share: 0.05 },
    ];
    const plan = planned(oneBlank({ designs, offers, substitution: { anotherDesign: 0.6 } }));
    expect(plan.smallerMenu.advice.some((line) => line.includes("owl"))).toBe(true);
    expect(plan.smallerMenu.change).toBeGreaterThan(0);
    const needed = plan.smallerMenu.dropOne.find(({ id }) => id === "wren-tee");
    expect(needed?.advised).toBe(false);
  });

  it("customers who take something else sell more than customers who walk", () => {
    const scarce = {
      skus: [{ sku: "tee.navy.M", maximum: 10 }],
      designs: [
        { id: "wren", cost: 2, maximum: 30 },
        { id: "owl", cost: 2 },
      ],
    };
    const sold = (anotherDesign: number) =>
      planned(oneBlank({ ...scarce, substitution: { anotherDesign } })).manners[0]?.garmentsSold ?? 0;
    expect(sold(0.8)).toBeGreaterThan(sold(0) * 1.05);
  });

  it("an offer planned by itself shares the day's account and the budget with the rest", () => {
    const sticker = {
      id: "sticker",
      cost: 1,
      leftoverWorth: 0.5,
      colours: [{ id: "only", share: 1 }],
      sizes: [{ id: "one", share: 1 }],
    };
    const sent = oneBlank({});
    const both = planned({
      ...sent,
      blanks: [...sent.blanks, sticker],
      offers: [
        ...sent.offers,
        { id: "sticker", blank: "sticker", price: 4, demand: { kind: "normal", mean: 100, deviation: 20 } },
      ],
    });
    const alone = planned(sent);
    const line = both.stated[0];
    expect(line?.offer).toBe("sticker");
    expect(both.money.expectedProfit - alone.money.expectedProfit).toBeGreaterThan(
      (line?.expectedProfit ?? 0) * 0.98,
    );
    expect(both.bring.skus.find(({ sku }) => sku === "sticker.only.one")?.bring).toBe(line?.quantity);
  });
});
