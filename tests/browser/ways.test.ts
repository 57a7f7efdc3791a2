/** From the front page to every page of a stall, by taps alone; links pasted; keys carried on; night kept. */
import { expect, it } from "vitest";
import type { LoadedFair } from "../../src/local/example.ts";
import { example } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;
let place: string;
let key: string;

const stage = openStage(async () => {
  fair = await example(stage.running);
  const [stall] = fair.stalls;
  if (stall === undefined) throw new Error("the example fair has no stall");
  place = `${fair.fair}/${stall.stall}`;
  ({ key } = stall);
});

it("opens a link that was pasted, and says what is wrong with one that opens nothing", async () => {
  const { page, faults } = await openPage(stage.browser, stage.running.url);
  await expectAccessible(page);
  const paste = async (link: string): Promise<void> => {
    await page.getByLabel("Paste the link here").fill(link);
    await page.getByRole("button", { name: "Open it" }).click();
  };
  await paste("my stall");
  await page.getByText("This link leads to no page here").waitFor();
  expect(await page.locator("#given").getAttribute("aria-invalid")).toBe("true");
  await paste(`https://other.example/crew/${place}#key=x`);
  await page.getByText("This link belongs to other.example").waitFor();
  await paste(`  ${stage.running.url}/crew/${place}#key=${key} `);
  await page.getByRole("button", { name: "Press A, flat platen" }).waitFor();
  expect(page.url()).toBe(`${stage.running.url}/crew/${place}`);

  // The front page now has the stall, by its own name.
  await page.goto(stage.running.url);
  const card = page.locator(".card", { hasText: "Tern & Tide" });
  await card.waitFor();
  await expectAccessible(page);
  await card.getByRole("link", { name: "Counter" }).click();
  await page.waitForURL(`**/crew/${place}/counter`);
  expect(faults).toEqual([]);
});

it("leads from each of the crew's pages to all others by one menu", async () => {
  const { page, faults } = await openPage(stage.browser, `${stage.running.url}/crew/${place}#key=${key}`);
  const open = async (): Promise<void> => {
    await page.locator(".menu > summary").click();
    await page.locator(".menu nav").waitFor();
  };
  for (const [name, path] of [
    ["Counter", "/counter"],
    ["Count", "/stock"],
    ["Set-up", "/setup"],
    ["Print", "/prints"],
    ["How the day is going", "/day"],
    ["Close-out", "/closeout"],
    ["Foot traffic", "/passers-by"],
    ["Press", ""],
  ] as const) {
    await open();
    await page.locator(".menu").getByRole("link", { name, exact: true }).click();
    await page.waitForURL(`${stage.running.url}/crew/${place}${path}`);
    expect(await page.locator('.menu [aria-current="page"]').textContent()).toBe(name);
  }
  await open();
  await page.keyboard.press("Escape");
  expect(await page.locator(".menu nav").isVisible()).toBe(false);

  // Another tablet gets the crew's link as a code.
  await open();
  await page.getByRole("button", { name: "Add a tablet…" }).click();
  await page.getByRole("dialog").locator("svg.code").waitFor();
  await expectAccessible(page);
  expect(await page.getByRole("link", { name: "Open here" }).getAttribute("href")).toBe(
    `${stage.running.url}/crew/${place}#key=${key}`,
  );
  await page.getByRole("button", { name: "Done" }).click();
  expect(faults).toEqual([]);
});

it("follows the system into the night, and keeps what was chosen on this device", async () => {
  const { page, faults } = await openPage(stage.browser, `${stage.running.url}/at/${place}/board`, {
    colorScheme: "dark",
  });
  const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const night = await paper();
  await page.emulateMedia({ colorScheme: "light" });
  await expect.poll(paper).not.toBe(night);
  const button = page.getByRole("button", { name: "Night" });
  expect(await button.getAttribute("aria-pressed")).toBe("false");
  await button.click();
  expect(await paper()).toBe(night);
  expect(await button.getAttribute("aria-pressed")).toBe("true");
  await expectAccessible(page);
  await page.goto(`${stage.running.url}/at/${place}`);
  expect(await paper()).toBe(night);
  await page.goto(`${stage.running.url}/at/${place}/board`);
  // Paper is paper: nothing dark is printed.
  await page.emulateMedia({ media: "print" });
  expect(await paper()).toBe("rgb(255, 255, 255)");
  expect(faults).toEqual([]);
});

it("is all there at twice the size, sideways scrolling none", async () => {
  // A window of 1280 pixels zoomed to 200 % has 640 for the page (WCAG 2.2, 1.4.4 and 1.4.10).
  const { page } = await openPage(stage.browser, stage.running.url, {
    viewport: { width: 640, height: 400 },
  });
  for (const path of [
    "/",
    "/help",
    "/start",
    `/crew/${place}#key=${key}`,
    `/crew/${place}/counter`,
    `/at/${place}`,
  ]) {
    await page.goto(stage.running.url + path);
    expect([path, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([path, 640]);
    await page.keyboard.press("Tab");
    expect([path, await page.evaluate(() => document.activeElement?.textContent)]).toEqual([
      path,
      "Skip to the page",
    ]);
  }
});

it("opens a stall's board, order page and poster from the organiser's row", async () => {
  const { page } = await openPage(stage.browser, `${stage.running.url}/fair/${fair.fair}#key=${fair.key}`);
  await page.locator("#stalls tbody th button", { hasText: "Tern & Tide" }).click();
  for (const [name, path] of [
    ["Board", "/board"],
    ["Order page", ""],
    ["Poster", "/poster"],
  ] as const)
    expect(await page.getByRole("link", { name, exact: true }).getAttribute("href")).toBe(
      `/at/${place}${path}`,
    );
  // Five figures and six columns; the rest at a tap.
  expect(await page.locator("#five > div").count()).toBe(5);
  expect(await page.locator("#stalls thead th:visible").count()).toBe(6);
  await page.getByRole("button", { name: "More columns" }).click();
  expect(await page.locator("#stalls thead th:visible").count()).toBeGreaterThan(12);
});
