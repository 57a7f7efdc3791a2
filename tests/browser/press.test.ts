import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { PlacedOrder, QueueView } from "../../src/model/order.ts";
import { at, example, type Running, start } from "../http/running.ts";
import { expectAccessible, openBrowser, openPage } from "./browser.ts";

let running: Running;
let browser: Browser;
let fair: LoadedFair;
let crew: Client;
let base: string;

const NAVY_L = { offer: "longtail-tee", colour: "navy", size: "L" };
const OTTER_M = { offer: "otter-tee", colour: "sand", size: "M" };

beforeAll(async () => {
  running = await start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
  await running.stop();
});

/** A fair of its own with some orders, and the link of its press screen. */
async function floor(name: string, ...orders: readonly (readonly object[])[]) {
  fair = await example(running, name);
  base = at(fair);
  const key = fair.stalls[0]?.key ?? "";
  crew = running.anyone.withKey(key);
  const numbers: number[] = [];
  for (const lines of orders)
    numbers.push((await crew.post<PlacedOrder>(`${base}/orders`, { lines })).body.number);
  const page = `${running.url}/crew/${fair.fair}/${fair.stalls[0]?.stall}`;
  return { numbers, link: `${page}#key=${key}` };
}

const queue = async (): Promise<QueueView> => (await crew.get<QueueView>(`${base}/queue`)).body;

describe("the press screen", () => {
  it("takes a garment from the line to ready, with its settings in both scales", async () => {
    const { link, numbers } = await floor(
      "bench",
      [{ ...NAVY_L, quantity: 1 }],
      [{ ...OTTER_M, quantity: 1 }],
    );
    const [first, second] = numbers;
    const { page, faults, close } = await openPage(browser, link);
    await page.getByRole("button", { name: "Press A, flat platen" }).click();
    expect(page.url()).not.toContain("key");
    await page.getByRole("button", { name: "Pull the next" }).click();
    const tag = page.getByRole("region", { name: "On this press" });
    await tag.getByText(String(first), { exact: true }).waitFor();
    const said = await tag.textContent();
    // 365 °F is 185 °C: trade.md's own pair; the scales by definition, (F - 32) x 5/9.
    for (const words of ["Navy", "Tee", "L", "Longtail", "365 °F (185 °C)", "5 s", "firm", "hot", "once"])
      expect(said).toContain(words);
    expect(said).toContain("The supplier’s sheet wins.");
    expect(said).toContain("burns on touch");
    await expectAccessible(page);
    await page.getByRole("button", { name: "Pressed", exact: true }).click();
    await page.getByText(`Order ${first} is ready.`).waitFor();
    expect((await queue()).ready).toEqual([first]);

    // The tablet remembers its press; the next garment needs another heat.
    await page.reload();
    await page.getByRole("heading", { name: "Press A, flat platen" }).waitFor();
    await page.getByRole("button", { name: "Pull the next" }).click();
    await tag.getByText("310 °F (154 °C)").waitFor();
    expect(await tag.textContent()).toContain("the last garment here had 365 °F (185 °C)");
    expect(await tag.textContent()).toContain("12 s, then 6 s");
    expect((await queue()).presses[0]?.job?.number).toBe(second);
    expect(faults).toEqual([]);
    await close();
  });
});
