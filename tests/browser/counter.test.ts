import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { countTaps, expectAccessible, openPage, tap } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L, OTTER_M, orderOf, setRules } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const orderTag = (page: Page) => page.getByRole("region", { name: "The order" });
/** The row of an open order. */
const row = (page: Page, number: number) => page.getByRole("button", { name: new RegExp(`^${number} `) });
const facts = (page: Page) => page.locator("#order-facts");

/** Keys a garment in and adds it to the slip. */
async function key(page: Page, what: string, colour: string, size: RegExp): Promise<void> {
  await page.getByLabel(what).check();
  await page.getByLabel(colour, { exact: true }).check();
  await page.getByLabel(size).check();
  await tap(page, "Add to order");
}

/** Presses every garment that waits on press A. */
async function pressAll({ crew, base }: CrewStall): Promise<void> {
  for (;;) {
    const pulled = await crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`);
    if (pulled.status === 204) return;
    await crew.post(`${base}/jobs/${pulled.body.job.job}/pressed`, {});
  }
}

describe("the counter", () => {
  it("takes an order, its payment, and hands it over; each step can be taken back", async () => {
    const stall = await crewStall(stage.running);
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"));
    await key(page, "Longtail tee $24.00", "Navy", /^L \(/);
    await page.getByLabel("Tern cap $18.00").check();
    await page.getByLabel("Black", { exact: true }).check();
    await tap(page, "One more");
    await tap(page, "Add to order");
    // 24.00 + 2 x 18.00 at 7.25 %: 4.35 of tax, 64.35 in all.
    const sums = await page.locator("#sums").textContent();
    for (const sum of ["$60.00", "$4.35", "$64.35"]) expect(sums).toContain(sum);
    await page.getByLabel("Name or initials (optional)").fill("Wren");
    await tap(page, "Place order, not paid yet");
    await orderTag(page).getByText("waiting, place 1").waitFor();
    await expectAccessible(page);

    const [number = 0] = (await stall.queue()).next.map((job) => job.number);
    const placed = await orderOf(stall, number);
    expect(placed).toMatchObject({ takenBy: "counter", name: "Wren", total: { amount: 6435 } });
    const said = await orderTag(page).textContent();
    for (const words of [
      String(number),
      placed.word,
      "1 × Longtail tee, Navy, L",
      "2 × Tern cap, Black, one size",
    ])
      expect(said).toContain(words);

    await page.getByRole("textbox", { name: "Cash given" }).fill("70");
    await page.getByText("Change: $5.65.").waitFor();
    await tap(page, "Paid: Cash");
    await facts(page).getByText("$64.35 by cash").waitFor();
    await tap(page, "Undo: paid");
    await facts(page).getByText("not paid").waitFor();
    await tap(page, "Paid: Card");
    await facts(page).getByText("$64.35 by card").waitFor();

    await pressAll(stall);
    const cap = await stall.crew.post<{ job: { job: string } }>(`${stall.base}/presses/C/pull`);
    await stall.crew.post(`${stall.base}/jobs/${cap.body.job.job}/pressed`, {});
    const other = await stall.crew.post<{ job: { job: string } }>(`${stall.base}/presses/C/pull`);
    await stall.crew.post(`${stall.base}/jobs/${other.body.job.job}/pressed`, {});
    await page.getByRole("heading", { name: `Hand over ${number}` }).waitFor();
    await tap(page, "Wrong word");
    await page.getByText("Do not hand it over yet.").waitFor();
    await expectAccessible(page);
    await tap(page, `They said “${placed.word}”: hand over`);
    await orderTag(page).getByText("handed over").waitFor();
    await expect.poll(async () => (await orderOf(stall, number)).stage).toBe("collected");
    await tap(page, "Undo: handed over");
    await page.getByRole("heading", { name: `Hand over ${number}` }).waitFor();
    await expect.poll(async () => (await orderOf(stall, number)).stage).toBe("ready");
    expect(faults).toEqual([]);
  });

  it("finds an order by its number and ends it another way, with one more question", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const [number = 0] = stall.numbers;
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"), {
      viewport: { width: 1024, height: 768 },
    });
    await tap(page, "Orders");
    await page.getByLabel("Find an order").fill("7");
    await page.keyboard.press("Enter");
    await page.getByText("No open order fits that.").waitFor();
    await page.getByLabel("Find an order").fill("555");
    await page.keyboard.press("Enter");
    await page.getByText("There is no order 555 here.").waitFor();
    await page.getByLabel("Find an order").fill(String(number));
    await page.keyboard.press("Enter");
    await orderTag(page).getByText("waiting, place 1").waitFor();
    await page.getByText("Cancel, refund or exchange").click();
    // Neither paid nor pressed: there is nothing to give back, exchange or wait for.
    expect(await page.locator("#ends button:visible").allTextContents()).toEqual(["Drop it…"]);
    await tap(page, "Drop it…");
    await page.getByText("The customer cancelled.").waitFor();
    await expectAccessible(page);
    await tap(page, "Drop it");
    await orderTag(page).getByText("dropped", { exact: true }).waitFor();
    await tap(page, "Undo: dropped");
    await orderTag(page).getByText("waiting, place 1").waitFor();

    await tap(page, "Paid: Cash");
    await facts(page).getByText("by cash").waitFor();
    await tap(page, "Give money back…");
    await page.getByText("You give back $25.74.").waitFor();
    await tap(page, "Money is given back");
    await orderTag(page).getByText("money given back", { exact: true }).waitFor();
    await expect.poll(async () => (await orderOf(stall, number)).stage).toBe("refunded");
    expect(faults).toEqual([]);
  });

  it("keeps an order out of the line until it is paid, if the stall wants that", async () => {
    const stall = await crewStall(stage.running);
    await setRules(stall, { payment: "before-pressing" });
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await key(page, "Longtail tee $24.00", "Navy", /^L \(/);
    await tap(page, "Place order, not paid yet");
    await orderTag(page).getByText("to be paid", { exact: true }).waitFor();
    expect((await stall.queue()).counts).toMatchObject({ toPay: 1, waiting: 0 });
    await page.getByLabel("Taken by").fill("Wren");
    await tap(page, "Paid: Card");
    await orderTag(page).getByText("waiting, place 1").waitFor();
    await facts(page).getByText("by card, to Wren,").waitFor();
    await expect.poll(async () => (await orderOf(stall, stall.numbers[0] ?? 101)).paidTo).toBe("Wren");
    // The page shows the tap before the stall has it.
    await expect.poll(async () => (await stall.queue()).counts).toMatchObject({ toPay: 0, waiting: 1 });
  });

  it("goes on without what is short, and hands the money for it back once", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L, OTTER_M]]);
    const [number] = stall.numbers;
    await stall.crew.post(`${stall.base}/orders/${number}/paid`, { tender: "cash" });
    await stall.crew.post(`${stall.base}/stock`, { entries: [{ sku: "tee.navy.L", counted: 0 }] });
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"));
    await tap(page, "Orders");
    await page.getByLabel("Find an order").fill(String(number));
    await page.keyboard.press("Enter");
    await orderTag(page).getByText("1 short: no blank or transfer").waitFor();
    await tap(page, "Remove the 1 we can’t make");
    await facts(page).getByText("$25.74 for what left the order or costs less").waitFor();
    await expectAccessible(page);
    await tap(page, "Hand $25.74 back to them, then tap here");
    await facts(page).getByText("Handed back").waitFor();
    await tap(page, "Undo: $25.74 handed back");
    await facts(page).getByText("Give back").waitFor();
    await tap(page, "Hand $25.74 back to them, then tap here");
    await expect
      .poll(async () => {
        const { giveBack, gaveBack, total } = await orderOf(stall, number ?? 0);
        return [giveBack, gaveBack?.amount, total.amount];
      })
      // $24 and $26 at 7.25 % are $53.63; $26 alone is $27.89 ($27.885 rounded up).
      .toEqual([null, 2574, 2789]);
    expect(faults).toEqual([]);
  });

  it("asks for no money if the stall does not note it", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    await setRules(stall, { payment: "not-tracked" });
    await pressAll(stall);
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await tap(page, "Orders");
    await row(page, stall.numbers[0] ?? 0).click();
    await page.getByRole("heading", { name: `Hand over ${stall.numbers[0]}` }).waitFor();
    expect(await page.getByRole("button", { name: "Paid: Cash" }).isVisible()).toBe(false);
    expect(await facts(page).textContent()).not.toContain("not paid");
  });

  it("lists web orders that nobody has come for; one tap puts one in line, one tap frees another", async () => {
    const stall = await crewStall(stage.running);
    await setRules(stall, { unclaimedGarments: 1, webHoldPercent: 100 });
    const onTheWeb = async (): Promise<number> => {
      const { body } = await stage.running.anyone.post<{ number: number }>(`${stall.base}/orders`, {
        lines: [NAVY_L],
      });
      return body.number;
    };
    const [inLine, comes, pranks] = [await onTheWeb(), await onTheWeb(), await onTheWeb()];
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await tap(page, "Orders");
    await page.getByRole("button", { name: /^Not here yet/ }).click();
    await row(page, inLine).getByText("waiting").waitFor();
    await row(page, comes).getByText("not here yet, not in line").waitFor();
    await expectAccessible(page);
    await row(page, comes).click();
    await tap(page, "Is here");
    await expect.poll(async () => (await orderOf(stall, comes)).stage).toBe("waiting");
    await tap(page, "Orders");
    await row(page, pranks).click();
    await tap(page, "Free its garments");
    await expect.poll(async () => (await orderOf(stall, pranks)).stage).toBe("dropped");
  });

  it("finds an order in two taps by its word, its name or the end of its telephone number", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const place = async (more: object) =>
      (await stall.crew.post<PlacedOrder>(`${stall.base}/orders`, { lines: [OTTER_M], ...more })).body;
    const wren = await place({ name: "Wren", phone: "+12125550104" });
    await place({ name: "Zoë" });
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"));
    const find = page.getByLabel("Find an order");
    for (const typed of [wren.word, "wren", "0104", String(wren.number)]) {
      const taps = await countTaps(page, async () => {
        await find.click();
        await page.keyboard.type(typed);
        await row(page, wren.number).click();
      });
      expect([typed, taps]).toEqual([typed, 2]);
      await orderTag(page).getByText(wren.word).waitFor();
      expect(await find.inputValue()).toBe("");
      await tap(page, "New order");
    }
    await find.fill("otter");
    await page.keyboard.press("Enter");
    await page.getByText("2 orders fit. Tap one below.").waitFor();
    await expectAccessible(page);
    expect(await page.evaluate(() => JSON.stringify(localStorage))).not.toContain("0104");
    expect(faults).toEqual([]);
  });

  it("takes a tee for a round sum in five taps, says what goes back, and starts blank for the next customer", async () => {
    const stall = await crewStall(stage.running);
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"));
    await page.getByLabel("Longtail tee $24.00").waitFor();
    const taps = await countTaps(page, async () => {
      for (const label of ["Longtail tee $24.00", "Navy", /^L \(/])
        await page.getByLabel(label, { exact: label === "Navy" }).click();
      await tap(page, "Add to order");
      await page.getByRole("button", { name: "$40.00 back $14.26" }).click();
      await orderTag(page).getByText("waiting, place 1").waitFor();
    });
    expect(taps).toBe(5);
    await page.getByText("Change: $14.26.").waitFor();
    await expect.poll(async () => (await orderOf(stall, 101)).paid?.tender).toBe("cash");
    await expectAccessible(page);
    await tap(page, "Next customer");
    expect(await page.getByText("Change: $14.26.").count()).toBe(0);
    expect(await page.locator(".pad input:checked").count()).toBe(0);
    expect(await page.locator("#lines").textContent()).toContain("Nothing on it yet.");
    expect(faults).toEqual([]);
  });

  it("moves no row and takes no focus when orders come and go", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L], [NAVY_L], [NAVY_L]]);
    const [first = 0, second = 0, third = 0] = stall.numbers;
    await pressAll(stall);
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await tap(page, "Orders");
    const said = () => page.locator(".row-number").allTextContents();
    await expect.poll(said).toEqual([first, second, third].map(String));
    await row(page, second).focus();
    const where = await row(page, third).boundingBox();
    await stall.crew.post(`${stall.base}/orders/${first}/paid`, { tender: "cash" });
    await stall.crew.post(`${stall.base}/orders/${first}/collected`, {});
    const late = await stall.crew.post<PlacedOrder>(`${stall.base}/orders`, { lines: [NAVY_L] });
    await pressAll(stall);
    await row(page, late.body.number).waitFor();
    expect(await said()).toEqual([first, second, third, late.body.number].map(String));
    await row(page, first).getByText("no longer open").waitFor();
    expect(await row(page, third).boundingBox()).toEqual(where);
    expect(await row(page, second).evaluate((node) => node === document.activeElement)).toBe(true);
    await page.getByRole("button", { name: /^To fetch/ }).click();
    await expect.poll(said).toEqual([second, third, late.body.number].map(String));
  });

  it("enters a slip written on paper with its own number and time", async () => {
    const stall = await crewStall(stage.running);
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await key(page, "Longtail tee $24.00", "Navy", /^L \(/);
    await page.getByText("Paper order").click();
    await page.getByLabel("Number on the slip").fill("899");
    await page.getByLabel("Time on the slip").fill("00:00");
    await tap(page, "Place order, not paid yet");
    await page.getByText("The number on the slip must be from 900 to 999.").waitFor();
    await page.getByLabel("Number on the slip").fill("931");
    await tap(page, "Place order, not paid yet");
    await orderTag(page).getByText("931", { exact: true }).waitFor();
    const midnight = new Date();
    midnight.setHours(0, 0, 0, 0);
    expect(await orderOf(stall, 931)).toMatchObject({ takenBy: "paper", placedAt: midnight.toISOString() });
    await tap(page, "New order");
    expect(await page.getByLabel("Number on the slip").inputValue()).toBe("932");
  });

  it("refuses a card number, says what is left of a sold-out size, and keeps an order without signal", async () => {
    const stall = await crewStall(stage.running);
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await key(page, "Longtail tee $24.00", "Sand", /^3XL \(1\)/);
    // 1 to 9, 1 to 6 and the check digit that ISO/IEC 7812-1 gives it.
    await page.getByLabel("Name or initials (optional)").fill("1234 5678 9123 4563");
    await page.getByText("That looked like a card number").waitFor();
    expect(await page.getByLabel("Name or initials (optional)").inputValue()).toBe("");
    expect(await page.evaluate(() => JSON.stringify(localStorage))).not.toContain("4563");

    // Somebody else takes the last one.
    await stall.crew.post(`${stall.base}/orders`, {
      lines: [{ ...NAVY_L, colour: "sand", size: "3XL" }],
    });
    await tap(page, "Place order, not paid yet");
    await page.getByText("too few are left").waitFor();
    await page.getByLabel("3XL: gone").waitFor();
    await tap(page, "Remove Longtail tee, Sand, 3XL");

    await key(page, "Longtail tee $24.00", "Navy", /^L \(/);
    await page.context().setOffline(true);
    await tap(page, "Place order, not paid yet");
    await orderTag(page).getByText("saved on this tablet, not at the stall yet").waitFor();
    expect(await page.locator("#lines").textContent()).toContain("Nothing on it yet.");
    const said = await orderTag(page).locator(".tag-number").textContent();
    await expectAccessible(page);
    await page.context().setOffline(false);
    await page.getByText(`At the stall by now: ${said}.`).waitFor();
    const { word, takenBy, stage: reached } = await orderOf(stall, Number(said));
    expect([takenBy, reached]).toEqual(["counter", "waiting"]);
    expect(await orderTag(page).textContent()).toContain(word);
    await tap(page, "Seen");
    await page.locator("#saved").waitFor({ state: "hidden" });
  });

  it("fits a screen 320 px wide in both views", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page } = await openPage(stage.browser, stall.link("/counter"), {
      viewport: { width: 320, height: 640 },
    });
    const width = () => page.evaluate(() => document.documentElement.scrollWidth);
    await key(page, "Longtail tee $24.00", "Navy", /^L \(/);
    expect(await width()).toBe(320);
    await tap(page, "Orders");
    await page.getByLabel("Find an order").fill(String(stall.numbers[0]));
    await tap(page, "Find");
    await orderTag(page).getByText("waiting").waitFor();
    expect(await width()).toBe(320);
  });
});
