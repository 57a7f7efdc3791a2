/** The organiser stops all orders and speaks to the crews, who see it at the press and at the counter. */
import { expect, it } from "vitest";
import { expectAccessible, openPage } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { openStage } from "./stage.ts";

let stall: CrewStall;

const stage = openStage(async () => {
  stall = await crewStall(stage.running, [[NAVY_L]]);
});

it("an announcement is on press and counter until one of them has read it; Stop all orders is on both until Go on", async () => {
  const [, , , fair] = stall.base.split("/");
  const organiser = await openPage(
    stage.browser,
    `${stage.running.url}/fair/${fair}#key=${stall.organiserKey}`,
  );
  const press = await openPage(stage.browser, stall.link(""));
  const counter = await openPage(stage.browser, stall.link("/counter"));
  const { page } = organiser;
  const screens = [press.page, counter.page];

  await page.getByText("Announcements", { exact: true }).click();
  await page.getByLabel("Message to the crews, never to customers").fill("Rain from four.");
  await page.getByLabel("Only to these stalls").fill("Nobody, tern & tide");
  await page.getByText("The fair has no stall “Nobody”.").waitFor();
  await page.getByLabel("Only to these stalls").fill("tern & tide");
  await page.getByRole("button", { name: "Send to crews" }).click();
  for (const screen of screens)
    await expect.poll(() => screen.locator("#organiser-part").textContent()).toContain("Rain from four.");
  await expectAccessible(page);
  await press.page.locator("#organiser-part").getByRole("button", { name: "Read" }).click();
  for (const screen of screens)
    await expect.poll(() => screen.locator("#organiser-part").textContent()).not.toContain("Rain");
  await expect.poll(() => page.locator("#organiser-word").textContent()).toMatch(/Read by 1 of/);

  await page.getByText("Stop all orders", { exact: true }).first().click();
  await page.getByRole("button", { name: "Storm" }).click();
  await page.locator(".stop-orders").getByRole("button", { name: "Stop all orders" }).click();
  for (const screen of screens)
    await expect
      .poll(() => screen.locator("#organiser-part").textContent())
      .toContain("The fair has stopped all orders");
  await expectAccessible(page);
  for (const screen of screens) await expectAccessible(screen);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await page.getByRole("button", { name: "Go on" }).click();
  for (const screen of screens)
    await expect.poll(() => screen.locator("#organiser-part").textContent()).toBe("");
  expect([organiser.faults, press.faults, counter.faults]).toEqual([[], [], []]);
  for (const opened of [organiser, press, counter]) await opened.close();
}, 120_000);
