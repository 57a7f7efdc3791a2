/** From an empty store to a first order by the pages and the keyboard alone; keys are shown once, and replaced. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { FairView } from "../../src/model/fair/fair.ts";
import { OWNER_SECRET } from "../http/secrets.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

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
      stage.browser,
      `${stage.running.url}/start#owner=${OWNER_SECRET}&reach=${stage.running.url}`,
      {
        viewport: { width: 1280, height: 900 },
      },
    );
    const { page, faults } = opened;
    await page.locator("#zone option").first().waitFor({ state: "attached" });
    expect(page.url()).toBe(`${stage.running.url}/start`);
    await type(page, "The fair's name", "Ferny Hollow Fair");
    // As a hand types into the browser's own date and time fields, part after part.
    const begun = new Date();
    const [year, month, day] = begun.toISOString().slice(0, 10).split("-");
    // From the last full hour to the same hour of the next day, so that it is open at whatever time this runs.
    const hour = begun.getUTCHours();
    const clock = `${String(((hour + 11) % 12) + 1).padStart(2, "0")}00${hour < 12 ? "AM" : "PM"}`;
    await tabTo(page, "Date");
    await page.keyboard.type(`${month}${day}${year}`);
    for (const label of ["Opens", "Closes"]) {
      await tabTo(page, label);
      await page.keyboard.type(clock);
    }
    await tabTo(page, "Time zone");
    await page.keyboard.type("UTC");
    await type(page, "The stall's name", "Moss & Co");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Save these links now: they won’t be shown again" }).waitFor();
    expect(await page.locator(".key-card svg.code").count()).toBe(3);
    await expectAccessible(page);
    await tabToButton(page, "Go on: set up the menu");
    await page.keyboard.press("Enter");

    await page.waitForURL("**/crew/ferny-hollow-fair/moss-co/setup");
    await tabToButton(page, "Begin with a tee in S to 2XL");
    await page.keyboard.press("Enter");
    await type(page, "Add colors", "navy, sand");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Remove “sand”" }).waitFor();
    await type(page, "Add a design", "Otter");
    await page.keyboard.press("Enter");
    await type(page, "Print width inches", "9");
    await type(page, "Print height inches", "7.5");
    await tabToButton(page, "Add a product");
    await page.keyboard.press("Enter");
    await type(page, "Price USD", "24");
    await page.locator("#texts").getByText("Otter Tee").first().waitFor();
    await expectAccessible(page);
    await tabToButton(page, "Save");
    await page.keyboard.press("Enter");
    await page.getByText("Saved.").waitFor();
    await tabToButton(page, "Menu");
    await page.keyboard.press("Enter");
    await tabToButton(page, "Count");
    await page.keyboard.press("Enter");
    await page.waitForURL("**/moss-co/stock");
    await page.getByLabel("Tee, navy, M", { exact: true }).waitFor();
    await type(page, "Tee, navy, M", "3");
    await type(page, "Otter transfers", "3");
    await tabToButton(page, "Save the count");
    await page.keyboard.press("Enter");
    await page.getByText("Saved.").waitFor();
    const key = await page.evaluate(() => localStorage.getItem("key crew ferny-hollow-fair/moss-co"));
    const crew = stage.running.anyone.withKey(key);
    const base = "/v1/fairs/ferny-hollow-fair/stalls/moss-co";
    const customer = await openPage(stage.browser, `${stage.running.url}/at/ferny-hollow-fair/moss-co`);
    await customer.page.locator(".choice").first().waitFor();
    await customer.page.locator("#text").fill("1 navy M");
    await customer.page.keyboard.press("Enter");
    await customer.page.locator(".choice", { hasText: "YES" }).click();
    await customer.page.locator("#ticket .number-big").getByText("101").waitFor();
    expect([...faults, ...customer.faults]).toEqual([]);
    await customer.close();

    // The organiser's key is kept in this browser since the first run.
    await page.goto(`${stage.running.url}/fair/ferny-hollow-fair/keys`);
    // A key that stops at once is asked about first.
    page.on("dialog", (dialog) => void dialog.accept());
    await page.getByLabel("When a new key is made, the old one").selectOption("0");
    await page.getByRole("button", { name: "New crew key for Moss & Co" }).click();
    await page.getByText("The old key has stopped.").waitFor();
    await expectAccessible(page);
    expect((await crew.get(`${base}/stock`)).status).toBe(403);
    const fresh = await page.evaluate(() => localStorage.getItem("key crew ferny-hollow-fair/moss-co"));
    expect((await stage.running.anyone.withKey(fresh).get(`${base}/stock`)).status).toBe(200);
    await page.getByLabel("When a new key is made, the old one").selectOption("15");
    await page.getByRole("button", { name: "New crew key for Moss & Co" }).click();
    await page.getByText("still works for 15 minutes").waitFor();
    expect((await stage.running.anyone.withKey(fresh).get(`${base}/stock`)).status).toBe(200);

    // The fair closes earlier and has a second day; another stall is added; the organiser's key is replaced.
    await type(page, "The fair's name", "Ferny Hollow Summer Fair");
    await page.reload();
    await page.getByText("Not saved yet.").waitFor();
    expect(await page.getByLabel("The fair's name").inputValue()).toBe("Ferny Hollow Summer Fair");
    await tabTo(page, "Closes");
    await page.keyboard.type("1130PM");
    await tabToButton(page, "Add a day");
    await page.keyboard.press("Enter");
    // In the meantime somebody else sets the time zone (Reykjavik keeps UTC all year): that is merged into the typed
    // changes, and saved with them.
    const path = "/v1/fairs/ferny-hollow-fair";
    const found = (await stage.running.anyone.get<FairView>(path)).body;
    const other = stage.running.anyone.withKey(
      await page.evaluate(() => localStorage.getItem("key organiser ferny-hollow-fair")),
    );
    const set = { name: found.name, openings: found.openings, timeZone: "Atlantic/Reykjavik" };
    expect((await other.put(path, set)).status).toBe(200);
    await tabToButton(page, "Save name and hours");
    await page.keyboard.press("Enter");
    await page.getByText("and that is in here now. Look, and save again.").waitFor();
    await tabToButton(page, "Save name and hours");
    await page.keyboard.press("Enter");
    await page.getByText("Saved. Every stall has it.").waitFor();
    const { name, openings, timeZone } = (await stage.running.anyone.get<FairView>(path)).body;
    expect([name, timeZone]).toEqual(["Ferny Hollow Summer Fair", "Atlantic/Reykjavik"]);
    const hours = [`${String(hour).padStart(2, "0")}:00`, "23:30"];
    expect(openings.map(({ opens, closes }) => [opens.slice(11, 16), closes.slice(11, 16)])).toEqual([
      hours,
      hours,
    ]);
    await type(page, "Add a stall: its name", "Reed & Rush");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Reed & Rush: crew key" }).waitFor();
    await page.getByRole("button", { name: "New crew key for Reed & Rush" }).waitFor();
    const before = await page.evaluate(() => localStorage.getItem("key organiser ferny-hollow-fair"));
    await page.getByLabel("When a new key is made, the old one").selectOption("0");
    await type(page, "The owner's secret", OWNER_SECRET);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "The organizer's new key" }).waitFor();
    await expectAccessible(page);
    const pace = (made: string | null) =>
      stage.running.anyone.withKey(made).get("/v1/fairs/ferny-hollow-fair/throughput");
    expect((await pace(before)).status).toBe(403);
    const after = await page.evaluate(() => localStorage.getItem("key organiser ferny-hollow-fair"));
    expect((await pace(after)).status).toBe(200);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
    expect(faults).toEqual([]);
    await opened.close();
  });

  it("asks a deployed worker's owner for the secret first, tells a wrong one, and keeps what was typed", async () => {
    const { page } = await openPage(stage.browser, `${stage.running.url}/start`, {
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
  });
});
