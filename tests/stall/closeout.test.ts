import { describe, expect, it } from "vitest";
import type { DayCosts } from "../../src/model/accounts/day-costs.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { accountOf, expectAccounts } from "./account.ts";
import { expectAgreement } from "./invariants.ts";
import { evenHours, keptPlan } from "./kept-plan.ts";
import { CLOSES, exampleMenu, OPENS, placing, type TestStall, testStall } from "./test-stall.ts";

const DAY = "2027-06-12";
const NEXT = "2027-06-13";
const A = ids.press("A");

const STOCK = [
  { sku: "tee.navy.L", counted: 5 },
  { sku: "tee.sand.L", counted: 3 },
  { design: "longtail", counted: 10 },
].map((entry) => StockEntry.parse(entry));

const menu = (taxInPrice = false) => {
  const example = exampleMenu();
  return {
    ...example,
    rules: { ...example.rules, payment: "before-handover" as const, taxPartsPerMillion: 72_500, taxInPrice },
  };
};

const COSTS: DayCosts = {
  blanks: [{ blank: "tee", cost: 400, worthPercent: 80 }],
  transfers: [{ design: "longtail", cost: 200, worthPercent: 0 }],
  fees: [{ name: "Pitch", amount: 1000 }],
  wages: { people: 2, hours: 1.5, hourly: 1500 },
  cardFee: { partsPerMillion: 27_000, each: 10 },
} as unknown as DayCosts; // plain ids

const place = (name: string, colour = "navy", quantity = 1): Command =>
  placing(name, { lines: [{ offer: "longtail-tee", colour, size: "L", quantity }], asks: [0] });

/** Pulls and presses a garment, which is the next one in line. */
function press(stall: TestStall, job: string, at: number): void {
  stall.run({ type: "pull", press: A }, at);
  stall.run({ type: "pressed", job: ids.job(job) }, at + MINUTE);
}

/** One navy sold for card, one sand for cash and given back, one navy spoiled, one missing at the count. */
function dayOfTrade(taxInPrice = false): TestStall {
  const stall = testStall(menu(taxInPrice), STOCK, OPENS - MINUTE);
  const price = menu().offers.find(({ id }) => id === "longtail-tee")?.price;
  if (price !== 2400) throw new Error("the example's price changed: work the sums below out again");
  stall.run(place("ann"), OPENS);
  stall.run(place("ben", "sand"), OPENS + MINUTE);
  stall.run({ type: "pull", press: A }, OPENS + 2 * MINUTE);
  stall.run({ type: "spoiled", job: ids.job("101-1"), lost: "both", reason: "scorched" }, OPENS + 3 * MINUTE);
  press(stall, "101-1", OPENS + 4 * MINUTE);
  press(stall, "102-1", OPENS + 6 * MINUTE);
  stall.run({ type: "paid", number: 101, tender: "card" }, OPENS + 8 * MINUTE);
  stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 8 * MINUTE);
  stall.run({ type: "paid", number: 102, tender: "cash" }, OPENS + 70 * MINUTE);
  stall.run({ type: "closed", number: 102, as: "refunded" }, OPENS + 75 * MINUTE);
  const count = [{ sku: "tee.navy.L", counted: 2 }].map((entry) => StockEntry.parse(entry));
  stall.run({ type: "change-stock", entries: count }, CLOSES);
  stall.run({ type: "set-costs", day: DAY, costs: COSTS }, CLOSES);
  return stall;
}

