/** Changing, exchanging and discounting an order at the counter, wishes, and the drawer, in a real browser. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { DrawerView } from "../../src/model/accounts/drawer.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import type { RackView } from "../../src/model/orders/rack.ts";
import { countTaps, expectAccessible, openPage, tap } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L, orderOf } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const linesOf = async (stall: CrewStall, number: number): Promise<readonly string[]> =>
  (await orderOf(stall, number)).lines.map(({ colour, size, quantity }) => `${quantity} ${colour} ${size}`);

async function atCounter(stall: CrewStall): Promise<Page> {
  const { page } = await openPage(stage.browser, stall.link("/counter"));
  await page.getByText("Up to date").waitFor();
  return page;
}

/** Types an order's number and opens it. */
async function find(page: Page, number: number): Promise<void> {
  await page.getByLabel("Find an order").click();
  await page.keyboard.type(String(number));
  await tap(page, "Find");
}

describe("an order at the counter", () => {
  it("is changed in four taps, and costs less in two", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const [number = 0] = stall.numbers;
    const page = await atCounter(stall);
    await tap(page, "Orders");
    await tap(page, /^All/);
    const taps = await countTaps(page, async () => {
      await tap(page, new RegExp(`^${number} `));
      await tap(page, new RegExp(`^${number}-1 `));
      await page.locator("#change-sizes").getByRole("radio", { name: /^XL/ }).click();
      await expectAccessible(page);
      await tap(page, /^Change to .*XL$/);
      await page.getByRole("button", { name: new RegExp(`^${number}-1 .*XL`) }).waitFor();
    });
    expect(taps).toBeLessThanOrEqual(4);
    expect(await linesOf(stall, number)).toEqual(["1 navy XL"]);
    const { total } = await orderOf(stall, number);
    await page.getByText("Take something off the price").click();
    await tap(page, "Half price");
    await page.getByRole("button", { name: /^Undo: .* off$/ }).waitFor();
    expect((await orderOf(stall, number)).total.amount).toBe(Math.round(total.amount / 2));
    await tap(page, /^Undo: .* off$/);
    await page.getByLabel(/^Or this much off/).fill("5");
    await page.getByLabel("because of").selectOption("damaged");
    await tap(page, "Take it off");
    await page.getByRole("button", { name: "Undo: $5.00 off" }).waitFor();
    expect((await orderOf(stall, number)).discount).toEqual({
      amount: { currency: "USD", amount: 500 },
      reason: "damaged",
    });
    await page.getByText("Taken off: not quite perfect").waitFor();
  });

  it("is exchanged after it was handed over in five taps, from field to new number", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { crew, base } = stall;
    const [number = 0] = stall.numbers;
    await crew.post(`${base}/orders/${number}/paid`, { tender: "cash" });
    await crew.post(`${base}/presses/A/pull`);
    await crew.post(`${base}/jobs/${number}-1/pressed`, {});
    await crew.post(`${base}/orders/${number}/collected`, {});
    const page = await atCounter(stall);
    const taps = await countTaps(page, async () => {
      await find(page, number);
      await tap(page, new RegExp(`^${number}-1 `));
      await page.locator("#change-sizes").getByRole("radio", { name: /^XL/ }).click();
      await tap(page, /^Exchange for .*XL$/);
      await page.getByRole("button", { name: /-1 .*XL: waits$/ }).waitFor();
    });
    expect(taps).toBeLessThanOrEqual(5);
    const { body: queue } = await crew.get<QueueView>(`${base}/queue`);
    const made = queue.next[0]?.number ?? 0;
    expect(await orderOf(stall, made)).toMatchObject({ exchangeOf: `${number}-1`, stage: "waiting" });
    const { body: rack } = await crew.get<RackView>(`${base}/rack`);
    expect(rack.garments).toMatchObject([{ key: `${number}-1`, why: "exchanged" }]);
    // Undone, it is theirs again as it was; and exchanged once more.
    await tap(page, /^Undo: exchanged for .*XL$/);
    await page.getByRole("button", { name: new RegExp(`^${number}-1 .*, L: pressed$`) }).waitFor();
    expect((await crew.get<RackView>(`${base}/rack`)).body.garments).toEqual([]);
    await tap(page, new RegExp(`^${number}-1 `));
    await page.locator("#change-sizes").getByRole("radio", { name: /^XL/ }).click();
    await tap(page, /^Exchange for .*XL$/);
    await page.getByRole("button", { name: /-1 .*XL: waits$/ }).waitFor();
    // A customer who asks for just that garment gets it from the rack at once.
    await tap(page, "Next customer");
    await tap(page, "Rack 1");
    await page.getByText("Brought back, exchanged").waitFor();
    await expectAccessible(page);
    await tap(page, "New order");
    const selling = await countTaps(page, async () => {
      await page.getByLabel("Longtail tee $24.00").click();
      await page.getByLabel("Navy", { exact: true }).click();
      await page
        .locator("#sizes")
        .getByRole("radio", { name: /^L \(.*1 on the rack\)/ })
        .click();
      await tap(page, "Add from the rack");
      await expectAccessible(page);
      await tap(page, "Paid: Cash");
      await tap(page, /^They said .*: hand over$/);
      await page.getByRole("button", { name: "Undo: handed over" }).waitFor();
    });
    expect(selling).toBeLessThanOrEqual(6);
    expect((await crew.get<RackView>(`${base}/rack`)).body.garments).toEqual([]);
    expect((await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting).toBe(1);
    // The other one is pressed and not wanted either: who has just bought the first gets it from the rack for that.
    const { body: pulled } = await crew.post<{ job: { job: string; number: number } }>(
      `${base}/presses/A/pull`,
    );
    await crew.post(`${base}/jobs/${pulled.job.job}/pressed`, {});
    await crew.post(`${base}/orders/${pulled.job.number}/dropped`, {});
    await tap(page, /-1 Longtail tee, Navy, L: pressed$/);
    await page
      .locator("#change-sizes")
      .getByRole("radio", { name: /^XL .*1 on the rack/ })
      .click();
    await expectAccessible(page);
    await tap(page, /^Give .*XL from the rack$/);
    await page.getByRole("button", { name: /-1 Longtail tee, Navy, XL: pressed$/ }).waitFor();
    await page.getByRole("button", { name: /^Undo: exchanged for .*XL$/ }).waitFor();
    const { garments: hanging } = (await crew.get<RackView>(`${base}/rack`)).body;
    expect(hanging).toMatchObject([{ size: "L", why: "exchanged" }]);
  });

  it("is taken with a wish, which is on the press's tag", async () => {
    const stall = await crewStall(stage.running);
    const { crew, base } = stall;
    const { body: menu } = await crew.get<Menu>(`${base}/menu/whole`);
    const wishes = [{ id: "back-print", name: "Back print", surcharge: 500, second: {} }];
    expect((await crew.put(`${base}/menu`, { ...menu, wishes })).status).toBe(200);
    const page = await atCounter(stall);
    await page.getByLabel("Longtail tee $24.00").check();
    await page.getByLabel("Navy", { exact: true }).check();
    await page.locator("#sizes").getByRole("radio", { name: /^L \(/ }).click();
    await page.getByText("A wish on it").click();
    await page.getByLabel("Back print +$5.00").check();
    await page.getByLabel("In their own words").fill("ANNA in red");
    await tap(page, "Add to order");
    await tap(page, "Paid: Cash");
    await page.locator("#order-tag .tag-number").waitFor();
    const { body: queue } = await crew.get<QueueView>(`${base}/queue`);
    expect(queue.next[0]).toMatchObject({
      wishes: [{ name: "Back print" }],
      note: "ANNA in red",
      second: [{ design: "longtail" }],
    });
  });
});

