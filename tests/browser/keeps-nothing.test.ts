/** A browser without storage throws even when asked: every page works in it for as long as it is open. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { at, example } from "../http/running.ts";
import { openStage } from "./stage.ts";

let place: string;
let keys: { readonly crew: string; readonly organiser: string };

const stage = openStage(async () => {
  const fair = await example(stage.running);
  place = at(fair).replace("/v1/fairs/", "").replace("/stalls", "");
  keys = { crew: fair.stalls[0]?.key ?? "", organiser: fair.key };
});

async function open(path: string): Promise<{ readonly page: Page; readonly errors: readonly string[] }> {
  const context = await stage.browser.newContext({ locale: "en-US", viewport: { width: 390, height: 844 } });
  await context.addInitScript(() => {
    for (const name of ["localStorage", "sessionStorage", "indexedDB", "caches"]) {
      const get = (): never => {
        throw new DOMException("The operation is insecure.", "SecurityError");
      };
      Object.defineProperty(window, name, { configurable: true, get });
    }
  });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(String(error)));
  await page.goto(stage.running.url + path);
  return { page, errors };
}

it("takes a customer's order, and shows where it stands", async () => {
  const { page, errors } = await open(`/at/${place}`);
  const say = async (text: string): Promise<void> => {
    await page.locator("#text").fill(text);
    await page.locator("#text").press("Enter");
  };
  await page.locator(".choice").first().waitFor();
  await say("1 navy L");
  await page.locator(".line.stall", { hasText: "Order it?" }).waitFor();
  await say("yes");
  await page.locator("#ticket:not([hidden])").waitFor();
  expect(errors).toEqual([]);
  await page.context().close();
});

it("opens every page of the crew, the organiser and whoever plans, with the key of the link", async () => {
  const fair = place.split("/")[0];
  const wrong: string[] = [];
  for (const path of [
    `/crew/${place}#key=${keys.crew}`,
    `/crew/${place}/counter#key=${keys.crew}`,
    `/crew/${place}/stock#key=${keys.crew}`,
    `/crew/${place}/setup#key=${keys.crew}`,
    `/crew/${place}/closeout#key=${keys.crew}`,
    `/crew/${place}/passers-by#key=${keys.crew}`,
    `/fair/${fair}#key=${keys.organiser}`,
    `/fair/${fair}/keys#key=${keys.organiser}`,
    `/at/${place}/board`,
    `/at/${place}/poster`,
    "/plan",
    "/start",
  ]) {
    const { page, errors } = await open(path);
    // The page is ready once the stall has answered, or if it does not poll.
    await page.waitForFunction(() => {
      const line = document.querySelector("#freshness");
      return line === null || /[0-9]|Up to date/.test(line.textContent ?? "");
    });
    const asksForLink = await page.locator("text=/open the link/i").filter({ visible: true }).count();
    wrong.push(
      ...errors.map((error) => `${path}: ${error}`),
      ...(asksForLink > 0 ? [`${path}: no key`] : []),
    );
    await page.context().close();
  }
  expect(wrong).toEqual([]);
});
