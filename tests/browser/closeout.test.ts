import { describe, expect, it } from "vitest";
import type { Closeout } from "../../src/model/accounts/closeout.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { CAP, type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { openStage } from "./stage.ts";

let stall: CrewStall;

const stage = openStage(async () => {
  stall = await crewStall(stage.running, [[NAVY_L], [CAP]]);
  for (const number of stall.numbers)
    await stall.crew.post(`${stall.base}/orders/${number}/paid`, { tender: "cash" });
  const { crew, base } = stall;
  const { body } = await crew.post<{ number: number }>(`${base}/orders`, { lines: [NAVY_L] });
  for (const _ of stall.numbers) {
    const { body: pulled } = await crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`);
    await crew.post(`${base}/jobs/${pulled.job.job}/pressed`, {});
  }
  await crew.post(`${base}/orders/${body.number}/dropped`, {});
});

const account = async (): Promise<Closeout> =>
  (await stall.crew.get<Closeout>(`${stall.base}/closeout`)).body;

describe("the close-out page", () => {
  it("shows the day, keeps the costs typed, and closes and opens it again with a reason", async () => {
    const { page, faults } = await openPage(stage.browser, stall.link("/closeout"));
    await page.locator("#offers tbody tr").first().waitFor();
    await expectAccessible(page);
    // Counting the rack: mark what is not there.
    await page.locator("#rack tbody tr", { hasText: "Its order was cancelled" }).waitFor();
    await page.getByText("Count the rack: 1 garment").click();
    await page.getByRole("button", { name: "Not there…" }).click();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Take it off" }).click();
    await expect.poll(() => page.locator("#rack").count()).toBe(0);
    expect((await account()).rack).toEqual([]);
    // Sizes are in menu order, and nothing is called profit before its costs are entered.
    expect(await page.locator("#sizes tbody th").allTextContents()).toEqual(["L", "one size"]);
    expect(await page.locator("#glance dt").first().textContent()).toBe("Sales, before tax");
    expect(await page.locator("#money tr", { hasText: "Profit" }).count()).toBe(0);
    await page.getByLabel("Tee, each", { exact: true }).fill("4.10");
    await page
      .getByLabel("Tee, sizes at another cost, such as 2XL 5.60, 3XL 6.40")
      .fill("2XL 5.60, 3XL 6.40");
    await page.locator('[id="fee 0"]').fill("a lot");
    await page.getByRole("button", { name: "Save costs" }).click();
    await expect
      .poll(() => page.locator("#costs-faults").textContent())
      .toContain("Pitch: “a lot” isn’t an amount");
    expect((await account()).costs).toBeNull();
    await page.locator('[id="fee 0"]').fill("240");
    await page.getByRole("button", { name: "Save costs" }).click();
    await expect.poll(() => page.locator("#notice").textContent()).toBe("Costs saved.");
    const { costs, money } = await account();
    expect(costs?.fees).toEqual([{ name: "Pitch", amount: 24_000 }]);
    expect(costs?.blanks).toEqual([
      { blank: "tee", cost: 410, worthPercent: 80 },
      { blank: "tee", size: "2XL", cost: 560, worthPercent: 80 },
      { blank: "tee", size: "3XL", cost: 640, worthPercent: 80 },
    ]);
    await expect
      .poll(() => page.locator("#money tr", { hasText: "Profit" }).textContent())
      .toContain(`-$${(-money.profit / 100).toFixed(2)}`);

    await page.getByRole("button", { name: "Close this day…" }).click();
    await page.locator("#close-first li", { hasText: "Orders not finished: 2." }).waitFor();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Not yet" }).click();
    expect((await account()).stage).toBe("open");
    await page.getByRole("button", { name: "Close this day…" }).click();
    await page.getByRole("button", { name: "Close the day", exact: true }).click();
    await expect.poll(() => page.locator("#stage").textContent()).toContain("counts are frozen");
    await page.getByRole("button", { name: "Open it again…" }).click();
    await expectAccessible(page);
    await page.getByLabel("Why").fill("one box was not counted");
    await page.locator("#reopen-now").click();
    await expect.poll(() => page.locator("#stage").textContent()).toContain("one box was not counted");
    expect((await account()).stage).toBe("reopened");
    expect(faults).toEqual([]);
  });

  it("keeps what was typed when there is no network, and sends it once", async () => {
    const { page } = await openPage(stage.browser, stall.link("/closeout"));
    await page.locator("#offers tbody tr").first().waitFor();
    await page.locator('[id="people"]').fill("2");
    await page.locator('[id="paid-hours"]').fill("8.5");
    await page.locator('[id="hourly"]').fill("19.00");
    await page.context().setOffline(true);
    await page.getByRole("button", { name: "Save costs" }).click();
    await expect
      .poll(() => page.locator("#notice").textContent())
      .toContain("Nothing that you typed is lost.");
    expect(await page.locator('[id="hourly"]').inputValue()).toBe("19.00");
    await page.context().setOffline(false);
    await page.getByRole("button", { name: "Save costs" }).click();
    await expect.poll(async () => (await account()).money.wages).toBe(32_300);
  });

  it("prints on one sheet, fits a narrow phone, and says what to do without a key", async () => {
    const narrow = { viewport: { width: 320, height: 640 } };
    const { page, close } = await openPage(stage.browser, stall.link("/closeout"), narrow);
    await page.locator("#offers tbody tr").first().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    for (const format of ["A4", "Letter"]) {
      const paper = (await page.pdf({ format })).toString("latin1");
      expect(paper.match(/\/Type\s*\/Page[^s]/g), format).toHaveLength(1);
    }
    await close();
    const stranger = await openPage(stage.browser, stall.link("/closeout").split("#")[0] ?? "");
    await expect.poll(() => stranger.page.locator("#no-key").isVisible()).toBe(true);
    await expectAccessible(stranger.page);
    await stranger.close();
  });
});

describe("a stall taken along", () => {
  it.each([
    ["Save for another fair", "next"],
    ["Save the whole stall", "copy"],
  ])("is saved on one stall's page and loaded on an empty one's: %s", async (button, name) => {
    const { page } = await openPage(stage.browser, stall.link("/closeout"));
    await page.locator("#offers tbody tr").first().waitFor();
    const saving = page.waitForEvent("download");
    await page.getByRole("button", { name: button }).click();
    // The browser keeps it only as long as its page.
    const file = await (await saving).path();
    const { body } = await stage.running.anyone
      .withKey(stall.organiserKey)
      .put<{ key: string }>(stall.base.replace(/[^/]+$/, name), { name });
    const address = stall
      .link("/closeout")
      .replace(/[^/]+\/closeout#.*$/, `${name}/closeout#key=${body.key}`);
    const empty = await openPage(stage.browser, address);
    await empty.page.locator("#load").waitFor();
    await expectAccessible(empty.page);
    await empty.page.locator("#load-file").setInputFiles(file);
    await expect.poll(() => empty.page.locator("#skus tbody tr").count()).toBeGreaterThan(10);
    expect(await empty.page.locator("#load").isVisible()).toBe(false);
    expect(empty.faults).toEqual([]);
    await empty.close();
  });
});

describe("counting passers-by", () => {
  it("keeps the count over a reload and without a network, and sends it once", async () => {
    const { page, faults } = await openPage(stage.browser, stall.link("/passers-by"));
    const plus = page.getByRole("button", { name: "+ one" });
    for (const _ of [1, 2, 3]) await plus.click();
    await page.getByRole("button", { name: "− one" }).click();
    await page.reload();
    await expect.poll(() => page.locator("#seen").textContent()).toBe("2");
    await expectAccessible(page);
    await page.context().setOffline(true);
    await page.getByRole("button", { name: "Save count" }).click();
    await expect.poll(() => page.locator("#notice").textContent()).toContain("kept on this tablet");
    await page.context().setOffline(false);
    await expect.poll(() => page.locator("#so-far").textContent()).toContain("2 people in");
    expect(await page.locator("#seen").textContent()).toBe("0");
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(faults).toEqual([]);
  });
});
