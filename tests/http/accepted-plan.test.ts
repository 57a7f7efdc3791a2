import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import { Closeout } from "../../src/model/accounts/closeout.ts";
import { DaySoFar } from "../../src/model/accounts/day-so-far.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { RackView } from "../../src/model/orders/rack.ts";
import type { PlanTaken } from "../../src/model/planning/accepted-plan.ts";
import { KeptPlan } from "../../src/model/planning/kept-plan.ts";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { example, type Running, shared } from "./running.ts";

const request = {
  ...JSON.parse(readFileSync(new URL("../../examples/plan.json", import.meta.url), "utf8")),
  scenarios: 100,
};
const outcome = planFair(PlanRequest.parse(request));
if (!outcome.ok) throw new Error("the example cannot be planned");
const { bring } = outcome.value;
const plan = outcome.value;

let running: Running;
let fair: string;
let organiser: Client;
beforeAll(async () => {
  running = await shared();
  const loaded = await example(running);
  fair = loaded.fair;
  organiser = running.anyone.withKey(loaded.key);
});

async function newStall(stall: string): Promise<{ crew: Client; at: string }> {
  const at = `/v1/fairs/${fair}/stalls/${stall}`;
  const { body } = await organiser.put<{ key: string }>(at, { name: stall });
  return { crew: running.anyone.withKey(body.key), at };
}
const onHand = ({ stock }: PlanTaken) => new Map(stock.skus.map((row) => [String(row.sku), row.onHand]));

