import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { StockView } from "../../src/model/orders/stock.ts";
import { expectAccessible, openPage, tap } from "./browser.ts";
import { CAP, type CrewStall, crewStall, NAVY_L, OTTER_M } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const tag = (page: Page) => page.getByRole("region", { name: "On this press" });

/** The press screen at press A. */
async function atPressA(stall: CrewStall, width = 390) {
  const opened = await openPage(stage.browser, stall.link(""), { viewport: { width, height: 844 } });
  await tap(opened.page, "Press A, flat platen");
  await opened.page.locator("#floor").waitFor();
  return opened;
}

describe("the press screen", () => {
  it("takes a garment from the line to ready, with its settings in both scales", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L], [OTTER_M]]);
    const [first, second] = stall.numbers;
    const { page, faults } = await openPage(stage.browser, stall.link(""));
    await page.getByRole("button", { name: "Press A, flat platen" }).waitFor();
    await expectAccessible(page);
    await tap(page, "Press A, flat platen");
    expect(page.url()).not.toContain("key");
    await expectAccessible(page);
    await tap(page, "Pull next garment");
    await tag(page).getByText(String(first), { exact: true }).waitFor();
    const said = await tag(page).textContent();
    // 365 °F is 185 °C by the definition of the scales, (F - 32) x 5/9; 310 °F is 154.4 °C.
    for (const words of ["Navy", "Tee", "L", "Longtail", "365 °F (185 °C)", "5 s", "firm", "hot", "once"])
      expect(said).toContain(words);
    expect(said).toContain("If the supplier’s sheet differs, follow the sheet.");
    expect(said).toContain("burns on touch");
    await tap(page, "Pressed");
    await page.getByText(`Order ${first} is ready.`).waitFor();
    expect((await stall.queue()).ready).toEqual([first]);

    // The tablet remembers its press; the next garment needs another heat.
    await page.reload();
    await page.getByRole("heading", { name: "Press A, flat" }).waitFor();
    await tap(page, "Pull next garment");
    await tag(page).getByText("310 °F (154 °C)", { exact: true }).waitFor();
    // Off until it is turned on: then it rings for the next order.
    await page.evaluate(() => {
      const make = AudioContext.prototype.createOscillator;
      AudioContext.prototype.createOscillator = function counted() {
        const { dataset } = document.documentElement;
        dataset["notes"] = String(Number(dataset["notes"] ?? 0) + 1);
        return make.call(this);
      };
    });
    const notes = (): Promise<number> =>
      page.evaluate(() => Number(document.documentElement.dataset["notes"] ?? 0));
    await page.getByText("Menu", { exact: true }).click();
    await tap(page, "Chime for new orders");
    const trial = await notes();
    expect(trial).toBeGreaterThan(0);
    await page.keyboard.press("Escape");
    await stall.crew.post(`${stall.base}/orders`, { lines: [CAP] });
    await expect.poll(notes).toBe(2 * trial);
    // Down 55 °F at 15 °F a minute is 3 min 40 s.
    expect(await tag(page).textContent()).toContain("365 → 310 °F (154 °C), about 4 min");
    expect(await tag(page).textContent()).toContain("12 s + 6 s");
    expect((await stall.queue()).presses[0]?.job?.number).toBe(second);
    expect(faults).toEqual([]);
  });

  it("undoes a wrong tap, gives a garment back, and notes a spoiled one", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const job = `${stall.numbers[0]}-1`;
    const { page, faults } = await atPressA(stall);
    await tap(page, "Pull next garment");
    await tap(page, "Pressed");
    await tap(page, "Undo");
    // It still lies on the platen, so it is on this press again.
    await tag(page).getByText("Longtail").waitFor();
    await expect.poll(async () => (await stall.queue()).presses[0]?.job?.job).toBe(job);

    await tap(page, "Return to line");
    await page.getByText(`${job} given back.`).waitFor();
    expect((await stall.queue()).counts).toMatchObject({ waiting: 1, pressing: 0 });

    await tap(page, "Pull next garment");
    await tap(page, "Spoiled…");
    await expectAccessible(page);
    await tap(page, "Mark as spoiled");
    await page.getByText("Choose why.").waitFor();
    await page.getByLabel("Only the transfer").check();
    await page.getByLabel("Crooked").check();
    const before = (await stall.crew.get<StockView>(`${stall.base}/stock`)).body;
    await tap(page, "Mark as spoiled");
    await page.getByText(`${job} spoiled. A spare is kept for it`).waitFor();
    const after = (await stall.crew.get<StockView>(`${stall.base}/stock`)).body;
    const onHand = (view: StockView) => [
      view.transfers.find(({ design }) => design === "longtail")?.onHand,
      view.skus.find(({ sku }) => sku === "tee.navy.L")?.onHand,
    ];
    const [transfers = 0, blanks] = onHand(before);
    expect(onHand(after)).toEqual([transfers - 1, blanks]);
    await tap(page, "Undo");
    // It was not spoiled: nothing is lost, and it lies on this press as before.
    await tag(page).getByText("Longtail").waitFor();
    await expect.poll(async () => (await stall.queue()).presses[0]?.job?.job).toBe(job);
    expect(onHand((await stall.crew.get<StockView>(`${stall.base}/stock`)).body)).toEqual([
      transfers,
      blanks,
    ]);
    // In the wrong size it is good: it hangs on the rack, and the right one is next.
    await tap(page, "Spoiled…");
    await page.getByLabel("Nothing: it is the wrong size").check();
    await tap(page, "Hang it on the rack");
    await page.getByText("Choose its size.").waitFor();
    await page.getByLabel("XL", { exact: true }).check();
    await expectAccessible(page);
    await tap(page, "Hang it on the rack");
    await page.getByText(`${job} hangs on the rack. A spare is kept for it`).waitFor();
    const { rack } = (await stall.crew.get<StockView>(`${stall.base}/stock`)).body;
    expect(rack).toMatchObject([{ size: "XL", why: "wrong-size", second: false }]);
    expect(faults).toEqual([]);
  });

  it("counts the dwell down from a tap, shakes at its end, and starts again for the second press", async () => {
    const stall = await crewStall(stage.running, [[OTTER_M]]);
    const { page, faults } = await atPressA(stall);
    await tap(page, "Pull next garment");
    await page.getByRole("button", { name: "Count 12 s, 1 of 2" }).waitFor();
    await page.evaluate(() => {
      navigator.vibrate = () => {
        document.body.dataset["shaken"] = "yes";
        return true;
      };
    });
    await page.clock.install();
    await page.locator('#bench-0 [data-part="dwell"]').click();
    await page.clock.runFor(4000);
    expect(await page.locator('#bench-0 [data-part="dwell"]').textContent()).toBe("8 stap to stop");
    expect(await page.locator("body").getAttribute("data-shaken")).toBeNull();
    await page.clock.runFor(8100);
    expect(await page.locator('#bench-0 [data-part="dwell"]').textContent()).toBe(
      "Open nowtap to count 6 s, 2 of 2",
    );
    expect(await page.locator("body").getAttribute("data-shaken")).toBe("yes");
    await page.locator('#bench-0 [data-part="dwell"]').click();
    await page.clock.runFor(6100);
    expect(await page.locator('#bench-0 [data-part="dwell"]').textContent()).toBe(
      "Open nowtap to count again",
    );
    expect(faults).toEqual([]);
  });

  it("keeps a tap that could not be sent, through a reload, and sends it once", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page } = await atPressA(stall);
    await tap(page, "Pull next garment");
    await tag(page).getByText("Longtail").waitFor();
    // The request arrives, its answer does not: the same key must make it one tap.
    let lost = true;
    await page.route("**/pressed", async (route) => {
      if (!lost) return route.continue();
      await route.fetch();
      return route.abort();
    });
    await tap(page, "Pressed");
    await page.getByText(`Not sent yet: ${stall.numbers[0]}-1 pressed.`).waitFor();
    await page.reload();
    await page.getByText("Not sent yet: 1", { exact: true }).waitFor();
    lost = false;
    await page.getByText(`Order ${stall.numbers[0]} is ready.`).waitFor();
    expect((await stall.queue()).counts).toMatchObject({ pressing: 0, ready: 1 });
  });

  it("shows what is coming, short and low, pauses, and takes a count", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L], [CAP], [{ ...OTTER_M, quantity: 2 }]]);
    const { page, faults } = await atPressA(stall, 1024);
    await page.getByText("4 waiting · 0 pressing · 0 ready").waitFor();
    // Only garments that fit this platen, at most three, with the temperature before and after if it changes.
    const rows = page.locator("#up-next li");
    expect(await rows.count()).toBe(3);
    expect(await rows.first().textContent()).toContain("101-1 Navy Tee L");
    expect(await rows.nth(1).textContent()).toContain("365 → 310 °F");
    expect(await rows.nth(2).textContent()).not.toContain("→");
    await page.getByText("Tee, Sand, 3XL", { exact: true }).waitFor();
    await expectAccessible(page);

    await tap(page, "Pause…");
    await expectAccessible(page);
    await tap(page, "Rain");
    await page.getByText("Paused: rain.").waitFor();
    await expect.poll(async () => (await stall.queue()).paused).toBe("rain");
    await tap(page, "Take orders again");
    await page.getByText("Paused: rain.").waitFor({ state: "hidden" });

    await tap(page, "Count or add stock…");
    await page.locator("#stock-what").selectOption("Tee");
    await expectAccessible(page);
    await page.getByLabel("Counted: Tee, Sand, 3XL").fill("9");
    await page.getByLabel("Counted: Tee, Sand, 3XL").press("Enter");
    await page.getByText("Noted: Tee, Sand, 3XL.").waitFor();
    await tap(page, "Done");
    await page.getByText("Tee, Sand, 3XL", { exact: true }).waitFor({ state: "hidden" });
    const { body } = await stall.crew.get<StockView>(`${stall.base}/stock`);
    expect(body.skus.find(({ sku }) => sku === "tee.sand.3XL")?.onHand).toBe(9);
    expect(faults).toEqual([]);
  });

  it("fits a screen 320 px wide, and says how to get a key if there is none", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page } = await atPressA(stall, 320);
    await tap(page, "Pull next garment");
    await tag(page).getByText("Longtail").waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    await page.evaluate(() => localStorage.clear());
    await page.reload();
    await page.getByText("Open the crew link that you were given").waitFor();
    await expectAccessible(page);
  });
});
