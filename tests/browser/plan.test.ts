import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { expectAccessible, KEPT, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const example = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../examples/${name}.json`, import.meta.url), "utf8"));

/** A day small enough that the page is under test and not the planners. */
const blank = example("plan").blanks[0];
const small = {
  presses: { ...example("presses"), presses: example("presses").presses.slice(0, 1), people: { most: 2 } },
  plan: {
    ...example("plan"),
    scenarios: 100,
    traffic: { ...example("plan").traffic, passersBy: { low: 260, likely: 420, high: 600 } },
    blanks: [{ ...blank, colours: [{ id: "navy", share: 1 }], sizes: [{ id: "L", share: 1 }] }],
    skus: [],
    designs: example("plan").designs.slice(0, 1),
    offers: [{ id: "longtail-tee", blank: "tee", design: "longtail", price: "$26", share: 1 }],
    presses: [{ platen: "flat", count: 1, garmentsPerHour: 42 }],
  },
  sheets: { ...example("sheets"), designs: example("sheets").designs.slice(0, 1), steps: 50_000 },
};

const open = (width: number, place = "fair", options = {}) =>
  openPage(stage.browser, `${stage.running.url}/plan#${place}`, {
    viewport: { width, height: 800 },
    ...options,
  });
const file = (name: string, text: string) => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});

async function load(page: Page, name: string, text: string): Promise<void> {
  await page.locator("#load").setInputFiles(file(name, text));
  await page.locator("#plan-note", { hasText: name }).waitFor();
}

const loadSmall = (page: Page) => load(page, "small.json", JSON.stringify(small));

/** Goes to another step of the plan, or to a part of one. */
async function go(page: Page, place: string): Promise<void> {
  await page.evaluate((hash) => {
    location.hash = hash;
  }, place);
  const [step = "", tab] = place.split("-");
  await page.locator(`.rail [aria-current][href="#${step}"]`).waitFor();
  if (tab !== undefined) await page.locator(`.tabs [aria-current][href="#${place}"]`).waitFor();
}

/** Opens the closed part that contains an entry. */
const more = (page: Page, place: string): Promise<void> =>
  page.locator(place).evaluate((entry) => {
    for (let at = entry.closest("details"); at !== null; at = at.parentElement?.closest("details") ?? null)
      at.open = true;
  });

/** Waits until a part's answer is that of its figures. */
const upToDate = (page: Page, part = "plan"): Promise<void> =>
  page.locator(`#${part}-standing`, { hasText: "Up to date" }).waitFor();

const keptDay = (page: Page) =>
  page.evaluate(() => {
    const id = localStorage.getItem("plan open");
    return JSON.parse(localStorage.getItem(`planned day ${id}`) ?? "");
  });

/** Entries that a person sees without opening anything. */
const entriesSeen = (page: Page): Promise<number> =>
  page
    .locator("main")
    .evaluate(
      (main) =>
        [...main.querySelectorAll("input:not(#load), select, textarea")].filter((one) =>
          one.checkVisibility(),
        ).length,
    );

