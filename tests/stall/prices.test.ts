import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Bundle } from "../../src/model/menu/bundles.ts";
import { menuFaults } from "../../src/model/menu/menu-faults.ts";
import { Rules } from "../../src/model/menu/rules.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import type { Discount, Line } from "../../src/stall/state/shapes/line.ts";
import { lineNet, lineNets } from "../../src/stall/stock/bill.ts";
import { bundled } from "../../src/stall/stock/bundles.ts";
import { priced } from "../../src/stall/stock/pricing.ts";
import { expectAccounts } from "./account.ts";
import { expectAgreement } from "./invariants.ts";
import { exampleMenu, OPENS, placing, testStall } from "./test-stall.ts";

const OFFERS = ["tee", "otter", "cap", "tote"] as const;
type Given = { offer: (typeof OFFERS)[number]; each: number; quantity: number; extra: number };
const lineOf = ({ offer, each, quantity, extra }: Given) =>
  ({ offer, each: each + extra, quantity, ...(extra === 0 ? {} : { extra }) }) as Line; // a price reads nothing else
const bundle = (id: string, price: number, ...takes: readonly (readonly [readonly string[], number])[]) =>
  Bundle.parse({ id, name: id, price, takes: takes.map(([offers, quantity]) => ({ offers, quantity })) });

/** The most that some bundles can save, by trying every way to put single garments into bundles. */
function bestByTrying(
  bundles: readonly Bundle[],
  garments: readonly { offer: string; price: number }[],
): number {
  const known = new Map<string, number>();
  const search = (left: readonly { offer: string; price: number }[]): number => {
    const key = left.map(({ offer, price }) => `${offer}${price}`).join();
    const before = known.get(key);
    if (before !== undefined) return before;
    let best = 0;
    for (const { takes, price } of bundles) {
      const places = takes.flatMap(({ offers, quantity }) =>
        Array.from({ length: quantity }, () => offers as string[]),
      );
      const fill = (place: number, rest: typeof left, sum: number): void => {
        const offers = places[place];
        if (offers === undefined) {
          best = Math.max(best, sum - price + search(rest));
          return;
        }
        for (const [at, garment] of rest.entries())
          if (offers.includes(garment.offer)) fill(place + 1, rest.toSpliced(at, 1), sum + garment.price);
      };
      fill(0, left, 0);
    }
    known.set(key, best);
    return best;
  };
  return search(garments);
}

const anyLine = fc.record({
  offer: fc.constantFrom(...OFFERS),
  each: fc.integer({ min: 500, max: 3000 }),
  quantity: fc.integer({ min: 1, max: 2 }),
  extra: fc.constantFrom(0, 0, 300),
});
const anyBundle = fc
  .array(fc.tuple(fc.subarray([...OFFERS], { minLength: 1 }), fc.integer({ min: 1, max: 2 })), {
    minLength: 1,
    maxLength: 2,
  })
  .chain((takes) => fc.record({ price: fc.integer({ min: 800, max: 6000 }), takes: fc.constant(takes) }));

