/** The set-up of a browser test file: the worker and the browser that the files of a process share. */
import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll } from "vitest";
import { type Running, shared } from "../http/running.ts";
import { closePages, openBrowser } from "./browser.ts";

export type Stage = { readonly running: Running; readonly browser: Browser };

const PREPARING_MS = 180_000;

/**
 * Starts both before the file's tests and hands them to `prepare`; stops the worker after the tests. Pages are closed
 * after each test, or after all of them if the file's tests go on with the `same` page: one left open keeps polling.
 */
export function openStage(
  prepare: () => Promise<void> | void = () => {},
  {
    worker = shared,
    same = false,
  }: { readonly worker?: () => Promise<Running>; readonly same?: boolean } = {},
): Stage {
  let running: Running | undefined;
  let browser: Browser | undefined;
  const closeAll = async (): Promise<void> => {
    if (browser !== undefined) await closePages(browser);
  };
  beforeAll(async () => {
    running = await worker();
    browser = await openBrowser();
    await prepare();
  }, PREPARING_MS);
  if (!same) afterEach(closeAll);
  // What a failed set-up left running would disturb the next file of this process.
  afterAll(async () => {
    await closeAll();
    await running?.stop();
  });
  return {
    get running() {
      if (running === undefined) throw new Error("the worker runs only in the file's tests");
      return running;
    },
    get browser() {
      if (browser === undefined) throw new Error("the browser runs only in the file's tests");
      return browser;
    },
  };
}
