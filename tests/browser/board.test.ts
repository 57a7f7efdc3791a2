import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { JobView } from "../../src/model/orders/queue.ts";
import { at, example } from "../http/running.ts";
import { openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;
let crew: Client;
let base: string;

const stage = openStage(async () => {
  fair = await example(stage.running);
  base = at(fair);
  crew = stage.running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

async function order(size: string, more: object = {}): Promise<number> {
  const lines = [{ offer: "longtail-tee", colour: "navy", size, quantity: 1 }];
  return (await crew.post<PlacedOrder>(`${base}/orders`, { lines, ...more })).body.number;
}
async function pull(): Promise<string> {
  return (await crew.post<{ job: JobView }>(`${base}/presses/A/pull`)).body.job.job;
}
const pressed = (job: string) => crew.post(`${base}/jobs/${job}/pressed`);

/** Every number with its heading. */
const tags = (page: Page): Promise<string[]> =>
  page
    .locator(".numbers li")
    .evaluateAll((all) =>
      all.map((one) => `${one.textContent} ${one.closest("ol")?.previousElementSibling?.textContent}`),
    );
const heightOf = async (page: Page, state: string): Promise<number> =>
  (await page.locator(`.numbers .${state}`).first().boundingBox())?.height ?? 0;

describe("the pickup board", () => {
  it("shows every number once in order, with its state in words and weight, and never who it is for", async () => {
    const { page, faults } = await openPage(
      stage.browser,
      `${stage.running.url}/at/${fair.fair}/tern/board`,
      {
        viewport: { width: 1024, height: 768 },
      },
    );
    await page.evaluate(() => {
      const make = AudioContext.prototype.createOscillator;
      document.title = "counting";
      AudioContext.prototype.createOscillator = function counted() {
        document.documentElement.dataset["notes"] = String(
          Number(document.documentElement.dataset["notes"] ?? 0) + 1,
        );
        return make.call(this);
      };
    });
    const notes = (): Promise<number> =>
      page.evaluate(() => Number(document.documentElement.dataset["notes"] ?? 0));
    // Without numbers, the board shows pictures of the garments on sale, and how to order.
    await page.locator(".idle .drawn-garment").first().waitFor();
    expect(await page.locator("#order-code").isVisible()).toBe(true);

    const first = await order("L", { name: "Wilhelmina", phone: "+12125550142" });
    const second = await order("M");
    const third = await order("S");
    await pressed(await pull());
    const onPress = await pull();
    await expect
      .poll(() => tags(page))
      .toEqual([`${first} Ready`, `${second} On the press`, `${third} In line`]);
    expect(await notes()).toBe(0);
    const [ready, pressing, waiting] = await Promise.all(
      ["ready", "making", "waiting"].map((state) => heightOf(page, state)),
    );
    expect(ready).toBeGreaterThan(pressing ?? 0);
    expect(waiting).toBeGreaterThan(768 * 0.07);
    expect(ready).toBeGreaterThan(768 * 0.2);
    expect(await page.locator("#order-code").isVisible()).toBe(false);

    await page.locator("#sound").click();
    const trial = await notes();
    expect(trial).toBeGreaterThan(0);
    const unchanged = page.waitForResponse(
      (response) => response.url().endsWith("/board") && response.status() === 304,
    );
    await unchanged;
    expect(await notes()).toBe(trial);
    await pressed(onPress);
    await expect.poll(() => tags(page)).toContain(`${second} Ready`);
    expect(await notes()).toBe(2 * trial);
    expect(await page.locator("#called").textContent()).toBe(`Ready: ${second}`);

    const text = (await page.locator("body").textContent()) ?? "";
    expect(text).not.toMatch(/Wilhelmina|2125550142/);
    expect(faults).toEqual([]);
  });

  it("fits whatever there is into the window, telling how many more wait", async () => {
    for (let n = 0; n < 24; n += 1) await order(["S", "M", "L", "XL"][n % 4] ?? "S");
    const { page } = await openPage(stage.browser, `${stage.running.url}/at/${fair.fair}/tern/board`, {
      viewport: { width: 320, height: 480 },
    });
    await page.locator(".numbers li").first().waitFor();
    const overflow = () =>
      page.evaluate(() => {
        const { scrollWidth, clientWidth, scrollHeight, clientHeight } = document.documentElement;
        return [scrollWidth - clientWidth, scrollHeight - clientHeight];
      });
    /** Numbers that their part of the board cuts off. */
    const cut = () =>
      page.locator(".numbers li").evaluateAll((all) =>
        all.flatMap((one) => {
          const [own, part] = [one, one.closest("section")].map((each) => each?.getBoundingClientRect());
          const isIn =
            own !== undefined && part !== undefined && own.right <= part.right && own.bottom <= part.bottom;
          return isIn ? [] : [one.textContent];
        }),
      );
    expect(await overflow()).toEqual([0, 0]);
    expect(await cut()).toEqual([]);
    expect(await page.locator("#more").textContent()).toMatch(/^and \d+ more$/);
    await page.setViewportSize({ width: 1600, height: 900 });
    await expect.poll(() => page.locator("#more").isVisible()).toBe(false);
    expect(await page.locator(".numbers li").count()).toBe(27);
    expect(await overflow()).toEqual([0, 0]);
    expect(await cut()).toEqual([]);
  });
});