describe("bundles", () => {
  const twoTees = bundle("two-tees", 4000, [["tee", "otter"], 2]);
  const teeAndCap = bundle("tee-and-cap", 3800, [["tee", "otter"], 1], [["cap"], 1]);

  it("takes any two tees, the dearest if there are three, and leaves surcharges on top", () => {
    const tees = [
      lineOf({ offer: "tee", each: 2400, quantity: 2, extra: 300 }),
      lineOf({ offer: "otter", each: 2200, quantity: 1, extra: 0 }),
    ];
    expect(bundled([twoTees], tees)).toEqual({
      uses: [{ bundle: "two-tees", times: 1, saving: 800 }],
      offs: [800, 0],
    });
  });

  it("finds what the first bundle alone would miss: the cap saves more with the tote", () => {
    const capAndTote = bundle("cap-and-tote", 3000, [["cap"], 1], [["tote"], 1]);
    const order = (["tee", "cap", "tote"] as const).map((offer, at) =>
      lineOf({ offer, each: 2100 - at * 100, quantity: 1, extra: 0 }),
    );
    expect(bundled([teeAndCap, capAndTote], order)).toEqual({
      uses: [{ bundle: "cap-and-tote", times: 1, saving: 900 }],
      // By their prices, to the minor unit.
      offs: [0, 462, 438],
    });
  });

  it("are the best there are, checked by trying every way", () => {
    fc.assert(
      fc.property(
        fc.array(anyLine, { minLength: 1, maxLength: 4 }),
        fc.array(anyBundle, { minLength: 1, maxLength: 3 }),
        (lines, given) => {
          const bundles = given.map(({ price, takes }, at) =>
            Bundle.parse({
              id: `b${at}`,
              name: "B",
              price,
              takes: takes.map(([offers, quantity]) => ({ offers, quantity })),
            }),
          );
          const found = bundled(bundles, lines.map(lineOf));
          const garments = lines.flatMap(({ offer, each, quantity }) =>
            Array.from({ length: quantity }, () => ({ offer, price: each })),
          );
          const saved = found.uses.reduce((sum, { saving }) => sum + saving, 0);
          expect(saved).toBe(bestByTrying(bundles, garments));
          expect(found.offs.reduce((sum, off) => sum + off, 0)).toBe(saved);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("are found quickly for as many garments as an order can have", () => {
    const many = OFFERS.map((offer, at) => lineOf({ offer, each: 2000 + at * 100, quantity: 15, extra: 0 }));
    const all = [twoTees, teeAndCap, bundle("three", 5000, [["tee", "cap", "tote"], 3])];
    const found = bundled(all, many);
    expect(found.uses.reduce((sum, { saving }) => sum + saving, 0)).toBeGreaterThan(0);
  });

  it("of offers that are not there, or of one garment, are faults of the menu", () => {
    const menu = { ...exampleMenu(), bundles: [bundle("one", 100, [["nothing"], 1])] };
    expect(menuFaults(menu).map(({ pointer }) => pointer)).toEqual([
      "#/bundles/0/takes/0/offers/0",
      "#/bundles/0/takes",
    ]);
  });
});

describe("sums", () => {
  it("of lines, tax and total agree to the minor unit, whatever is taken off", () => {
    const discount = fc.option(
      fc.oneof(
        fc.record({ amount: fc.integer({ min: 0, max: 20_000 }) }),
        fc.record({ partsPerMillion: fc.integer({ min: 0, max: 1_000_000 }) }),
      ),
      { nil: undefined },
    );
    fc.assert(
      fc.property(
        fc.array(anyLine, { minLength: 1, maxLength: 5 }),
        discount,
        fc.integer({ min: 0, max: 250_000 }),
        fc.constantFrom("item" as const, "order" as const),
        fc.boolean(),
        (given, by, taxPartsPerMillion, taxBasis, taxInPrice) => {
          const rules = Rules.parse({ taxPartsPerMillion, taxBasis, taxInPrice });
          const bundles = [
            bundle("two", 3000, [["tee", "otter"], 2]),
            bundle("mix", 3500, [["tee"], 1], [["cap"], 1]),
          ];
          const off: Omit<Discount, "amount"> | undefined = by && { by, reason: "other" };
          const {
            lines,
            tax,
            total,
            discount: told,
            ...rest
          } = priced({ bundles, rules }, given.map(lineOf), off);
          const full = given.reduce((sum, { each, extra, quantity }) => sum + (each + extra) * quantity, 0);
          const saved = (rest.bundles ?? []).reduce((sum, { saving }) => sum + saving, 0);
          const charged = lines.reduce((sum, line) => sum + lineNet(line), 0);
          expect(charged).toBe(full - saved - (told?.amount ?? 0));
          expect(total).toBe(taxInPrice ? charged : charged + tax);
          expect(lines.every((line) => lineNet(line) >= 0)).toBe(true);
          expect(tax).toBeGreaterThanOrEqual(0);
          expect(tax).toBeLessThanOrEqual(total);
          expect(lineNets({ lines, tax, total }).reduce((sum, net) => sum + net, 0)).toBe(total - tax);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe("an order at a lower price", () => {
  const menu = { ...exampleMenu(), bundles: [bundle("two-tees", 4000, [["longtail-tee"], 2])] };
  const STOCK = [
    { sku: "tee.navy.L", counted: 6 },
    { design: "longtail", counted: 6 },
  ].map((entry) => StockEntry.parse(entry));
  const place = (quantity: number): Command =>
    placing("ann", { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity }] });
  const off = (by: Discount["by"], ...jobs: readonly number[]): Command => ({
    type: "discounted",
    number: 101,
    ...(jobs.length === 0 ? {} : { jobs }),
    off: { by, reason: "gift" },
  });
  const start = (quantity: number) => {
    const stall = testStall(menu, STOCK);
    stall.run(place(quantity), OPENS);
    return stall;
  };

  it("has its bundle, loses it with the garment, and has it again", () => {
    const stall = start(2);
    // $40 for two of $24, and 7.25 % of $40 is $2.90.
    expect(stall.state.order(101)).toMatchObject({
      total: 4290,
      tax: 290,
      bundles: [{ times: 1, saving: 800 }],
    });
    stall.run({ type: "paid", number: 101, tender: "cash" }, OPENS);
    stall.run({ type: "changed", number: 101, changes: [{ type: "take-off", jobs: [2] }] }, OPENS);
    expect(stall.state.order(101)).toMatchObject({ total: 2574, giveBack: 4290 - 2574 });
    expect(stall.state.order(101)?.bundles).toBeUndefined();
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 60_000);
  });

  it("keeps its share of a bundle if the stall leaves a garment out", () => {
    const stall = start(3);
    expect(stall.state.order(101)?.total).toBe(4290 + 2574);
    stall.run({ type: "paid", number: 101, tender: "card" }, OPENS);
    stall.run(
      { type: "change-stock", entries: [StockEntry.parse({ sku: "tee.navy.L", counted: 2 })] },
      OPENS,
    );
    stall.run({ type: "left-out", number: 101 }, OPENS);
    // A third of the $8 saved goes with the garment, the odd cents stay: 4800 - 534 = 4266, tax 309.
    expect(stall.state.order(101)).toMatchObject({ total: 4575, tax: 309 });
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 60_000);
  });

  it("takes an amount or a part off, gives the difference back, and never goes below nothing", () => {
    const stall = start(1);
    stall.run({ type: "paid", number: 101, tender: "cash" }, OPENS);
    expect(stall.run(off({ amount: 2401 }), OPENS).refusal).toEqual({ code: "above-price", number: 101 });
    expect(stall.run(off({ amount: 400 }), OPENS).refusal).toBeNull();
    expect(stall.state.order(101)).toMatchObject({ total: 2145, tax: 145, giveBack: 2574 - 2145 });
    stall.run(off({ partsPerMillion: 500_000 }), OPENS);
    expect(stall.state.order(101)).toMatchObject({ total: 1287, discount: { amount: 1200, reason: "gift" } });
    stall.run({ type: "discounted", number: 101, off: null }, OPENS);
    // At the full price again: the amount to give back is kept, and nothing is due.
    expect(stall.state.order(101)).toMatchObject({ total: 2574, paid: { amount: 2574 } });
    expect(stall.state.order(101)?.due).toBeUndefined();
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 60_000);
  });

  it("gives one garment away, out of any bundle, and the rest costs what it costs", () => {
    const stall = start(3);
    expect(stall.run(off({ partsPerMillion: 1_000_000 }, 1), OPENS).refusal).toBeNull();
    expect(stall.state.order(101)).toMatchObject({ total: 4290, bundles: [{ times: 1 }] });
    stall.run(off({ partsPerMillion: 1_000_000 }, 2), OPENS);
    expect(stall.state.order(101)).toMatchObject({ total: 2574 });
    expect(stall.run(off({ amount: 1 }, 9), OPENS).refusal).toMatchObject({ code: "no-such-job" });
    stall.run({ type: "discounted", number: 101, jobs: [1, 2], off: null }, OPENS);
    expect(stall.state.order(101)).toMatchObject({ total: 6864 });
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 60_000);
  });

  it("can be paid in parts, with a tip that is no part of it", () => {
    const stall = start(1);
    const parts = [
      { tender: "cash" as const, amount: 1000 },
      { tender: "card" as const, amount: 1574 },
    ];
    stall.run({ type: "paid", number: 101, tender: "cash", parts, tip: 300 }, OPENS);
    expect(stall.state.order(101)).toMatchObject({
      paid: { amount: 2574, parts },
      tips: [{ tender: "cash", amount: 300 }],
    });
    const totals = () => stall.state.dayTotals.get(accountDay(stall.state, OPENS));
    expect(totals()).toMatchObject({
      takings: { cash: { payments: 1, amount: 1000 }, card: { payments: 1, amount: 1574 } },
      tips: { cash: 300 },
      difference: 0,
    });
    expectAccounts(stall, OPENS + 60_000);
    stall.run({ type: "undo-paid", number: 101 }, OPENS);
    expect(totals()?.tips).toEqual({ cash: 0 });
    expectAgreement(stall.state, stall.store);
    expectAccounts(stall, OPENS + 60_000);
  });
});