describe("the planning page", () => {
  it("answers a new fair from at most twelve entries, names what has to be mended, and forgets nothing", async () => {
    const { page, faults } = await open(390, "costs");
    await page.locator(".menu > summary").click();
    await page.locator(".menu nav").first().waitFor();
    await page.keyboard.press("Escape");
    // A hundred days are enough to see the page at work.
    await more(page, "#plan-scenarios");
    await page.locator("#plan-scenarios").fill("100");
    await go(page, "fair");
    let entries = await entriesSeen(page);
    await page.getByLabel("People at the fair").fill("2500");
    await page.locator("#plan-day").fill("2027-05-01");
    await go(page, "products");
    entries += await entriesSeen(page);
    await page.getByLabel("Price").fill("25");
    await go(page, "costs");
    entries += await entriesSeen(page);
    await upToDate(page);
    await page.locator("#plan-costs-fixed-0-cost").fill("180");
    expect(entries).toBeLessThanOrEqual(12);
    await page.locator("#plan-standing", { hasText: "Out of date" }).waitFor();
    await upToDate(page);
    const said = await page.locator(".beside .verdict").textContent();
    const day = await keptDay(page);
    const outcome = planFair(PlanRequest.parse(day.plan));
    if (!outcome.ok) throw new Error("the new fair cannot be planned");
    const pieces = outcome.value.bring.skus.reduce((sum, one) => sum + one.bring, 0);
    expect(said).toMatch(new RegExp(`^Likely .*; .* los(?:es|e) money; bring ${pieces} blanks\\.$`));
    // Values still at their defaults are listed, typed ones are not.
    expect(await page.locator(".usual").textContent()).toContain("a blank costs 4");
    expect(await page.locator(".usual").textContent()).not.toContain("2,000 people");
    await page.reload();
    expect(await page.locator(".beside .verdict").textContent()).toBe(said);
    await upToDate(page);
    expect(await page.locator("#plan-costs-fixed-0-cost").inputValue()).toBe("180");

    // A bad figure is named beside it and above, and kept as it was typed.
    await go(page, "gear");
    const patience = page.locator("#plan-patienceMinutes");
    await more(page, "#plan-patienceMinutes");
    await patience.fill("-4");
    await page.locator("#plan-faults li").first().waitFor();
    expect(await page.locator("#plan-patienceMinutes-fault").textContent()).toContain("at least 0");
    expect(await patience.getAttribute("aria-invalid")).toBe("true");
    await expectAccessible(page);
    await patience.fill("18");
    await go(page, "costs");
    const budget = page.locator("#plan-limits-budget");
    await budget.fill("lots");
    await page.locator("#plan-limits-budget-fault:not(:empty)").waitFor();
    expect(await page.locator("#plan-faults li").count()).toBe(1);
    await page.reload();
    expect(await budget.inputValue()).toBe("lots");
    await budget.fill("$1500");
    await upToDate(page);
    expect(await page.locator("#plan-faults").count()).toBe(0);
    await expectAccessible(page);
    // The narrowest phone: nothing overflows at the side.
    await page.setViewportSize({ width: 320, height: 640 });
    const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(wide).toBeLessThanOrEqual(room ?? 0);

    await load(page, "long.json", JSON.stringify({ ...example("plan"), scenarios: 2000 }));
    await page.locator("#plan-standing", { hasText: "what to bring" }).waitFor();
    await page.locator("#plan-stop").click();
    await page.locator("#plan-note", { hasText: "Stopped" }).waitFor();
    await page.locator("#plan-standing", { hasText: /Not worked out yet|Out of date/ }).waitFor();
    expect(faults).toEqual([]);
  });

  it("plans the example in the page, to the same figures as anywhere else", async () => {
    const { page, faults } = await open(1280, "answer");
    await load(page, "example.json", JSON.stringify({ ...example("plan"), scenarios: 100 }));
    await upToDate(page);
    const outcome = planFair(PlanRequest.parse({ ...example("plan"), scenarios: 100 }));
    if (!outcome.ok) throw new Error("the example cannot be planned");
    const plan = outcome.value;
    const navyLarge = plan.bring.skus.find(({ sku }) => sku === "tee.navy.L");
    const tees = page.locator("#bring table", { hasText: "Adult tee" });
    const cell = tees.locator("tbody tr", { hasText: "navy" }).locator("td").nth(2);
    expect(await cell.locator("strong").textContent()).toBe(String(navyLarge?.bring));
    expect(await page.locator("#plan-answer .told").textContent()).toContain(plan.summary[0]);
    await go(page, "answer-hours");
    expect(await page.locator("#hours canvas").count()).toBe(1);
    await go(page, "answer-matters");
    expect(await page.locator("#matters .cautions li").count()).toBe(plan.cautions.length);
    await expectAccessible(page);
    await go(page, "print-packing");
    expect(await page.locator("#packing .tick").count()).toBeGreaterThan(plan.cartons.length);
    // What is to be brought becomes the wish for sheets.
    await go(page, "sheets");
    const longtail = plan.bring.transfers.find(({ design }) => design === "longtail");
    expect(await page.locator("#sheets-designs-0-count").inputValue()).toBe(String(longtail?.buy));

    await go(page, "answer-ways");
    expect(await page.locator("#ways .verdict").textContent()).toBe(plan.advice);
    // What is chosen by hand is followed, by the lists too.
    const way = plan.best === "print-ahead" ? "press-on-site" : "print-ahead";
    await page
      .locator("#plan-way")
      .selectOption(way === "print-ahead" ? "print everything ahead" : "press on site");
    await page.locator("#ways .verdict", { hasText: "You chose" }).waitFor();
    expect((await keptDay(page)).plan.way).toBe(way);
    expect(faults).toEqual([]);
  });

  it("takes rows in and out, follows a short name that changes, and keeps several plans side by side", async () => {
    const { page, faults } = await open(1280, "products");
    // No other offer uses its stock, and neither presses nor packs matter: a newsvendor problem of its own.
    const [tee] = small.plan.blanks;
    const plainly = { presses: [], spoilage: 0, limits: {}, blanks: [{ ...tee, casePack: 1 }] };
    await load(page, "plain.json", JSON.stringify({ ...small, plan: { ...small.plan, ...plainly } }));
    await page.locator("#plan-offers-add").click();
    await page.locator("#plan-offers-1-name:focus").waitFor();
    await more(page, "#plan-offers-1-id");
    await page.getByRole("button", { name: "Remove New product" }).click();
    await page.locator("#plan-offers-0-name").fill("Longtail, stated");
    await more(page, "#plan-offers-0-demand");
    await page.locator("#plan-offers-0-demand").selectOption("as a mean and a deviation");
    await page.locator("#plan-offers-0-demand-mean").fill("12");
    await page.locator("#plan-offers-0-demand-deviation").fill("3");
    await more(page, "#plan-designs-0-id");
    await page.locator("#plan-designs-0-id").fill("Long Tail");
    await page.locator("#plan-designs-0-id").blur();
    expect(await page.locator("#plan-designs-0-id").inputValue()).toBe("long-tail");
    await page.locator("#plan-designs-add").click();
    await more(page, "#plan-designs-1-id");
    await page.getByRole("button", { name: "Remove New design" }).click();
    await page.locator("#plan-designs-1-id").waitFor({ state: "detached" });
    await go(page, "answer");
    await upToDate(page);
    const stated = page.locator("#bring table", { hasText: "whose demand you stated" });
    expect(await stated.locator("tbody th").textContent()).toBe("Longtail, stated");
    await expectAccessible(page);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the whole result (CSV)" }).click(),
    ]);
    const written = readFileSync(await download.path(), "utf8");
    expect(written.split("\r\n")[0]).toBe("\uFEFFpart,of,figure,value,unit");
    expect(written).toContain("transfer,long-tail,bring,");
    // The sheets know the new short name and keep the size of its art.
    const day = await keptDay(page);
    expect(day.sheets.designs).toEqual([expect.objectContaining({ id: "long-tail", width: 10, height: 8 })]);

    await go(page, "plans");
    const table = page.locator("#plans-table");
    await page.getByRole("button", { name: /^Copy/ }).click();
    await page.locator(".rail [aria-current]", { hasText: "Fair" }).waitFor();
    await page.locator("#plan-note", { hasText: "A copy of Brackenfield" }).waitFor();
    await page.locator("#plan-name").fill("Low Meadow Fair");
    await upToDate(page);
    await go(page, "plans");
    expect(await table.locator("thead th").allTextContents()).toEqual([
      "Plan",
      "Low Meadow Fair",
      "Brackenfield Bird Fair, Saturday",
    ]);
    const row = table.locator("tbody tr", { hasText: "Likely profit" });
    await row.locator("td", { hasText: "not worked out" }).first().waitFor({ state: "detached" });
    await expectAccessible(page);
    await page.getByRole("button", { name: "Open Brackenfield Bird Fair, Saturday" }).click();
    await page.getByRole("button", { name: "Open now Brackenfield" }).waitFor();
    // The first tap only asks.
    await page.getByRole("button", { name: "Delete Low Meadow Fair" }).click();
    await page.getByRole("button", { name: "Delete for good Low Meadow Fair" }).click();
    await table.locator("thead th", { hasText: "Low Meadow" }).waitFor({ state: "detached" });
    await load(page, "letter.json", "Dear stall");
    expect(await page.locator("#plan-note").textContent()).toContain("nothing was changed");
    await page.reload();
    expect(await page.locator("#plans-table thead th").allTextContents()).toEqual([
      "Plan",
      "Brackenfield Bird Fair, Saturday",
    ]);
    expect(faults).toEqual([]);
  });

  it("draws sheets, presses, power and pitch as the plan has them unless typed over, and prints the papers", async () => {
    const { page, faults } = await open(390, "sheets");
    await loadSmall(page);
    await upToDate(page, "sheets");
    expect(await page.locator("#sheets-answer .layout svg").count()).toBeGreaterThan(0);
    await go(page, "gear-presses");
    await upToDate(page, "presses");
    expect(await page.locator("#presses-answer > .told").first().textContent()).toContain("flat press");
    expect(await page.locator("#presses-answer .cautions").textContent()).toContain("burns");
    await expectAccessible(page);
    await page.locator("#plan-presses-0-count").fill("2");
    await go(page, "gear-power");
    const hours = page.locator("#power-hours");
    const from = page.locator("#power-hours-help");
    // Ten to six, and before them switching on, the slowest press getting hot, and the test.
    expect(await hours.inputValue()).toBe("8.75");
    expect(await from.textContent()).toContain("From the plan.");
    expect(await page.locator("#power-pressTemperature").inputValue()).toBe("320 F");
    await hours.fill("12");
    await hours.blur();
    await from.getByText("Typed over.").waitFor();
    await from.getByRole("button", { name: "Take the plan’s: 8.75" }).click();
    expect(await hours.inputValue()).toBe("8.75");
    await page.locator("#power-answer", { hasText: "flat press 2 from the plan" }).waitFor();
    await upToDate(page, "power");
    expect(await page.locator("#power-answer").textContent()).toContain("live for 8.75 hours");
    const order = (await page.locator("#power-answer .order").textContent()) ?? "";
    expect(order).toContain("circuits");
    expect(await page.locator("#power-answer .cautions").textContent()).toContain("licensed electrician");
    await more(page, "#power-generator");
    await page.locator("#power-generator").selectOption("our generator");
    await page.locator("#power-generator-tank").waitFor();
    await page.locator("#power-generator").selectOption("the site");
    await go(page, "gear-pitch");
    await upToDate(page, "pitch");
    expect(await page.locator("#pitch-answer svg .hot").count()).toBe(2);
    expect(await page.locator("#pitch-answer .cautions").textContent()).toContain("burns");
    await expectAccessible(page);
    await go(page, "print-organiser");
    await page.locator("#organiser-answer", { hasText: order }).waitFor();
    await page.locator("#organiser-stall").fill("Tern prints");
    expect(await page.locator("#organiser-answer h3").first().textContent()).toContain("Tern prints");
    await go(page, "print-blanks");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save as CSV" }).click(),
    ]);
    const table = readFileSync(await download.path(), "utf8");
    expect(table).toMatch(
      /^\uFEFFstyle number,blank,color,size,pieces,packs,pieces a pack,"each, USD","total, USD"/,
    );
    expect(table).toContain(",Adult tee,navy,L,");
    await go(page, "print-transfers");
    await upToDate(page, "sheets");
    expect(await page.locator("#transfers table", { hasText: "Layouts" }).textContent()).toContain(
      "Layout 1",
    );
    await expectAccessible(page);
    expect(faults).toEqual([]);
  });

  it("opens and plans without a network, once it was open with one", async () => {
    const { page, faults } = await open(390, "costs", KEPT);
    await loadSmall(page);
    await upToDate(page);
    // One serves the page, one its planner.
    await page.waitForFunction(async () => {
      const all = await navigator.serviceWorker.getRegistrations();
      return all.filter(({ active }) => active?.state === "activated").length === 2;
    });
    await page.context().setOffline(true);
    await page.reload();
    await upToDate(page);
    const before = await page.locator(".beside .verdict").textContent();
    await page.getByLabel("Pitch", { exact: false }).first().fill("900");
    await page.locator("#plan-standing", { hasText: "Out of date" }).waitFor();
    await upToDate(page);
    expect(await page.locator(".beside .verdict").textContent()).not.toBe(before);

    // So does help: its contents, its search, and each subject.
    await page.context().setOffline(false);
    await page.goto(new URL("/help", page.url()).href);
    await page.getByText("open without a network", { exact: false }).waitFor();
    await page.context().setOffline(true);
    await page.reload();
    await page.getByLabel("Search help").fill("spoil");
    await expectAccessible(page);
    await page.getByRole("link", { name: "A garment is spoiled" }).first().click();
    await page.locator("#a-garment-is-spoiled:target").waitFor();
    await expectAccessible(page);
    expect(faults).toEqual([]);
  });
});
