/** A fair of three hundred stalls: what a look at it costs. See the figures' names. */

import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import type { Browser } from "playwright-core";
import { Client } from "../../src/local/client.ts";
import { serve } from "../../src/local/serve.ts";
import { seededRandom } from "../../src/maths/random.ts";
import type { StallId } from "../../src/model/basics/ids.ts";
import { openBrowser } from "../browser/browser.ts";
import { ids } from "../ids.ts";
import { busyReport } from "./fair/busy.ts";
import { reach } from "./fair/reach.ts";
import { type Bench, type Figure, median } from "./figure.ts";
import { SECRETS } from "./place.ts";

export const STALLS = 300;
const ROUNDS = 9;
const HOUR = 3_600_000;
const stallName = (n: number): StallId => ids.stall(`stall-${n}`);

/** Makes a fair whose stalls have worked for some days; gives its organiser's key. */
export async function busyFair(owner: Client, fair: string, days: number): Promise<string> {
  const now = Date.now();
  const openings = Array.from({ length: days }, (_, day) => ({
    opens: new Date(now - (days - 1 - day) * 24 * HOUR - 10 * HOUR).toISOString(),
    closes: new Date(now - (days - 1 - day) * 24 * HOUR + HOUR).toISOString(),
  }));
  const request = { fair, name: "A large fair", timeZone: "America/New_York", openings };
  const { body } = await owner.post<{ key: string }>("/v1/fairs", request);
  const random = seededRandom(300);
  for (let first = 0; first < STALLS; first += 20) {
    const names = Array.from({ length: 20 }, (_, n) => stallName(first + n));
    const stalls = names.map((stall, n) => ({ stall, name: `Stall number ${first + n + 1}` }));
    const reports = names.map((stall) => busyReport(random, stall, now, days));
    const { status } = await owner.post("/bench/reports", { fair, stalls, reports });
    if (status !== 201) throw new Error(`the stalls could not report: ${status}`);
  }
  return body.key;
}

/** Milliseconds from asking for the page until the first stalls, and all of them, are on the screen. */
async function paint(browser: Browser, address: string): Promise<readonly [first: number, all: number]> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, locale: "en-US" });
  const page = await context.newPage();
  await page.addInitScript((stalls) => {
    const painted: number[] = [];
    let begun = false;
    // The frame after the one in which rows were there has them on the screen.
    const onScreen = (then: () => void): void =>
      void requestAnimationFrame(() => {
        painted.push(performance.now());
        then();
      });
    const look = (): void => {
      const rows = document.querySelectorAll("#stalls tbody tr").length;
      if (rows > 0 && !begun) onScreen(() => undefined);
      begun = rows > 0;
      if (rows < stalls) requestAnimationFrame(look);
      else onScreen(() => Object.assign(globalThis, { painted }));
    };
    requestAnimationFrame(look);
  }, STALLS);
  await page.goto(address);
  const times = await page.waitForFunction(() => Reflect.get(globalThis, "painted") as number[] | undefined);
  const all = (await times.jsonValue()) ?? [];
  await context.close();
  return [Math.min(...all), Math.max(...all)];
}

/** Milliseconds for a whole answer after one stall reported, at fairs of one day and of three, in turn. */
async function growth(owner: Client, fairs: readonly (readonly [fair: string, organiser: Client])[]) {
  const random = seededRandom(5);
  const times = fairs.map((): number[] => []);
  for (let round = 0; round < 3 * ROUNDS; round++) {
    for (const [index, [fair, organiser]] of fairs.entries()) {
      const report = busyReport(random, stallName(round), Date.now(), 0);
      await owner.post("/bench/reports", { fair, reports: [report] });
      const before = performance.now();
      const { status } = await organiser.get(`/v1/fairs/${fair}/throughput`);
      times[index]?.push(performance.now() - before);
      if (status !== 200) throw new Error(`throughput: ${status}`);
    }
  }
  return times.map(median);
}

async function measure(): Promise<readonly Figure[]> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-bench-"));
  const file = fileURLToPath(new URL("./fair/worker.ts", import.meta.url));
  const { url, stop } = await serve({
    port: 0,
    host: "127.0.0.1",
    data,
    secrets: SECRETS,
    entry: { file, objects: {} },
  });
  const browser = await openBrowser();
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const key = await busyFair(owner, "one-day", 1);
    const organiser = owner.withKey(key);
    const longer = owner.withKey(await busyFair(owner, "three-days", 3));

    const path = "/v1/fairs/one-day/throughput";
    const whole = await organiser.get<object>(path);
    const text = JSON.stringify(whole.body);
    const chosen = JSON.stringify((await organiser.get<object>(`${path}?stall=${stallName(7)}`)).body);
    await owner.get("/bench/calls");
    await organiser.get(path);
    await organiser.get(path, { "if-none-match": whole.headers.get("etag") ?? "" });
    const { calls } = (await owner.get<{ calls: number }>("/bench/calls")).body;

    const paints: (readonly [first: number, all: number])[] = [];
    for (let round = 0; round < ROUNDS; round++)
      paints.push(await paint(browser, `${url}/fair/one-day#key=${key}`));
    const firsts = median(paints.map(([first]) => first));
    const alls = median(paints.map(([, all]) => all));
    const [oneDay = Number.NaN, threeDays = Number.NaN] = await growth(owner, [
      ["one-day", organiser],
      ["three-days", longer],
    ]);
    const [announced, stopped] = await reach(owner, STALLS);
    const kilobytes = (what: string): number => gzipSync(what).byteLength / 1000;
    const figure = (name: string, value: number, goal: Figure["goal"], unit: string): Figure => ({
      bench: "fair",
      name,
      figure: value,
      goal,
      unit,
    });
    return [
      figure(`a poll of ${STALLS} stalls, gzip`, kilobytes(text), { atMost: 100 }, "kB"),
      figure("the same with one stall's own quarters, gzip", kilobytes(chosen), { atMost: 100 }, "kB"),
      figure("the same before gzip", text.length / 1000, null, "kB"),
      figure("objects asked a poll, whole or 304", calls / 2, { atMost: 1 }, "calls"),
      figure("first paint of data, a fresh browser page", firsts, { atMost: 1000 }, "ms"),
      figure(`all ${STALLS} stalls on the screen`, alls, { atMost: 1000 }, "ms"),
      figure("a whole answer after a report, one day behind it", oneDay, null, "ms"),
      figure("the same with three days behind it, to one", threeDays / oneDay, { atMost: 1.2 }, "ratio"),
      figure(`an announcement on the screens of 95 % of ${STALLS} stalls`, announced, { atMost: 10 }, "s"),
      figure(`a stop of all orders on the screens of 95 % of ${STALLS} stalls`, stopped, { atMost: 10 }, "s"),
    ];
  } finally {
    await browser.close();
    await stop();
    await rm(data, { recursive: true, force: true });
  }
}

export const bench: Bench = { name: "fair", run: measure };
