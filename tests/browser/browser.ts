/** Pages of a real browser, for tests. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { expect } from "vitest";
import { launch } from "./launch.ts";

let shared: Promise<Browser> | null = null;

/** The one browser of this process; files close their pages and leave it open for the next. It ends with the process. */
export function openBrowser(): Promise<Browser> {
  shared ??= launch().then((browser) => browser.on("disconnected", () => (shared = null)));
  return shared;
}

export type Opened = {
  readonly page: Page;
  readonly faults: readonly string[];
  readonly close: () => Promise<void>;
};

/** For a page that is to open without a network later. */
export const KEPT: BrowserContextOptions = { serviceWorkers: "allow" };

/** A new page, with its console errors and policy violations. */
export async function openPage(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<Opened> {
  // Without a locale the browser takes the machine's, which need not be a language tag ("en-US@posix").
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    locale: "en-US",
    // Most pages are not looked at without a network, and keeping all of a stall's pages is dear.
    serviceWorkers: "block",
    ...options,
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => {
    // Expected errors: a refused request is part of some journeys, the page itself retries a script that failed, and a
    // plain address of a local network gives no isolation.
    const isOwn =
      /^(?:Failed to load resource|An unknown error occurred when fetching the script|The Cross-Origin-Opener-Policy header has been ignored)/;
    if (message.type() === "error" && !isOwn.test(message.text())) faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(String(error)));
  await page.goto(url);
  return { page, faults, close: () => context.close() };
}

/** Closes every page, for the tests that open one each on one browser. */
export async function closePages(browser: Browser): Promise<void> {
  await Promise.all(browser.contexts().map((context) => context.close()));
}

/** Taps a button by its name: the whole name, or whatever fits a pattern. */
export const tap = (page: Page, name: string | RegExp): Promise<void> =>
  page.getByRole("button", { name, exact: typeof name === "string" }).click();

/** The number of taps during some work. */
export async function countTaps(page: Page, work: () => Promise<void>): Promise<number> {
  const counter = await page.evaluateHandle(() => {
    const taps = { count: 0 };
    document.addEventListener("pointerdown", () => {
      taps.count += 1;
    });
    return taps;
  });
  await work();
  return counter.evaluate(({ count }) => count);
}

const axeSource = readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * No violation of the rules that axe-core checks (WCAG 2.2 A and AA among them). For states that no picture shows:
 * `npm run look-over` asks the same of every picture.
 */
export async function expectAccessible(page: Page): Promise<void> {
  // Evaluated, not added as a script: the page's own policy forbids inline scripts.
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(await axeSource);
  // Ask only for violations: listing everything in order takes longer than finding them.
  const violations = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run: (options: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    }; // set by the source above
    return (await axe.run({ resultTypes: ["violations"] })).violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .map(({ html }) => html)
          .join(" ")
          .slice(0, 300)}`,
    );
  });
  expect(violations).toEqual([]);
}
