import { readFile } from "node:fs/promises";
import type { Page, Route } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import type { JobView } from "../../src/model/orders/queue.ts";
import { at, example } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;

const stage = openStage(async () => {
  fair = await example(stage.running);
});

const row = (page: Page, name: string) => page.locator("#stalls tbody tr", { hasText: name });
const total = (page: Page, term: string) => page.locator("#total div", { hasText: term }).locator("dd");
const firstRow = (page: Page) => page.locator("#stalls tbody th").first().textContent();

describe("the organiser's page", () => {
  it("shows each stall's pace as it happens, in words, figures, and a chart with its table", async () => {
    const { page, faults } = await openPage(
      stage.browser,
      `${stage.running.url}/fair/${fair.fair}#key=${fair.key}`,
      {
        viewport: { width: 1440, height: 900 },
      },
    );
    await page.locator("#stalls tbody tr").first().waitFor();
    expect(page.url()).not.toContain("key");
    expect(await page.locator("h1").textContent()).toBe("Brackenfield Summer Fair");
    expect(await page.locator("#stalls tbody tr").count()).toBe(2);

    const crew = stage.running.anyone.withKey(fair.stalls[0]?.key ?? "");
    const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 3 }];
    await stage.running.anyone.post(`${at(fair)}/orders`, { lines });
    const { body } = await crew.post<{ job: JobView }>(`${at(fair)}/presses/A/pull`);
    await crew.post(`${at(fair)}/jobs/${body.job.job}/pressed`);
    await expect.poll(() => total(page, "garments pressed").textContent()).toBe("1");
    expect(await total(page, "still to press").textContent()).toBe("2");
    expect(await row(page, "Tern & Tide").locator("td").nth(1).textContent()).toBe("2");
    expect(await row(page, "Tern & Tide").locator(".sign").allTextContents()).toEqual(["keeping up"]);

    // The chart and its table are side by side, in the fair's own time.
    expect(await page.locator("#chart canvas").count()).toBe(1);
    expect(await page.locator("#clock").textContent()).toContain("America/New_York");
    // A quarter of an hour may end at any moment, so compare the sums, latest first.
    const quarters = await Promise.all(
      (await page.locator("#buckets tbody tr").all()).map((one) => one.locator("td").allTextContents()),
    );
    const [placed, pressed, collected, dropped, unmet] = [0, 1, 2, 3, 4].map((column) =>
      quarters.reduce((sum, cells) => sum + Number(cells[column]), 0),
    );
    expect([placed, pressed, collected, dropped, unmet]).toEqual([1, 1, 0, 0, 0]);
    expect(quarters[0]?.[5]).toBe("2");

    const heading = page.locator("#stalls thead button", { hasText: "Still to press" });
    await heading.focus();
    await page.keyboard.press("Enter");
    expect(await firstRow(page)).toBe("Tern & Tide");
    await page.keyboard.press("Enter");
    expect(await firstRow(page)).toBe("Gannet Goods");
    expect(await page.locator("#stalls [aria-sort]").getAttribute("aria-sort")).toBe("ascending");

    // A stall's name shows its own pace, and a poll does not take the focus away.
    await row(page, "Gannet Goods").locator("th button").focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator("#pace-heading").textContent()).toContain("Gannet Goods");
    await expect.poll(() => page.locator("#no-quarters").isVisible()).toBe(true);
    await crew.post(`${at(fair)}/pause`, { reason: "rain" });
    await expect.poll(() => row(page, "Tern & Tide").locator(".sign").allTextContents()).toEqual(["paused"]);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Gannet Goods");
    await page.locator("#all-stalls").click();
    await expect.poll(() => page.locator("#pace-heading").textContent()).toContain("all stalls");
    expect(await page.locator("#buckets tbody tr").count()).toBeGreaterThan(0);

    await page.setViewportSize({ width: 320, height: 640 });
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    await expectAccessible(page);
    expect(faults).toEqual([]);
  });

  it("gives the figures of any day as files to keep, and on paper without what is only of now", async () => {
    const { page, faults } = await openPage(
      stage.browser,
      `${stage.running.url}/fair/${fair.fair}#key=${fair.key}`,
      { viewport: { width: 1024, height: 768 }, acceptDownloads: true },
    );
    await page.locator("#stalls tbody tr").first().waitFor();
    const saved = async (button: string): Promise<readonly string[]> => {
      const [download] = await Promise.all([page.waitForEvent("download"), page.locator(button).click()]);
      expect(download.suggestedFilename()).toMatch(/^brackenfield-[\w-]+\.csv$/);
      return (await readFile(await download.path(), "utf8")).trim().split("\r\n");
    };
    expect(await saved("#sheet-stall")).toHaveLength(1 + 2 + 1);
    const [head, ...quarters] = await saved("#sheet-quarter");
    expect(head).toContain("Garments pressed");
    expect(quarters.every((line) => line.startsWith("tern,Tern & Tide,"))).toBe(true);

    // The whole fair's figures, saved now, stand beside this fair a year later.
    await page.locator("#beside > summary").click();
    const [figures] = await Promise.all([page.waitForEvent("download"), page.locator("#years-save").click()]);
    await page.locator("#years-file").setInputFiles(await figures.path());
    await expect.poll(() => page.locator("#years tbody tr").first().textContent()).toMatch(/^Orders\d/);
    await row(page, "Gannet Goods").locator("th button").click();
    await page.locator("#contact > details > summary").click();
    await page.locator("#contact-name").fill("Wren");
    await page.locator("#contact-phone").fill("+1 212 555 0100");
    await page.getByRole("button", { name: "Keep this contact" }).click();
    await page.locator('#contact a[href="tel:+12125550100"]').waitFor();
    await page.getByRole("button", { name: "Close it" }).click();

    await page.locator("#when").selectOption("all");
    await expect.poll(() => page.locator("#of-when").textContent()).toBe("The whole fair");
    expect(await total(page, "garments pressed").textContent()).toBe("1");
    await page.emulateMedia({ media: "print" });
    for (const part of ["#print", "#organiser-word", "#contact", "#beside"])
      expect([part, await page.locator(part).isVisible()]).toEqual([part, false]);
    expect(await page.locator("#stalls th", { hasText: "Crew last seen" }).isVisible()).toBe(false);
    expect(await page.locator("#stalls th", { hasText: "Promises kept" }).isVisible()).toBe(true);
    expect(faults).toEqual([]);
  });

  it("says who needs a look among three hundred stalls", async () => {
    const organiser = stage.running.anyone.withKey(fair.key);
    const { body } = await organiser.get<Throughput>(`/v1/fairs/${fair.fair}/throughput`);
    const [model] = body.stalls;
    if (model === undefined) throw new Error("the example fair has no stall");
    const now = Date.parse(body.asOf);
    const crewAt = (minutes: number) => new Date(now - minutes * 60_000).toISOString();
    const many = Array.from({ length: 300 }, (_, index) => ({
      ...model,
      stall: `stall-${index}`,
      name: `Stall ${index}`,
      soldOut: 0,
      paused: false,
      crewAt: crewAt(index === 42 ? 25 : 0),
      backlog: index === 17 ? 90 : 4,
      backlogEnds: null,
      perHour: 30,
    }));
    const { page, faults } = await openPage(stage.browser, "about:blank");
    await page.route("**/throughput?*", (route) => route.fulfill({ json: { ...body, stalls: many } }));
    await page.goto(`${stage.running.url}/fair/${fair.fair}#key=${fair.key}`);
    await expect.poll(() => page.locator("#stalls tbody tr").count()).toBe(300);
    const glance = page.locator("#glance");
    expect(await glance.locator(".gone-quiet").textContent()).toBe("gone quiet: 1Stall 42");
    expect(await glance.locator(".swamped").textContent()).toBe("swamped: 1Stall 17");
    expect(await page.locator("#stalls tbody th").allTextContents()).toEqual(
      expect.arrayContaining(["Stall 42", "Stall 17"]),
    );
    expect((await page.locator("#stalls tbody th").allTextContents()).slice(0, 2)).toEqual([
      "Stall 42",
      "Stall 17",
    ]);
    expect(faults).toEqual([]);
  });

  it("shows it in a browser whose language has a name that is none, as on a board set up without one", async () => {
    const context = await stage.browser.newContext({ locale: "en-US" });
    await context.addInitScript(() => {
      Object.defineProperty(navigator, "language", { configurable: true, get: () => "en-US@posix" });
    });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on("pageerror", (error) => errors.push(String(error)));
    await page.goto(`${stage.running.url}/fair/${fair.fair}#key=${fair.key}`);
    await page.locator("#stalls tbody tr").first().waitFor();
    expect(await page.locator("#chart canvas").count()).toBe(1);
    await page.goto(`${stage.running.url}/plan`);
    await page.locator(".planner .onward .main").waitFor();
    expect(errors).toEqual([]);
    await context.close();
  });

  it.each([
    ["cannot be fetched", (route: Route) => route.abort()],
    ["breaks off", (route: Route) => route.fulfill({ contentType: "text/javascript", body: "null.length" })],
  ])("says so if its script %s, and never if all is well", async (_, instead) => {
    const context = await stage.browser.newContext({ locale: "en-US" });
    const page = await context.newPage();
    const address = `${stage.running.url}/fair/${fair.fair}#key=${fair.key}`;
    await page.route("**/assets/organiser.js", instead);
    await page.goto(address);
    await page.locator("[role=alert]", { hasText: "could not start" }).waitFor();
    await expectAccessible(page);
    await page.unroute("**/assets/organiser.js");
    await page.reload();
    await page.goto(address);
    await page.locator("#stalls tbody tr").first().waitFor();
    expect(await page.locator("#not-started").count()).toBe(0);
    await context.close();
  });

  it("shows nothing without the key, and says how to get one", async () => {
    const { page } = await openPage(stage.browser, `${stage.running.url}/fair/${fair.fair}`);
    await page.locator("#trouble:not([hidden])").waitFor();
    expect(await page.locator("#trouble").textContent()).toContain("Open the link");
    expect(await page.locator("#account").isVisible()).toBe(false);
    await expectAccessible(page);
    await page.goto(`${stage.running.url}/fair/${fair.fair}#key=organiser.1.${"A".repeat(43)}`);
    await page.reload();
    await expect.poll(() => page.locator("#trouble").textContent()).toContain("does not open the fair");
  });
});
