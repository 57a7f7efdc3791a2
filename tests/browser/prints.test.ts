/** The stall's papers, as printed pages. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { LoadedFair } from "../../src/local/example.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { at, example } from "../http/running.ts";
import { openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;

const stage = openStage(async () => {
  fair = await example(stage.running);
});

const sheets = async (page: Page): Promise<number | undefined> =>
  (await page.pdf({ format: "Letter" })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length;

it("prints a tag for each order, eight a sheet, from a number on, and empty ones for paper orders", async () => {
  const [stall] = fair.stalls;
  const crew = stage.running.anyone.withKey(stall?.key ?? "");
  const placed: PlacedOrder[] = [];
  for (let n = 0; n < 9; n += 1) {
    const lines = [{ offer: "longtail-tee", colour: "navy", size: n % 2 === 0 ? "M" : "L", quantity: 1 }];
    placed.push((await crew.post<PlacedOrder>(`${at(fair)}/orders`, { lines })).body);
  }
  const { page, faults } = await openPage(
    stage.browser,
    `${stage.running.url}/crew/${fair.fair}/tern/prints#key=${stall?.key}`,
  );
  await page.evaluate(() => {
    window.print = () => undefined;
  });
  const tag = page.locator(".tags .hand-tag");
  await page.getByRole("button", { name: "Hand tags" }).click();
  await expect.poll(() => tag.count()).toBe(9);
  const [first] = placed;
  expect(await tag.first().textContent()).toContain(
    `${first?.number}${first?.word}1 × Longtail tee, Navy, M`,
  );
  expect(await sheets(page)).toBe(2);
  await page.getByLabel("From number").fill(String(placed[1]?.number));
  await expect.poll(() => tag.count()).toBe(8);
  expect(await sheets(page)).toBe(1);

  await page.getByRole("button", { name: "Tag strip" }).click();
  const strip = page.locator(".strip .hand-tag");
  expect(await strip.count()).toBe(8);
  // No wider than a receipt of 80 mm prints: 72 mm at 96 pixels an inch.
  await page.emulateMedia({ media: "print" });
  expect((await strip.first().boundingBox())?.width).toBeLessThanOrEqual((72 / 25.4) * 96 + 1);
  await page.emulateMedia({ media: null });

  await page.getByRole("button", { name: "Blank tags" }).click();
  expect(await page.locator(".blank .hand-tag").count()).toBe(8);
  expect(await page.locator(".blank").textContent()).not.toContain(String(first?.number));
  expect(await sheets(page)).toBe(1);

  // Printed tags are not printed again the next time.
  await page.getByRole("button", { name: "Hand tags" }).click();
  await page.getByRole("button", { name: "Print", exact: true }).click();
  await page.reload();
  await page.getByRole("button", { name: "Hand tags" }).click();
  expect(await page.getByLabel("From number").inputValue()).toBe(String((placed.at(-1)?.number ?? 0) + 1));
  expect(await tag.count()).toBe(0);
  expect(faults).toEqual([]);
});
