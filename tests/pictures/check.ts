/**
 * Looks over every picture of `npm run pictures` by structure, not by pixels: nothing cut off or out of view, no text over
 * another, no sideways scroll, targets of 48 pixels, no violation that axe-core finds (contrast of 4.5 among them), by day and by
 * night, and no British spelling, since the example sells in dollars to a browser that speaks American English. Words
 * after `--` choose the pictures whose names begin with one of them.
 */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { launch } from "../browser/launch.ts";
import { start } from "../http/running.ts";
import { flawsIn, outOfView } from "./flaws.ts";
import { fairInTheMidst, type Midst } from "./midst.ts";
import { openShot, type Shot, type Size, shotsOf } from "./shots.ts";

const LEAST_TARGET = 48;
/** So many pages at once: half of the time a page waits. */
const AT_ONCE = 3;
const BRITISH =
  /\b(?:colours?|centre[ds]?|organisers?|cancelled|recognised?|(?:centi|milli)?metres?|favourites?)\b/gi;

const axeSource = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

async function violations(page: Page, only?: string): Promise<readonly string[]> {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axeSource);
  return page.evaluate(async (rule) => {
    type Found = {
      readonly violations: readonly {
        readonly id: string;
        readonly nodes: readonly { readonly html: string }[];
      }[];
    };
    const { axe } = globalThis as unknown as {
      readonly axe: { readonly run: (options: object) => Promise<Found> };
    }; // set by the source above
    const found = await axe.run(rule === undefined ? {} : { runOnly: [rule] });
    return found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)} (${nodes.length})`,
    );
  }, only);
}

/** A page's flaws at each of its sizes and in both themes. */
async function look(browser: Browser, url: string, shot: Shot, midst: Midst): Promise<readonly string[]> {
  const [first, ...others] = shot.sizes;
  if (first === undefined) return [];
  const { context, page } = await openShot(browser, url, shot, midst, first, "day");
  const found: string[] = [];
  const note = (size: string, flaws: readonly string[]): void => {
    found.push(...flaws.map((flaw) => `${shot.name} ${size}: ${flaw}`));
  };
  note("by day", await violations(page));
  note("words", (await page.locator("body").textContent())?.match(BRITISH) ?? []);
  await page.evaluate(() => {
    document.documentElement.dataset["theme"] = "night";
  });
  note("by night", await violations(page, "color-contrast"));
  const layout = async ({ width, height }: Size): Promise<void> => {
    note(`${width}x${height}`, await page.evaluate(flawsIn, LEAST_TARGET));
    const missed = await page.evaluate(outOfView, shot.inView ?? []);
    note(
      `${width}x${height}`,
      missed.map((selector) => `is not in view: ${selector}`),
    );
  };
  await layout(first);
  for (const size of others) {
    await page.setViewportSize(size);
    await page.evaluate(
      () => new Promise<void>((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => drawn()))),
    );
    await layout(size);
  }
  await context.close();
  return found;
}

const wanted = process.argv.slice(2);
const began = performance.now();
const running = await start();
const browser = await launch();
try {
  const midst = await fairInTheMidst(running);
  const shots = shotsOf(midst).filter(
    ({ name }) => wanted.length === 0 || wanted.some((word) => name.startsWith(word)),
  );
  const left = [...shots];
  const flaws: string[] = [];
  const worker = async (): Promise<void> => {
    for (let shot = left.shift(); shot !== undefined; shot = left.shift()) {
      const { name } = shot;
      flaws.push(
        ...(await look(browser, running.url, shot, midst).catch((reason: unknown) => [
          `${name}: ${String(reason).split("\n")[0]}`,
        ])),
      );
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  for (const flaw of flaws.toSorted()) console.log(flaw);
  const pictures = shots.reduce((sum, { sizes }) => sum + sizes.length * 2, 0);
  const seconds = ((performance.now() - began) / 1000).toFixed(0);
  console.log(`${pictures} pictures looked over in ${seconds} s: ${flaws.length} flaws`);
  if (flaws.length > 0) process.exitCode = 1;
} finally {
  await browser.close();
  await running.stop();
}