describe("filling a stall from an accepted plan", () => {
  it("sets the menu and the opening stock in one step, from the request and the plan's own lines", async () => {
    const { crew, at } = await newStall("dunlin");
    const art = [{ design: "small-wren", widthInches: 4, heightInches: 2.25, kind: "film" }];
    const taken = await crew.post<PlanTaken>(`${at}/plan`, { request, bring, art });
    expect(taken.status).toBe(200);
    for (const { sku, bring: pieces } of bring.skus) expect(onHand(taken.body).get(sku)).toBe(pieces);
    expect(taken.body.stock.transfers.map(({ onHand: pieces }) => pieces)).toEqual(
      bring.transfers.map(({ bring: pieces }) => pieces),
    );
    // Nobody said how the transfers are pressed: each has to be looked at.
    expect(taken.body.check.map(({ pointer }) => pointer)).toEqual(
      request.designs.map((_: unknown, index: number) => `#/request/designs/${index}`),
    );
    const { body: menu } = await crew.get<Menu>(`${at}/menu/whole`);
    expect(menu.offers.find(({ id }) => String(id) === "longtail-tee")?.price).toBe(2600);
    expect(menu.designs.find(({ id }) => String(id) === "small-wren")).toMatchObject({
      kind: "film",
      widthInches: 4,
    });
    expect(menu.presses.map(({ id, platen, garmentSeconds }) => [id, platen, garmentSeconds])).toEqual([
      ["A", "flat", 86],
      ["B", "cap", 100],
    ]);
    expect(menu.rules.taxPartsPerMillion).toBe(72_500);
    const order = { lines: [{ offer: "longtail-tee", colour: "navy", size: "M", quantity: 1 }] };
    expect((await crew.post(`${at}/orders`, order)).status).toBe(201);

    const late = await crew.post<Problem>(`${at}/plan`, { request, bring });
    expect(late.status).toBe(422);
    expect(late.body.errors?.[0]?.detail).toContain("orders were taken");
  });

  it.each([true, false])("keeps the price that was typed, with the tax in it: %s", async (included) => {
    const { crew, at } = await newStall(included ? "tax-in" : "tax-on");
    const costs = { ...request.costs, tax: { rate: "7.25%", included } };
    const offers = request.offers.map((offer: object) => ({ ...offer, price: "$25" }));
    const again = { request: { ...request, costs, offers }, bring };
    expect((await crew.post(`${at}/plan`, again)).status).toBe(200);
    expect((await crew.post(`${at}/plan`, again)).status).toBe(200);
    const { body: menu } = await crew.get<Menu>(`${at}/menu/whole`);
    expect(menu.rules).toMatchObject({ taxInPrice: included, taxPartsPerMillion: 72_500 });
    expect(menu.offers.every(({ price }) => price === 2500)).toBe(true);
    const order = { lines: [{ offer: "longtail-tee", colour: "navy", size: "M", quantity: 1 }] };
    const { body: placed } = await crew.post<PlacedOrder>(`${at}/orders`, order);
    // 25.00 × 0.0725 / 1.0725 = 1.69 in the price, or 25.00 × 0.0725 = 1.81 on it.
    expect([placed.total.amount, placed.tax.amount]).toEqual(included ? [2500, 169] : [2681, 181]);
  });

  it("keeps what the stall's own menu says, and changes nothing if the plan does not fit it", async () => {
    const { crew, at } = await newStall("knot");
    await crew.post(`${at}/plan`, { request, bring });
    const { body: before } = await crew.get<Menu>(`${at}/menu/whole`);
    const worded = {
      ...before,
      designs: before.designs.map((design) => ({ ...design, placement: "centre front" })),
    };
    expect((await crew.put(`${at}/menu`, worded)).status).toBe(200);
    const dearer = {
      ...request,
      offers: request.offers.map((offer: object) => ({ ...offer, price: "$30" })),
    };
    const again = await crew.post<PlanTaken>(`${at}/plan`, { request: dearer, bring });
    expect(again.body.check).toEqual([]);
    const { body: after } = await crew.get<Menu>(`${at}/menu/whole`);
    expect(after.designs).toEqual(worded.designs);
    expect(after.offers.every(({ price }) => price === 3000)).toBe(true);

    // Fewer of one blank, more of another, and one product off: the stock is what the plan brings, and nothing is missing.
    const [first, second, ...rest] = bring.skus;
    if (first === undefined || second === undefined)
      throw new Error("the example brings two blanks at least");
    const moved = [{ ...first, bring: first.bring + 3 }, { ...second, bring: 0 }, ...rest];
    const offers = request.offers.filter(({ id }: { id: string }) => id !== "wren-cap");
    const left = new Set(offers.map(({ blank: of }: { blank: string }) => of));
    const fewer = {
      request: {
        ...request,
        offers,
        blanks: request.blanks.filter(({ id }: { id: string }) => left.has(id)),
      },
      bring: { ...bring, skus: moved.filter(({ blank: of }) => left.has(of)) },
    };
    const changed = await crew.post<PlanTaken>(`${at}/plan`, fewer);
    expect(changed.status).toBe(200);
    for (const { sku, bring: pieces } of fewer.bring.skus) expect(onHand(changed.body).get(sku)).toBe(pieces);
    const account = Closeout.parse((await crew.get(`${at}/closeout`)).body);
    expect(account.skus.filter(({ missing }) => (missing ?? 0) !== 0)).toEqual([]);
    expect(account.left.blanks).toBe(fewer.bring.skus.reduce((sum, { bring: pieces }) => sum + pieces, 0));
    expect(account.money.blanks).toBe(0);
    await crew.post(`${at}/plan`, { request: dearer, bring });

    const [blank, ...others] = request.blanks;
    const nameless = { ...request, blanks: [{ ...blank, id: "smock" }, ...others] };
    const refused = await crew.post<Problem>(`${at}/plan`, { request: nameless, bring });
    expect(refused.status).toBe(422);
    expect((await crew.get<Menu>(`${at}/menu/whole`)).body).toEqual(after);
  });

  it("keeps a plan whose answer came along: close-out counts its costs and stands beside it, elsewhere too", async () => {
    const { crew, at } = await newStall("curlew");
    await crew.post(`${at}/plan`, { request, bring });
    expect((await crew.get<KeptPlan | null>(`${at}/plan`)).body).toBeNull();
    expect((await crew.post(`${at}/plan`, { request, bring, plan })).status).toBe(200);
    const kept = KeptPlan.parse((await crew.get(`${at}/plan`)).body);
    const way = plan.manners.find(({ manner }) => manner === plan.best);
    expect(kept).toMatchObject({ name: request.name, profit: { likely: plan.money.expectedProfit } });
    expect(kept.garments.likely).toBe(way?.garmentsSold);
    // The sales by kind of garment, each rounded to a hundredth, add up to all sales.
    expect(kept.sold.reduce((sum, { garments }) => sum + garments, 0)).toBeCloseTo(kept.garments.likely, 0);
    const untilEnd = kept.hours.at(-1)?.soldBy;
    expect(untilEnd?.low).toBeLessThan(kept.garments.likely);
    expect(untilEnd?.high).toBeGreaterThan(kept.garments.likely);

    const line = { offer: "longtail-tee", colour: "navy", size: "M", quantity: 2 };
    const { number } = (await crew.post<PlacedOrder>(`${at}/orders`, { lines: [line] })).body;
    await crew.post(`${at}/orders/${number}/paid`, { tender: "cash" });
    const account = Closeout.parse((await crew.get(`${at}/closeout`)).body);
    expect([account.costsFrom, account.costs]).toEqual(["plan", kept.costs]);
    expect(account.money.fees).toBe(kept.costs.fees.reduce((sum, { amount }) => sum + amount, 0));
    expect(kept.costs.fees.map(({ amount }) => amount)).toContain(24_000);
    expect(account.planned?.garments.actual).toBe(2);
    expect(account.planned?.sizes.find(({ size }) => String(size) === "M")).toMatchObject({ sold: 2 });
    // Nothing else was sold yet: leftover stock and lost worth make up nearly everything bought.
    expect(account.planned?.profit.actual).toBeLessThan(account.money.profit);

    const going = DaySoFar.parse((await crew.get(`${at}/day-so-far`)).body);
    expect(going).toMatchObject({ plan: request.name, ordered: 2 });

    const typed = { ...kept.costs, fees: [{ name: "Pitch", amount: 1000 }] };
    await crew.post(`${at}/closeout/costs`, { day: account.day, costs: typed });
    const after = (await crew.get<Closeout>(`${at}/closeout`)).body;
    expect([after.costsFrom, after.money.fees]).toEqual(["typed", 1000]);

    const other = await newStall("godwit");
    const carried = await crew.get<object>(`${at}/carry`);
    expect((await other.crew.post(`${other.at}/carry`, carried.body)).status).toBe(200);
    expect((await other.crew.get(`${other.at}/plan`)).body).toEqual(kept);
  });

  it("hangs garments printed ahead on the rack, in a plan that brings nothing else too, and sells them at the counter", async () => {
    const { crew, at } = await newStall("plover");
    const ready = [
      { offer: "longtail-tee", colour: "navy", size: "M", bring: 7, cost: 5600, comesHome: 2 },
      { offer: "longtail-tee", colour: "navy", size: "L", bring: 5, cost: 4000, comesHome: 1 },
      { offer: "otter-tee", colour: "sand", size: "M", bring: 0, cost: 0, comesHome: 0 },
    ];
    const ahead = { ...request, ahead: { ...request.ahead, leftoverWorth: "25 %" } };
    const onlyReady = { skus: [], transfers: [], ready };
    const sent = { request: ahead, bring: onlyReady, plan: { ...plan, best: "print-ahead" } };
    const unknown = {
      ...onlyReady,
      ready: [{ offer: "longtail-tee", colour: "mauve", size: "M", bring: 1 }],
    };
    const refused = await crew.post<Problem>(`${at}/plan`, { ...sent, bring: unknown });
    expect(refused.body.errors?.map(({ pointer }) => pointer)).toEqual(["#/bring/ready/0"]);

    for (let time = 1; time <= 2; time++) {
      const taken = await crew.post<PlanTaken>(`${at}/plan`, sent);
      expect(taken.status).toBe(200);
      expect(taken.body.check.find(({ pointer }) => pointer === "#/bring/ready")?.detail).toContain("12");
    }
    const { garments } = (await crew.get<RackView>(`${at}/rack`)).body;
    expect(garments.map(({ size, why }) => `${size} ${why}`).sort()).toEqual([
      ...Array.from({ length: 5 }, () => "L ahead"),
      ...Array.from({ length: 7 }, () => "M ahead"),
    ]);

    // Few are expected to sell, and none was pressed here.
    const few = { ...plan, best: "print-ahead", sold: [] };
    await crew.post(`${at}/plan`, { ...sent, plan: few });
    expect(DaySoFar.parse((await crew.get(`${at}/day-so-far`)).body).stopPressing).toEqual([]);
    await crew.post(`${at}/plan`, sent);

    const rack = garments.find(({ size }) => String(size) === "L")?.key;
    const line = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1, rack };
    const { number } = (await crew.post<PlacedOrder>(`${at}/orders`, { lines: [line] })).body;
    await crew.post(`${at}/orders/${number}/paid`, { tender: "cash" });
    const account = Closeout.parse((await crew.get(`${at}/closeout`)).body);
    expect(account.costs?.fees).toContainEqual({ name: "Garments printed ahead", amount: 9600 });
    expect(account.planned?.readyLeft).toEqual({ planned: 3, actual: 11 });
    // 11 left, each worth a quarter of 8.00 next time; nothing else was brought.
    expect(account.planned?.profit.actual).toBe(account.money.profit + 11 * 200);

    // The next plan owns what is left: garments that came along with the stall do not hang there twice.
    const next = await newStall("ruff");
    await next.crew.post(`${next.at}/carry`, (await crew.get<object>(`${at}/carry`)).body);
    const owning = [
      { ...ready[0], bring: 9, owned: 7, cost: 1600 },
      { ...ready[1], bring: 5, owned: 5, cost: 0 },
    ];
    const own = { ...sent, bring: { ...onlyReady, ready: owning } };
    expect((await next.crew.post(`${next.at}/plan`, own)).status).toBe(200);
    const hung = (await next.crew.get<RackView>(`${next.at}/rack`)).body.garments;
    // Seven M and four L came along; two M were printed, and one L that was sold is missing.
    expect(hung.map(({ size, why }) => `${size} ${why}`).sort()).toEqual([
      "L ahead",
      ...Array.from({ length: 4 }, () => "L brought"),
      ...Array.from({ length: 2 }, () => "M ahead"),
      ...Array.from({ length: 7 }, () => "M brought"),
    ]);
  });

  it("takes the same step sent twice once, and nobody's key but the crew's", async () => {
    const { crew, at } = await newStall("snipe");
    const key = { "idempotency-key": '"one and the same"' };
    const first = await crew.post<PlanTaken>(`${at}/plan`, { request, bring }, key);
    const second = await crew.post<PlanTaken>(`${at}/plan`, { request, bring }, key);
    expect(second.body).toEqual(first.body);
    expect((await running.anyone.post(`${at}/plan`, { request, bring })).status).toBe(401);
    expect((await organiser.post(`${at}/plan`, { request, bring })).status).toBe(403);
  });
});
