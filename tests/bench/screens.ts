/**
 * The customer's page as a stranger at a fair meets it: how much is fetched before it can be used, how long that takes a
 * slow phone on a bad network, and whether anything moves while the page asks for news.
 */
import { gzipSync } from "node:zlib";
import type { Browser } from "playwright-core";
import { launch } from "../browser/launch.ts";
import { example, start } from "../http/running.ts";
import { type Bench, type Figure, median } from "./figure.ts";

/** A bad network: 1.6 megabits a second down, half of that up, 150 milliseconds for each way there and back (chosen by us). */
const NETWORK = { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 100_000 };
/** A phone with a quarter of this machine's speed (chosen by us). */
const SLOWER = 4;
const RUNS = 3;
const POLLS = 3;

type Visit = {
  /** The size of everything fetched except pictures, compressed with gzip if it is not compressed already. */
  readonly bytes: number;
  readonly usableMilliseconds: number;
  readonly shiftLoading: number;
  readonly shiftPolling: number;
};

declare global {
  interface Window {
    usableAt: number;
    shift: number;
  }
}

async function visit(browser: Browser, address: string): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: "en-US" });
  await context.addInitScript(() => {
    window.usableAt = 0;
    window.shift = 0;
    new PerformanceObserver((list) => {
      // A shift's own fields are not in the types of the page.
      for (const entry of list.getEntries() as unknown as { value: number; hadRecentInput: boolean }[])
        if (!entry.hadRecentInput) window.shift += entry.value;
    }).observe({ type: "layout-shift", buffered: true });
    new MutationObserver((_, observer) => {
      if (document.querySelector(".choice") === null) return;
      window.usableAt = performance.now();
      observer.disconnect();
    }).observe(document, { childList: true, subtree: true });
  });
  const page = await context.newPage();
  const wire = await context.newCDPSession(page);
  await wire.send("Network.enable");
  await wire.send("Network.emulateNetworkConditions", NETWORK);
  await wire.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  const sizes: Promise<number>[] = [];
  page.on("response", (response) => {
    if (response.url().includes("/pictures/") || response.url().endsWith(".svg")) return;
    const size = async (): Promise<number> => {
      const body = await response.body().catch(() => Buffer.alloc(0));
      return response.url().endsWith(".woff2") ? body.length : gzipSync(body, { level: 9 }).length;
    };
    sizes.push(size());
  });
  await page.goto(address);
  await page.locator(".choice .drawn-garment").first().waitFor();
  const bytes = (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
  const shiftLoading = await page.evaluate(() => window.shift);
  for (let poll = 0; poll < POLLS; poll += 1)
    await page.waitForResponse((response) => response.url().includes("/chat?after="));
  const [usableMilliseconds, shift] = await page.evaluate(() => [window.usableAt, window.shift] as const);
  await context.close();
  return { bytes, usableMilliseconds, shiftLoading, shiftPolling: shift - shiftLoading };
}

async function run(): Promise<readonly Figure[]> {
  const running = await start();
  const browser = await launch();
  try {
    const { fair } = await example(running);
    const visits: Visit[] = [];
    for (let n = 0; n < RUNS; n += 1) visits.push(await visit(browser, `${running.url}/at/${fair}/tern`));
    const middle = (of: keyof Visit): number => median(visits.map((one) => one[of]));
    const figure = (name: string, value: number, unit: string, goal: Figure["goal"] = null): Figure => ({
      bench: "screens",
      name,
      figure: value,
      goal,
      unit,
    });
    return [
      figure("customer page, first load without pictures", middle("bytes") / 1000, "kB gzip", { atMost: 60 }),
      figure("customer page usable, slow phone, bad network", middle("usableMilliseconds") / 1000, "s", {
        atMost: 2,
      }),
      figure("layout shift while loading", middle("shiftLoading"), "CLS", { atMost: 0 }),
      figure("layout shift while polling", middle("shiftPolling"), "CLS", { atMost: 0 }),
    ];
  } finally {
    await browser.close();
    await running.stop();
  }
}

export const bench: Bench = { name: "screens", run };
