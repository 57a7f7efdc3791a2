/** The set-up of a browser test file: the worker and the browser that the files of a process share. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { type Running, shared } from "../http/running.ts";
import { closePages, openBrowser } from "./browser.ts";

export type Stage = { readonly running: Running; readonly browser: Browser };

const PREPARING_MS = 180_000;

/** Starts both before the file's tests, hands them to `prepare`, and closes the pages and the worker after the tests. */
export function openStage(prepare: (stage: Stage) => Promise<void> | void, worker = shared): void {
  let running: Running | undefined;
  let browser: Browser | undefined;
  beforeAll(async () => {
    running = await worker();
    browser = await openBrowser();
    await prepare({ running, browser });
  }, PREPARING_MS);
  // What a failed set-up left running would disturb the next file of this process.
  afterAll(async () => {
    if (browser !== undefined) await closePages(browser);
    await running?.stop();
  });
}
