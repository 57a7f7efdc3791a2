import { readFileSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { StockView } from "../../src/model/orders/stock.ts";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { planFair } from "../../src/planning/plan.ts";
import { example as exampleFair, type Running } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let running: Running;
let browser: Browser;
openStage((stage) => {
  ({ running, browser } = stage);
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
  sheets: { ...example("sheets"), steps: 50_000 },
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
/** Opens what a figure stands in that is shut. */
const more = (page: Page, place: string): Promise<void> =>
  page.locator(place).evaluate((entry) => {
    for (let at = entry.closest("details"); at !== null; at = at.parentElement?.closest("details") ?? null)
      at.open = true;
  });
const answer = (page: Page, part: string) => page.locator(`#${part}-answer:not([hidden])`);

async function plan(page: Page): Promise<void> {
  await page.locator("#plan-form button.main").click();
  await answer(page, "plan").waitFor();
}

describe("the planning page", () => {
  it("plans the example in the page, to the same figures as anywhere else", async () => {
    const { page, faults, close } = await open(1280);
    await more(page, "#plan-scenarios");
    await page.locator("#plan-scenarios").fill("100");
    await plan(page);
    const outcome = planFair(PlanRequest.parse({ ...example("plan"), scenarios: 100 }));
    if (outcome.kind !== "plan") throw new Error("the example cannot be planned");
    expect(await page.locator("#can-it-pay .verdict").textContent()).toBe(outcome.plan.advice);
    const pieces = outcome.plan.bring.skus.reduce((sum, one) => sum + one.bring, 0);
    expect(await page.locator("#plan-answer > .verdict").textContent()).toMatch(
      new RegExp(`^Likely .*; .* los(?:es|e) money; bring ${pieces} blanks\\.$`),
    );
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
    await more(page, "#plan-scenarios");
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

  it("takes rows in and out, follows a short name that changes, and plans a stated demand by itself", async () => {
    const { page, faults, close } = await openSmall(1024);
    // Nothing else uses its stock, and no press or pack stands between: a newsvendor by itself.
    const [tee] = small.plan.blanks;
    const plainly = { presses: [], spoilage: 0, limits: {}, blanks: [{ ...tee, casePack: 1 }] };
    await load(page, "plain.json", JSON.stringify({ ...small, plan: { ...small.plan, ...plainly } }));
    const row = (at: string) => page.locator(`details[data-row="plan #/${at}"]`);
    await page.locator("#plan-offers-add").click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("plan-offers-1-name");
    await row("offers/1").getByRole("button", { name: "Take out New offer" }).click();
    await row("offers/0").locator("summary").first().click();
    await page.locator("#plan-offers-0-name").fill("Longtail, stated");
    await page.locator("#plan-offers-0-demand").selectOption("as a mean and a deviation");
    await page.locator("#plan-offers-0-demand-mean").fill("12");
    await page.locator("#plan-offers-0-demand-deviation").fill("3");
    await page.locator("summary", { hasText: "Designs and their transfers" }).click();
    await row("designs/0").locator("summary").first().click();
    await page.locator("#plan-designs-0-id").fill("Long Tail");
    await page.locator("#plan-designs-0-id").blur();
    expect(await page.locator("#plan-designs-0-id").inputValue()).toBe("long-tail");
    await page.locator("#plan-designs-add").click();
    await row("designs/1").getByRole("button", { name: "Take out New design" }).click();
    expect(await row("designs/1").count()).toBe(0);
    await plan(page);
    const stated = page.locator("#bring table", { hasText: "whose demand you stated" });
    expect(await stated.locator("tbody th").textContent()).toBe("Longtail, stated");
    await expectAccessible(page);

    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save the whole result (CSV)" }).click(),
    ]);
    const table = readFileSync(await download.path(), "utf8");
    expect(table.split("\r\n")[0]).toBe("part,of,figure,value,unit");
    expect(table).toContain("transfer,long-tail,bring,");
    // Sheets know nothing of the new short name yet: it comes in and its size is asked for.
    await page.locator("#sheets-form button.main").click();
    await page.locator("#sheets-faults a", { hasText: "Width" }).first().waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it("takes money and lengths as people write them, a generator, and the stall's own name", async () => {
    const { page, faults, close } = await openSmall(1024);
    await page.locator(`details[data-row="sheets #/sheets/0"] > summary`).click();
    await page.locator("#sheets-sheets-0-prices-0-price").fill("19.50");
    await page.locator("#sheets-question").selectOption("the best mix for so much money");
    await page.locator("#sheets-question-money").fill("$240");
    await page.locator("summary", { hasText: "A generator" }).click();
    await page.locator("#power-generator").selectOption("our generator");
    await page.locator("#power-generator-tank").fill("4 gal");
    await page.locator("#pitch-pitch-width").fill("3.5 m");
    await page.locator("#organiser-stall").fill("Tern prints");
    expect(await page.locator("#organiser-answer h3").first().textContent()).toContain("Tern prints");
    const kept = await page.evaluate(() => JSON.parse(localStorage.getItem("planned day") ?? ""));
    expect(kept.sheets.sheets[0].prices[0].price).toBe(1950);
    expect(kept.sheets.question).toEqual({ ask: "affordable", money: 24_000 });
    expect(kept.power.generator.tank).toEqual({ value: 4, unit: "gal" });
    expect(kept.pitch.pitch.width).toEqual({ value: 3.5, unit: "m" });
    await page.locator("#sheets-form button.main").click();
    await answer(page, "sheets").waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it("lets the power follow the plan unless typed over, says so, and takes the plan's again", async () => {
    const { page, faults, close } = await open(390);
    const hours = page.locator("#power-hours");
    const from = page.locator("#power-hours-help");
    // Ten to six, and a quarter of an hour for the slowest press to get hot.
    expect(await hours.inputValue()).toBe("8.25");
    expect(await from.textContent()).toContain("From the plan.");
    expect(await page.locator("#power-pressTemperature").inputValue()).toBe("320 F");
    await page.locator("#plan-closes").fill("20:00");
    expect(await hours.inputValue()).toBe("10.25");
    await hours.fill("12");
    await hours.blur();
    await page.locator("#plan-closes").fill("19:00");
    expect(await hours.inputValue()).toBe("12");
    await from.getByRole("button", { name: "Take the plan’s: 9.25" }).click();
    expect(await hours.inputValue()).toBe("9.25");
    await more(page, "#plan-presses-0-count");
    await page.locator("#plan-presses-0-count").fill("2");
    await page.locator("#power-form button.main").click();
    await answer(page, "power").waitFor();
    const told = await page.locator("#power-answer").textContent();
    expect(told).toContain("live for 9.25 hours");
    expect(told).toContain("flat press 2 from the plan");
    await expectAccessible(page);
    expect(faults).toEqual([]);
    await close();
  });

  it("takes up the lessons of an earlier fair, once each", async () => {
    const { page, faults, close } = await openSmall(390);
    const lessons = {
      id: "low-meadow-1",
      fair: "Low Meadow",
      day: "2027-04-10",
      buying: { orders: 90, passersBy: 3000 },
    };
    await load(page, "lessons.json", JSON.stringify(lessons));
    await load(page, "again.json", JSON.stringify([lessons, { ...lessons, id: "low-meadow-2" }]));
    const kept = await page.evaluate(() => JSON.parse(localStorage.getItem("planned day") ?? ""));
    expect(kept.plan.lessons.map(({ id }: { id: string }) => id)).toEqual(["low-meadow-1", "low-meadow-2"]);
    await plan(page);
    expect(faults).toEqual([]);
    await close();
  });

  it("fills the menu and the opening stock of a stall whose key is kept here", async () => {
    const { fair, stalls, key } = await exampleFair(running);
    const at = `/v1/fairs/${fair}/stalls/knot`;
    const made = await running.anyone.withKey(key).put<{ key: string }>(at, { name: "Knot" });
    expect(stalls.length).toBeGreaterThan(0);
    const { page, faults, close } = await openSmall(390);
    await plan(page);
    expect(await page.locator("#bring").textContent()).toContain("the link that the organiser gave you");
    await page.evaluate(
      ([place, kept]) => localStorage.setItem(`key crew ${place}`, kept ?? ""),
      [`${fair}/knot`, made.body.key],
    );
    await plan(page);
    await page.getByRole("button", { name: "Set its menu and opening stock" }).click();
    await page.locator("#bring .verdict", { hasText: "Done: knot opens with" }).waitFor();
    await expectAccessible(page);
    const brought = await page.locator("#bring table .stock strong").first().textContent();
    const stock = await running.anyone.withKey(made.body.key).get<StockView>(`${at}/stock`);
    expect(stock.body.skus.map(({ onHand }) => String(onHand))).toEqual([brought]);
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