describe("a day's account", () => {
  it("counts every piece from opening to what is missing", () => {
    const account = accountOf(dayOfTrade(), DAY, CLOSES);
    expect(account.skus.find(({ sku }) => sku === "tee.navy.L")).toMatchObject({
      opening: 5,
      pressed: 1,
      spoiled: { scorched: 1 },
      expected: 3,
      counted: 2,
      missing: 1,
      left: 2,
      worthNextTime: 640,
    });
    expect(account.transfers.find(({ design }) => design === "longtail")).toMatchObject({
      opening: 10,
      pressed: 2,
      expected: 7,
      counted: null,
      missing: null,
      left: 7,
      leftCost: 1400,
      worthNextTime: 0,
    });
  });

  it("comes to a profit that can be added up by hand", () => {
    const { money, sales, waste, unpriced } = accountOf(dayOfTrade(), DAY, CLOSES);
    // 24.00 and 7.25 % of it, 1.74, on each.
    expect(sales.tenders).toEqual([
      { tender: "cash", payments: 1, amount: 2574, returns: 1, givenBack: 2574 },
      { tender: "card", payments: 1, amount: 2574, returns: 0, givenBack: 0 },
    ]);
    expect(sales.hours).toEqual([
      { from: "10:00", orders: 1, garments: 1, amount: 2400 },
      { from: "11:00", orders: 1, garments: 1, amount: 2400 },
    ]);
    expect(money).toEqual({
      sales: 4800,
      difference: 0,
      givenBack: 2400,
      tax: 174,
      // Two pressed, one spoiled, one missing; two pressed, one spoiled.
      blanks: 4 * 400,
      transfers: 3 * 200,
      fees: 1000,
      wages: 4500,
      // 2.7 % of 25.74 is 0.69498, and 0.10 for the payment.
      cardFees: 69 + 10,
      profit: 4800 - 2400 - 1600 - 600 - 1000 - 4500 - 79,
      openHours: 10,
      profitPerHour: Math.round((4800 - 2400 - 1600 - 600 - 1000 - 4500 - 79) / 10),
    });
    expect(waste).toEqual({ blanks: 1, transfers: 1, missing: 1, unsold: 1, cost: 600 + 400 + 600 });
    expect(unpriced).toEqual([]);
  });

  it("takes the tax out of prices that include it", () => {
    const stall = dayOfTrade(true);
    const { money, sales } = accountOf(stall, DAY, CLOSES);
    // 24.00 holds 24.00 x 7.25 / 107.25 = 1.622 of tax, so 22.38 before it; one of the two came back.
    expect(sales.tenders.map(({ amount, givenBack }) => [amount, givenBack])).toEqual([
      [2400, 2400],
      [2400, 0],
    ]);
    expect([money.sales, money.givenBack, money.tax]).toEqual([4476, 2238, 162]);
    expectAccounts(stall, CLOSES);
  });

  it("says what sold out, when, and how many asked for it afterwards", () => {
    const stall = testStall(menu(), STOCK);
    for (const name of ["ann", "ben", "cat", "dan", "eve"]) stall.run(place(name), OPENS + MINUTE);
    for (const name of ["fay", "gus"]) {
      const { refusal } = stall.run(place(name, "navy", 2), OPENS + 20 * MINUTE);
      expect(refusal?.code).toBe("sold-out");
    }
    const { soldOut, sales } = accountOf(stall, DAY, CLOSES);
    expect(soldOut).toContainEqual({
      offer: "longtail-tee",
      name: "Longtail tee",
      colour: "navy",
      colourName: "Navy",
      size: "L",
      sizeName: "L",
      at: new Date(OPENS + MINUTE).toISOString(),
      unmetAfter: 4,
    });
    const choice = sales.choices.find(({ colour, size }) => colour === "navy" && size === "L");
    expect(choice).toMatchObject({ asked: 9, unmet: 4, garments: 0 });
    // A delivery, and it is no longer out.
    const more = [StockEntry.parse({ sku: "tee.navy.L", delivered: 2 })];
    stall.run({ type: "change-stock", entries: more }, OPENS + 30 * MINUTE);
    expect(accountOf(stall, DAY, CLOSES).soldOut.some(({ colour }) => colour === "navy")).toBe(false);
  });
});

