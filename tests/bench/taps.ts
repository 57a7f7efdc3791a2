/** The taps that the counter's daily tasks take in a real browser: a tap is one press of the pointer. */
import type { Page } from "playwright-core";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { type CrewStall, crewStall, NAVY_L, OTTER_M } from "../browser/crew-page.ts";
import { launch } from "../browser/launch.ts";
import { start } from "../http/running.ts";
import type { Bench, Figure } from "./figure.ts";

type Way = {
  readonly name: string;
  readonly atMost: number;
  /** Makes the stall ready for it. */
  readonly before: (stall: CrewStall) => Promise<PlacedOrder | null>;
  /** Taps; typing is not counted. */
  readonly does: (page: Page, order: PlacedOrder | null) => Promise<void>;
};

const PHONE = { width: 390, height: 844 };

const tap = (page: Page, name: string | RegExp): Promise<void> =>
  page.getByRole("button", { name, exact: typeof name === "string" }).click();
const choose = (page: Page, label: string | RegExp): Promise<void> =>
  page.getByRole("radio", { name: label }).click();
const place = async ({ crew, base }: CrewStall, more: object): Promise<PlacedOrder> =>
  (await crew.post<PlacedOrder>(`${base}/orders`, { lines: [OTTER_M], ...more })).body;

/** Opens an order by its number: taps the field, types, and presses Enter. */
async function open(page: Page, order: PlacedOrder | null): Promise<void> {
  await page.getByLabel("Find an order").click();
  await page.keyboard.type(String(order?.number));
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: `${order?.number}-1` }).click();
}

/** An order that was paid and pressed. */
async function pressed(stall: CrewStall, more: object): Promise<PlacedOrder> {
  const { crew, base } = stall;
  const order = await place(stall, more);
  await crew.post(`${base}/orders/${order.number}/paid`, { tender: "cash" });
  for (;;) {
    const { status, body } = await crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`);
    if (status !== 200) break;
    await crew.post(`${base}/jobs/${body.job.job}/pressed`, {});
  }
  return order;
}

/** An order that was paid, pressed and handed over. */
async function collected(stall: CrewStall): Promise<PlacedOrder> {
  const order = await pressed(stall, {});
  await stall.crew.post(`${stall.base}/orders/${order.number}/collected`, {});
  return order;
}

const WAYS: readonly Way[] = [
  {
    name: "one tee for cash, from a blank slip to its number",
    atMost: 5,
    before: async () => null,
    does: async (page) => {
      await choose(page, /^Longtail tee/);
      await choose(page, /^Navy/);
      await choose(page, /^L \(/);
      await tap(page, "Add to order");
      await tap(page, /^\$30\.00/);
      await page.locator("#order-tag .tag-number").waitFor();
    },
  },
  {
    name: "one tee for part cash, part card, from a blank slip to its number",
    atMost: 6,
    before: async () => null,
    does: async (page) => {
      await choose(page, /^Longtail tee/);
      await choose(page, /^Navy/);
      await choose(page, /^L \(/);
      await tap(page, "Add to order");
      await page.getByLabel("Cash given").click();
      await page.keyboard.type("10");
      await tap(page, /^Rest by card/);
      await page.locator("#order-tag .tag-number").waitFor();
    },
  },
  {
    name: "an order found by its pickup word",
    atMost: 2,
    before: (stall) => place(stall, {}),
    does: async (page, order) => {
      await page.getByLabel("Find an order").click();
      await page.keyboard.type(order?.word ?? "");
      await tap(page, new RegExp(`^${order?.number} `));
      await page
        .locator("#order-tag")
        .getByText(order?.word ?? "")
        .waitFor();
    },
  },
  {
    name: "a garment that waits changed to another size",
    atMost: 4,
    before: (stall) => place(stall, {}),
    does: async (page, order) => {
      await open(page, order);
      await page.locator("#change-sizes").getByRole("radio", { name: /^L \(/ }).click();
      await tap(page, /^Change to /);
      await page.locator("#order-tag").getByText("Otter tee, Sand, L").waitFor();
    },
  },
  {
    name: "a garment that was handed over exchanged for another size",
    atMost: 5,
    before: collected,
    does: async (page, order) => {
      await open(page, order);
      await page.locator("#change-sizes").getByRole("radio", { name: /^L \(/ }).click();
      await tap(page, /^Exchange for /);
      await page.locator("#order-tag").getByText("Otter tee, Sand, L").waitFor();
    },
  },
  {
    name: "a garment that was handed over exchanged for one that hangs on the rack",
    atMost: 5,
    before: async (stall) => {
      const hangs = await pressed(stall, { lines: [{ ...OTTER_M, size: "L" }] });
      await stall.crew.post(`${stall.base}/orders/${hangs.number}/dropped`, {});
      return collected(stall);
    },
    does: async (page, order) => {
      await open(page, order);
      await page
        .locator("#change-sizes")
        .getByRole("radio", { name: /^L \(.*1 on the rack\)/ })
        .click();
      await tap(page, /^Give .* from the rack$/);
      await page.locator("#order-tag").getByText("Otter tee, Sand, L").waitFor();
    },
  },
];

export const bench: Bench = {
  name: "taps",
  run: async () => {
    const running = await start();
    const browser = await launch();
    const figures: Figure[] = [];
    try {
      for (const { name, atMost, before, does } of WAYS) {
        const stall = await crewStall(running, [[NAVY_L]]);
        const order = await before(stall);
        const page = await browser.newPage({ viewport: PHONE, locale: "en-US" });
        await page.goto(stall.link("/counter"));
        await page.getByText("Up to date").waitFor();
        const counter = await page.evaluateHandle(() => {
          const taps = { count: 0 };
          document.addEventListener("pointerdown", () => {
            taps.count += 1;
          });
          return taps;
        });
        await does(page, order);
        const figure = await counter.evaluate(({ count }) => count);
        figures.push({ bench: "taps", name, figure, goal: { atMost }, unit: "taps" });
        await page.close();
      }
    } finally {
      await browser.close();
      await running.stop();
    }
    return figures;
  },
};
