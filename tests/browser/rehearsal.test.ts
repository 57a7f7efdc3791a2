/** A rehearsal in a real browser: a phone beside the press, nothing of it counted, wiped with one tap. */
import { describe, expect, it } from "vitest";
import type { StockView } from "../../src/model/orders/stock.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { crewStall } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

describe("a rehearsal", () => {
  it("orders on a phone beside the press, is seen by nobody else, and leaves nothing behind", async () => {
    const stall = await crewStall(stage.running);
    const before = (await stall.crew.get<StockView>(`${stall.base}/stock`)).body;
    const { page, faults } = await openPage(stage.browser, stall.link("").replace("#", "/setup#"), {
      viewport: { width: 1280, height: 900 },
    });
    await page.getByRole("button", { name: "Try it", exact: true }).click();
    await page.waitForURL("**/crew/*/tern.rehearsal");
    await page.getByText("Rehearsal: nothing here is real").waitFor();
    await page.getByLabel("Text as a customer").fill("1 navy L");
    await page.keyboard.press("Enter");
    await page.getByRole("log", { name: "Texts" }).getByText("YES").first().waitFor();
    await page.getByLabel("Text as a customer").fill("yes");
    await page.keyboard.press("Enter");
    await page.getByRole("log", { name: "Texts" }).getByText("101").first().waitFor();
    await page.getByRole("button", { name: "Press A, flat platen" }).click();
    await page.getByRole("button", { name: "Pull next garment", exact: true }).click();
    await page.getByRole("region", { name: "On this press" }).getByText("101", { exact: true }).waitFor();
    await expectAccessible(page);

    expect((await stall.queue()).counts).toMatchObject({ waiting: 0, pressing: 0 });
    expect((await stall.crew.get<StockView>(`${stall.base}/stock`)).body).toEqual(before);
    const key = await page.evaluate(() =>
      localStorage.getItem(`key crew ${location.pathname.split("/")[2]}/tern.rehearsal`),
    );
    const twin = stage.running.anyone.withKey(key);
    const twinBase = `${stall.base}.rehearsal`;
    expect((await twin.get(`${twinBase}/queue`)).status).toBe(200);
    expect((await twin.get(`${stall.base}/queue`)).status).toBe(403);
    expect((await stall.crew.post(`${stall.base}/wipe`)).status).toBe(409);
    // A new rehearsal counts its versions from the start: a second tablet must not be answered "not modified".
    const tag = (await twin.get(`${twinBase}/queue`)).headers.get("etag") ?? "";
    expect((await twin.get(`${twinBase}/queue`, { "if-none-match": tag })).status).toBe(200);
    expect((await twin.get(`${twinBase}/board`, { "if-none-match": tag })).status).toBe(200);

    await page.getByRole("button", { name: "End rehearsal" }).click();
    await page.waitForURL("**/crew/*/tern/setup");
    expect((await twin.get(`${twinBase}/queue`)).status).toBe(403);
    expect((await stage.running.anyone.get(`${twinBase}/board`)).status).toBe(404);
    expect((await stall.crew.get<StockView>(`${stall.base}/stock`)).body).toEqual(before);
    expect(faults).toEqual([]);
  });
});