describe("days", () => {
  it("are the fair's: what is done after midnight belongs to the evening it began", () => {
    const stall = testStall(menu(), STOCK);
    const late = CLOSES - 30 * MINUTE;
    stall.run(place("ann"), late);
    // The fair closes at 20:00 there; 00:30 and 01:30 are packing up, 02:30 is another day.
    press(stall, "101-1", CLOSES + 4.5 * 60 * MINUTE);
    const before = accountOf(stall, DAY, CLOSES);
    expect(before.skus.find(({ sku }) => sku === "tee.navy.L")?.pressed).toBe(1);
    stall.run({ type: "paid", number: 101, tender: "cash" }, CLOSES + 6.5 * 60 * MINUTE);
    const [one, other] = [DAY, NEXT].map((day) => accountOf(stall, day, CLOSES));
    expect([one?.money.sales, other?.money.sales]).toEqual([0, 2400]);
    expectAccounts(stall, CLOSES + 7 * 60 * MINUTE);
  });

  it("carry their stock over, and a closed one no longer changes", () => {
    const stall = dayOfTrade();
    stall.run({ type: "close-day", day: DAY }, CLOSES + MINUTE);
    const frozen = accountOf(stall, DAY, CLOSES + 2 * MINUTE);
    expect(frozen.stage).toBe("closed");
    stall.run(place("cat"), CLOSES + 3 * MINUTE);
    press(stall, "103-1", CLOSES + 4 * MINUTE);
    stall.run({ type: "paid", number: 103, tender: "cash" }, CLOSES + 6 * MINUTE);
    const later = accountOf(stall, DAY, CLOSES + 2 * MINUTE);
    expect({ ...later, days: [], openOrders: 0 }).toEqual({ ...frozen, days: [], openOrders: 0 });
    const next = accountOf(stall, NEXT, CLOSES + 7 * MINUTE);
    expect(next.skus.find(({ sku }) => sku === "tee.navy.L")).toMatchObject({
      opening: 2,
      pressed: 1,
      left: 1,
    });
    expect(next.money.sales).toBe(2400);
    expectAccounts(stall, CLOSES + 7 * MINUTE);
  });

  it("stand beside the plan each on its own, and all together", () => {
    const stall = dayOfTrade();
    const plan = keptPlan({ day: DAY, costs: COSTS });
    stall.run({ type: "keep-plan", plan }, CLOSES);
    expect(accountOf(stall, DAY, CLOSES).plannedWhole).toBeNull();
    stall.run({ type: "close-day", day: DAY }, CLOSES + MINUTE);
    stall.run(place("cat"), CLOSES + 3 * MINUTE);
    press(stall, "103-1", CLOSES + 4 * MINUTE);
    stall.run({ type: "paid", number: 103, tender: "cash" }, CLOSES + 6 * MINUTE);
    // The second day begins with the costs of the first, which count once they are kept.
    expect(accountOf(stall, DAY, CLOSES + 7 * MINUTE).plannedWhole?.profit.actual).toBeNull();
    stall.run({ type: "set-costs", day: NEXT, costs: COSTS }, CLOSES + 7 * MINUTE);
    const [one, other] = [DAY, NEXT].map((day) => accountOf(stall, day, CLOSES + 7 * MINUTE));
    const { planned: first, plannedWhole: whole } = one ?? {};
    const last = other?.planned;
    expect(other?.plannedWhole).toEqual(whole);
    // What was planned is never scaled; what was sold and spoiled adds up, what is left is the last day's.
    expect(whole?.garments).toEqual({ ...plan.garments, actual: 2 });
    expect([first, last].map((each) => each?.garments.actual)).toEqual([1, 1]);
    expect(whole?.spoiled.actual).toBe(first?.spoiled.actual);
    expect(whole?.blanksLeft.actual).toBe(last?.blanksLeft.actual);
    // Leftover stock loses its worth once: 8 blanks were bought, and the leftover ones are those of the last day.
    const profits = (one?.money.profit ?? 0) + (other?.money.profit ?? 0);
    const { blanks = 0, transfers = 0 } = other?.left ?? {};
    expect(whole?.profit.actual).toBe(profits - blanks * 80 - transfers * 200);
  });

  it("of a plan of several days stand beside it from the first on, and pay its fees once", () => {
    const stall = dayOfTrade();
    const hours = [...evenHours(1, [6, 4, 8], 1), ...evenHours(1, [3, 1, 5], 2)];
    const plan = keptPlan({
      day: DAY,
      days: 2,
      costs: COSTS,
      garments: { likely: 9, low: 6, high: 12 },
      hours,
    });
    stall.run({ type: "keep-plan", plan }, CLOSES);
    const before = accountOf(stall, DAY, CLOSES);
    expect(before.plannedWhole).toMatchObject({ days: 2, garments: { likely: 9, actual: 1 } });
    expect(before.planned?.garments).toEqual({ likely: 6, low: 4, high: 8, actual: 1 });
    stall.run({ type: "close-day", day: DAY }, CLOSES + MINUTE);
    stall.run(place("cat"), CLOSES + 3 * MINUTE);
    press(stall, "103-1", CLOSES + 4 * MINUTE);
    stall.run({ type: "paid", number: 103, tender: "cash" }, CLOSES + 6 * MINUTE);
    const [one, other] = [DAY, NEXT].map((day) => accountOf(stall, day, CLOSES + 7 * MINUTE));
    expect([one?.money.fees, other?.money.fees]).toEqual([1000, 0]);
    expect([one?.money.wages, other?.money.wages]).toEqual([4500, 4500]);
    expect(other?.planned?.garments).toEqual({ likely: 3, low: 1, high: 5, actual: 1 });
    expect(other?.plannedWhole?.profit.actual).not.toBeNull();
  });

  it("can be opened again with a reason, and closed once more", () => {
    const stall = dayOfTrade();
    const again: Command = { type: "reopen-day", day: DAY, reason: "a box of tees was in the van" };
    expect(stall.run(again, CLOSES).refusal).toMatchObject({ code: "wrong-stage", stage: "open" });
    stall.run({ type: "close-day", day: DAY }, CLOSES);
    expect(stall.run({ type: "close-day", day: DAY }, CLOSES).refusal).toMatchObject({ stage: "closed" });
    expect(stall.run({ type: "close-day", day: "2027-07-01" }, CLOSES).refusal?.code).toBe("wrong-stage");
    const morning = CLOSES + 12 * 60 * MINUTE;
    stall.run(again, morning);
    const found = [StockEntry.parse({ sku: "tee.navy.L", counted: 3 })];
    stall.run({ type: "change-stock", entries: found }, morning + MINUTE);
    stall.run({ type: "close-day", day: DAY }, morning + 2 * MINUTE);
    stall.run(place("cat"), morning + 3 * MINUTE);
    const account = accountOf(stall, DAY, morning);
    expect(account.skus.find(({ sku }) => sku === "tee.navy.L")).toMatchObject({ missing: 0, counted: 3 });
    expect(account.reopenings.map(({ reason }) => reason)).toEqual(["a box of tees was in the van"]);
    expect(accountOf(stall, NEXT, morning).skus.find(({ sku }) => sku === "tee.navy.L")?.opening).toBe(3);
    expectAccounts(stall, morning + 4 * MINUTE);
    expectAgreement(stall.state, stall.store);
  });
});
