import { readFileSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { PlanRequest } from "../../src/model/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { type Running, start } from "../http/running.ts";
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

const example = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../examples/${name}.json`, import.meta.url), "utf8"));

/** A day small enough that the page is under test and not the planners. */
const blank = example("plan").blanks[0];
const small = {
  presses: { ...example("presses"), presses: example("presses").presses.slice(0, 1), people: { most: 2 } },
  plan: {
    ...example("plan"),
    scenarios: 100,
    blanks: [{ ...blank, colours: [{ id: "navy", share: 1 }], sizes: [{ id: "L", share: 1 }] }],
    skus: [],
    designs: example("plan").designs.slice(0, 1),
    offers: [{ id: "longtail-tee", blank: "tee", design: "longtail", price: "$26", share: 1 }],
    presses: [{ platen: "flat", count: 1, garmentsPerHour: 42 }],
  },
  sheets: { ...example("sheets"), steps: 200_000 },
};

const open = (width: number) =>
  openPage(browser, `${running.url}/plan`, { viewport: { width, height: 800 } });
const file = (name: string, text: string) => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});

async function load(page: Page, name: string, text: string): Promise<void> {
  await page.locator("#load").setInputFiles(file(name, text));
  await page.locator("#file-told", { hasText: name }).waitFor();
}

async function openSmall(width: number) {
  const opened = await open(width);
  await load(opened.page, "small.json", JSON.stringify(small));
  return opened;
}
const figure = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const answer = (page: Page, part: string) => page.locator(`#${part}-answer:not([hidden])`);

async function plan(page: Page): Promise<void> {
  await page.locator("#plan-form button.main").click();
  await answer(page, "plan").waitFor();
}

describe("the planning page", () => {
  it("plans the example in the page, to the same figures as anywhere else", async () => {
    const { page, faults, close } = await open(1280);
    await page.locator("#plan-scenarios").fill("100");
    await plan(page);
    const outcome = planFair(PlanRequest.parse({ ...example("plan"), scenarios: 100 }));
    if (outcome.kind !== "plan") throw new Error("the example cannot be planned");
    expect(await page.locator("#can-it-pay .verdict").textContent()).toBe(outcome.plan.advice);
    const navyLarge = outcome.plan.bring.skus.find(({ sku }) => sku === "tee.navy.L");
    const tees = page.locator("#bring table", { hasText: "Adult tee" });
    const cell = tees.locator("tbody tr", { hasText: "navy" }).locator("td").nth(2);
    expect(await cell.locator("strong").textContent()).toBe(String(navyLarge?.bring));
    expect(await page.locator("#hours canvas").count()).toBe(1);
    expect(await page.locator("#packing .tick").count()).toBeGreaterThan(outcome.plan.cartons.length);
    expect(await page.locator("#plan-answer .cautions li").count()).toBe(outcome.plan.cautions.length);

    // What is to be brought becomes the wish for sheets.
    const longtail = outcome.plan.bring.transfers.find(({ design }) => design === "longtail");
    expect(await page.locator("#sheets-designs-0-count").inputValue()).toBe(String(longtail?.buy));
    await expectAccessible(page);
    expect(faults).toEqual([]);
    await close();
  });

  it("draws the sheets, the power and the pitch, each with its cautions, and the organiser's page", async () => {
    const { page, faults, close } = await openSmall(390);
    await page.locator("#sheets-form button.main").click();
    await answer(page, "sheets").waitFor();
    expect(await page.locator("#sheets-answer .layout svg").count()).toBeGreaterThan(0);
    await page.locator("#presses-form button.main").click();
    await answer(page, "presses").waitFor();
    expect(await page.locator("#presses-answer > .told").first().textContent()).toContain("flat press");
    expect(await page.locator("#presses-answer .cautions").textContent()).toContain("burns");
    await page.locator("#power-form button.main").click();
    await answer(page, "power").waitFor();
    const order = (await page.locator("#power-answer .order").textContent()) ?? "";
    expect(order).toContain("circuits");
    expect(await page.locator("#power-answer .cautions").textContent()).toContain("licensed electrician");
    await page.locator("#pitch-form button.main").click();
    await answer(page, "pitch").waitFor();
    expect(await page.locator("#pitch-answer svg .hot").count()).toBe(2);
    expect(await page.locator("#pitch-answer .cautions").textContent()).toContain("burns");
    expect(await page.locator("#organiser-answer").textContent()).toContain(order);
    await expectAccessible(page);
    expect(faults).toEqual([]);
    await close();
  });

  it("names a bad figure beside it, keeps what was typed over a reload, and plans once it is mended", async () => {
    const { page, faults, close } = await openSmall(320);
    const budget = page.locator("#plan-limits-budget");
    const patience = page.locator("#plan-patienceMinutes");
    await page.locator("summary", { hasText: "Pressing and patience" }).click();
    await patience.fill("-4");
    await budget.fill("lots");
    await page.locator("#plan-form button.main").click();
    await page.locator("#plan-faults li").first().waitFor();
    expect(await page.locator("#plan-patienceMinutes-fault").textContent()).toContain("at least 0");
    expect(await patience.getAttribute("aria-invalid")).toBe("true");
    await expectAccessible(page);

    await page.reload();
    expect(await budget.inputValue()).toBe("lots");
    await page.locator("summary", { hasText: "Pressing and patience" }).click();
    await patience.fill("18");
    await page.locator("#plan-form button.main").click();
    await page.locator("#plan-limits-budget-fault:not(:empty)").waitFor();
    expect(await page.locator("#plan-faults li").count()).toBe(1);
    await budget.fill("$1500");
    await plan(page);
    expect(await page.locator("#plan-faults").isHidden()).toBe(true);
    // The narrowest phone: nothing stands out at the side.
    const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(wide).toBeLessThanOrEqual(room ?? 0);
    expect(faults).toEqual([]);
    await close();
  });

  it("stops when told to, and plans again after it", async () => {
    const { page, faults, close } = await open(390);
    await page.locator("#plan-scenarios").fill("2000");
    await page.locator("#plan-form button.main").click();
    await page.locator("#plan-progress", { hasText: "what to bring" }).waitFor();
    await page.locator("#plan-stop").click();
    await page.locator("#plan-progress", { hasText: "Stopped" }).waitFor();
    expect(await page.locator("#plan-answer").isHidden()).toBe(true);
    await load(page, "small.json", JSON.stringify(small));
    await plan(page);
    expect(faults).toEqual([]);
    await close();
  });

  it("loads a request from a file, and refuses one that holds none", async () => {
    const { page, close } = await open(390);
    await load(page, "other.json", JSON.stringify({ ...small.plan, name: "Low Meadow Fair" }));
    expect(await figure(page, "Fair").inputValue()).toBe("Low Meadow Fair");
    await load(page, "letter.json", "Dear stall");
    expect(await page.locator("#file-told").textContent()).toContain("nothing was changed");
    expect(await figure(page, "Fair").inputValue()).toBe("Low Meadow Fair");
    await close();
  });
});
