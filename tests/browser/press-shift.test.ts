import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { CAP, type CrewStall, crewStall, NAVY_L, OTTER_M } from "./crew-page.ts";
import { openStage } from "./stage.ts";

let stall: CrewStall;
let page: Page;
let faults: readonly string[];

/** The tablet comes from far away; the fair's clock is America/New_York. */
const FAR_ZONE = "Asia/Tokyo";

const tap = (name: string | RegExp): Promise<void> =>
  page.getByRole("button", { name, ...(typeof name === "string" ? { exact: true } : {}) }).click();
const openTab = (name: string): Promise<void> => page.getByRole("tab", { name }).click();
const tag = () => page.getByRole("region", { name: "On this press" });

const stage = openStage(
  async () => {
    stall = await crewStall(stage.running, [[NAVY_L], [OTTER_M], [NAVY_L], [CAP]]);
    ({ page, faults } = await openPage(stage.browser, stall.link(""), {
      viewport: { width: 1024, height: 768 },
      timezoneId: FAR_ZONE,
    }));
    await tap("Press A, flat platen");
  },
  { same: true },
);

describe("the press screen over a shift", () => {
  it("says how many hands there are, and takes a wrong number back", async () => {
    await openTab("Shift");
    await page.getByText("People pressing: 3 (one for each press).").waitFor();
    await tap("One fewer");
    await page.getByText("People pressing: 2 for 3 presses.").waitFor();
    await expect.poll(async () => (await stall.queue()).hands).toBe(2);
    await tap("Undo");
    await page.getByText("People pressing: 3 (one for each press).").waitFor();
    await expect.poll(async () => (await stall.queue()).hands).toBeNull();
  });

  it("tells times by the fair's clock on a tablet from elsewhere", async () => {
    await openTab("Shift");
    const { closes } = (await stall.queue()).intake;
    const clock = new Intl.DateTimeFormat("en-US", {
      hour: "numeric",
      minute: "2-digit",
      timeZone: "America/New_York",
    });
    const closing = clock.format(Date.parse(closes ?? "")).replace(/^12:00\sAM$/, "midnight");
    await page.getByRole("button", { name: `Keep taking orders until ${closing}` }).waitFor();
  });

  it("says when orders stop automatically, and keeps them open until closing time", async () => {
    const intake = page.locator("#intake-say");
    await intake.getByText(/^Orders are taken until about .* if the line stays as it is\.$/).waitFor();
    await page.getByText(/^Everything in line is done by about /).waitFor();
    await tap(/^Keep taking orders until /);
    await intake.getByText(/^Orders are taken until closing time, .*, however long the line\.$/).waitFor();
    await expect.poll(async () => (await stall.queue()).intake.keptOpen).toBe(true);
    await tap("Stop orders automatically");
    await expect.poll(async () => (await stall.queue()).intake.keptOpen).toBe(false);
  });

  it("takes a press out of order with what lies on it, and back", async () => {
    await tap("Pull next garment");
    await tag().getByText("Longtail").waitFor();
    await openTab("Presses");
    await tap("Press A is out of order");
    await tag().getByText("Out of order").waitFor();
    expect(await page.getByRole("button", { name: "Pull next garment" }).count()).toBe(0);
    await expectAccessible(page);
    await expect.poll(async () => (await stall.queue()).counts).toMatchObject({ pressing: 0, waiting: 4 });
    await tap("It works again");
    await tap("Pull next garment");
    await tag().getByText("Longtail").waitFor();
    await expect
      .poll(async () => (await stall.queue()).presses[0])
      .toMatchObject({ downSince: null, job: { job: "101-1" } });
  });

  it("says what to set and for how long, and meanwhile serves another press", async () => {
    await tap("Pressed");
    await page.getByText("Order 101 is ready.").waitFor();
    // The look-ahead keeps the heat: the other 365 °F garment goes before the 310 °F one.
    await tap("Pull next garment");
    await tag().getByText("103", { exact: true }).waitFor();
    await tap("Pressed");
    await tap("Pull next garment");
    // 365 to 310 °F at 15 °F a minute is 3 min 40 s.
    await tag().getByText("365 → 310 °F (154 °C), about 4 min").waitFor();
    await expectAccessible(page);
    const own = await stall.queue();
    const cap = own.presses.find(({ platen }) => platen === "cap")?.press;
    await tap(`Use press ${cap}`);
    await tap("Pull next garment");
    await tag().getByText("Cap").waitFor();
    await expect.poll(async () => (await stall.queue()).counts.pressing).toBe(2);
    await tap("Go to press A");
    await tag().getByText("365 → 310 °F (154 °C), about 4 min").waitFor();
    expect(faults).toEqual([]);
  });

  it("notes a recount as it is typed, and lists what falls short by it", async () => {
    const { body } = await stall.crew.post<PlacedOrder>(`${stall.base}/orders`, { lines: [NAVY_L] });
    const late = body.number;
    await openTab("Stock");
    await tap("Count or add stock…");
    await page.locator("#stock-what").selectOption("Tee");
    const count = page.getByLabel("Counted: Tee, Navy, L");
    await count.fill("0");
    await count.press("Enter");
    await page.locator("#stock-short").getByText(`${late}-1 Navy Tee L`).waitFor();
    await expectAccessible(page);
    expect((await stall.queue()).short.map(({ job }) => job)).toEqual([`${late}-1`]);
    await page.getByLabel("New delivery").check();
    const brought = page.getByLabel("Brought: Tee, Navy, L");
    await brought.fill("3");
    await brought.press("Tab");
    await expect.poll(async () => (await stall.queue()).short).toEqual([]);
    await tap("Done");
    // Undoing restores the state before: there is none again.
    await tap("Undo");
    await expect.poll(async () => (await stall.queue()).short.map(({ job }) => job)).toEqual([`${late}-1`]);
    await stall.crew.post(`${stall.base}/stock`, { entries: [{ sku: "tee.navy.L", delivered: 3 }] });
  });

  it("stops selling an option behind its row, and sells it again", async () => {
    const low = page.locator("#low li", { hasText: "Tee, Navy, L" });
    await low.locator("summary").click();
    await expectAccessible(page);
    await low.getByRole("button").click();
    await page.locator("#off").getByText("Tee, Navy, L").waitFor();
    await expect.poll(async () => (await stall.queue()).offMenu).toEqual(["tee.navy.L"]);
    await tap("Sell again: Tee, Navy, L");
    await page.locator("#off").getByText("Tee, Navy, L").waitFor({ state: "detached" });
    await expect.poll(async () => (await stall.queue()).offMenu).toEqual([]);
  });

  it("offers to undo the last tap for ten seconds", async () => {
    await tap("Pressed");
    const undo = page.getByRole("button", { name: "Undo" });
    await undo.waitFor();
    await page.clock.install();
    await tap("Pause…");
    await tap("Rain");
    await page.locator("#bench-0 .last").getByText("Paused.").waitFor();
    await page.clock.runFor(10_000);
    expect(await undo.count()).toBe(0);
    await expect.poll(async () => (await stall.queue()).paused).toBe("rain");
    expect(faults).toEqual([]);
  });

  it("fits a screen 320 px wide", async () => {
    await page.setViewportSize({ width: 320, height: 700 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
  });
});