describe("the drawer", () => {
  it("is opened, counted and handed over at the counter", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { crew, base } = stall;
    const [number = 0] = stall.numbers;
    const page = await atCounter(stall);
    await tap(page, "Orders");
    await page.getByText("The drawer", { exact: true }).click();
    await page.getByLabel("Float (USD)").fill("100");
    await tap(page, "Save float");
    await page.getByText("Cash that should be there").waitFor();
    await crew.post(`${base}/orders/${number}/paid`, { tender: "cash", by: "Maya" });
    // Another one in parts: $10 in cash, the rest by card with $2 on top.
    await page.getByRole("button", { name: "New order", exact: true }).click();
    await page.getByLabel("Longtail tee $24.00").check();
    await page.getByLabel("Navy", { exact: true }).check();
    await page.locator("#sizes").getByRole("radio", { name: /^L \(/ }).click();
    await tap(page, "Add to order");
    await page.getByLabel("Cash given").fill("10");
    await page.getByText("Add a tip").click();
    await page.getByLabel("Tip (USD)").fill("2");
    await expectAccessible(page);
    await tap(page, "Rest by card: $17.74");
    await page.getByText("$15.74 by card and $10.00 by cash").waitFor();
    await tap(page, "Next customer");
    await tap(page, "Orders");
    await page.getByText("The drawer", { exact: true }).click();
    await page.getByLabel("Take out (USD)").fill("12.50");
    await page.getByLabel("For").selectOption("supplies");
    await tap(page, "Note it");
    await page.getByLabel("Cash counted (USD)").fill("123.24");
    await page.getByLabel("Hand it over to the next shift").check();
    await tap(page, "Save count");
    await page.getByText(/as it should be$/).waitFor();
    await expectAccessible(page);
    const { body: drawer } = await crew.get<DrawerView>(`${base}/drawer`);
    // $100 + $25.74 + $10 - $12.50.
    expect(drawer).toMatchObject({
      expected: 12_324,
      tenders: [
        { tender: "cash", in: 3574 },
        { tender: "card", in: 1774, tips: 200 },
      ],
      counts: [{ difference: 0, handOver: true }],
      takers: [{ name: "Maya", tender: "cash", amount: 2574 }],
    });
  });
});
