/** From an empty store to a first order by the pages alone, with the keyboard; keys shown once, and made anew. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Running, start } from "../http/running.ts";
import { OWNER_SECRET } from "../http/secrets.ts";
import { expectAccessible, openBrowser, openPage } from "./browser.ts";

let running: Running;
let browser: Browser;

beforeAll(async () => {
  [running, browser] = await Promise.all([start(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await running.stop();
});

/** Types into the field that a label names, reached with the Tab key alone. */
async function tabTo(page: Page, label: string): Promise<void> {
  const wanted = await page.getByLabel(label, { exact: true }).getAttribute("id");
  for (let n = 0; n < 120; n += 1) {
    if ((await page.evaluate(() => document.activeElement?.id)) === wanted) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${label} cannot be reached with the Tab key`);
}
async function tabToButton(page: Page, name: string): Promise<void> {
  for (let n = 0; n < 160; n += 1) {
    if ((await page.evaluate(() => document.activeElement?.textContent?.trim())) === name) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`${name} cannot be reached with the Tab key`);
}
const type = async (page: Page, label: string, text: string): Promise<void> => {
  await tabTo(page, label);
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type(text);
};

describe("a first run", () => {
  it("goes from an empty store to a first order by the pages alone, keyboard only", async () => {
    const opened = await openPage(
      browser,
      `${running.url}/start#owner=${OWNER_SECRET}&reach=${running.url}`,
      {
        viewport: { width: 1280, height: 900 },
      },
    );
    const { page, faults } = opened;
    await page.locator("#zone option").first().waitFor({ state: "attached" });
    expect(page.url()).toBe(`${running.url}/start`);
    await expectAccessible(page);
    await type(page, "The fair's name", "Ferny Hollow Fair");
    await page.locator("#days input[type=date]").fill(new Date().toISOString().slice(0, 10));
    await page.locator("#days input[data-part=opens]").fill("00:00");
    await page.locator("#days input[data-part=closes]").fill("00:00");
    await page.locator("#zone").selectOption("UTC");
    await type(page, "The stall's name", "Moss & Co");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "The keys: shown here once" }).waitFor();
    expect(await page.locator(".key-card svg.code").count()).toBe(3);
    await expectAccessible(page);
    await tabToButton(page, "Go on: set up the menu");
    await page.keyboard.press("Enter");

    await page.waitForURL("**/crew/ferny-hollow-fair/moss-co/setup");
    await tabToButton(page, "Begin with a tee in S to 2XL");
    await page.keyboard.press("Enter");
    await page.locator("details.entry summary", { hasText: "Tee" }).focus();
    await page.keyboard.press("Enter");
    await type(page, "Add colours", "navy, sand");
    await page.keyboard.press("Enter");
    await page.getByRole("group", { name: "Colour sand" }).waitFor();
    await type(page, "Add a design", "Otter");
    await page.keyboard.press("Enter");
    await type(page, "Print width inches", "9");
    await type(page, "Print height inches", "7.5");
    await tabToButton(page, "Add an offer");
    await page.keyboard.press("Enter");
    await type(page, "Price USD", "24");
    await page.locator("#texts").getByText("Otter Tee").first().waitFor();
    await expectAccessible(page);
    await tabToButton(page, "Save");
    await page.keyboard.press("Enter");
    await page.getByText("All is saved.").waitFor();
    const key = await page.evaluate(() => localStorage.getItem("key crew ferny-hollow-fair/moss-co"));
    const crew = running.anyone.withKey(key);
    const base = "/v1/fairs/ferny-hollow-fair/stalls/moss-co";
    const entries = [
      { sku: "tee.navy.M", counted: 3 },
      { design: "otter", counted: 3 },
    ];
    expect((await crew.post(`${base}/stock`, { entries })).status).toBe(200);
    const customer = await openPage(browser, `${running.url}/at/ferny-hollow-fair/moss-co`);
    await customer.page.locator(".choice").first().waitFor();
    await customer.page.locator("#text").fill("1 navy M");
    await customer.page.keyboard.press("Enter");
    await customer.page.locator(".choice", { hasText: "YES" }).click();
    await customer.page.locator("#ticket .number-big").getByText("101").waitFor();
    expect([...faults, ...customer.faults]).toEqual([]);
    await customer.close();

    // The organiser's key is kept in this browser since the first run.
    await page.goto(`${running.url}/fair/ferny-hollow-fair/keys`);
    await page.getByRole("button", { name: "New crew key for Moss & Co" }).click();
    await page.getByText("The old key has stopped.").waitFor();
    await expectAccessible(page);
    expect((await crew.get(`${base}/stock`)).status).toBe(403);
    const fresh = await page.evaluate(() => localStorage.getItem("key crew ferny-hollow-fair/moss-co"));
    expect((await running.anyone.withKey(fresh).get(`${base}/stock`)).status).toBe(200);
    await page.getByLabel("When a new key is made, the old one").selectOption("15");
    await page.getByRole("button", { name: "New crew key for Moss & Co" }).click();
    await page.getByText("still works for 15 minutes").waitFor();
    expect((await running.anyone.withKey(fresh).get(`${base}/stock`)).status).toBe(200);
    await opened.close();
  });

  it("asks a deployed worker's owner for the secret first, tells a wrong one, and keeps what was typed", async () => {
    const { page, close } = await openPage(browser, `${running.url}/start`, {
      viewport: { width: 320, height: 800 },
    });
    await page.getByLabel("The owner's secret").fill("not the secret at all");
    await page.locator("#fair-name").fill("Second Fair");
    await page.locator("#stall-name").fill("Reed");
    await page.getByRole("button", { name: "Make the fair and the stall" }).click();
    await page.getByText("This is not the owner's secret of this deployment.").waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    await page.reload();
    expect(await page.locator("#fair-name").inputValue()).toBe("Second Fair");
    expect(await page.locator("#stall").inputValue()).toBe("reed");
    await close();
  });
});
