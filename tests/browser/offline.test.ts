/** Bad signal: taps made without it arrive once and in order, and the page opens without it. */
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { expectAccessible, KEPT, openPage, tap } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { type Relay, relayTo } from "./relay.ts";
import { openStage } from "./stage.ts";

let relay: Relay;

const stage = openStage(async () => {
  relay = await relayTo(stage.running.url);
});
afterAll(() => relay.stop());

const line = (garments: number) => Array.from({ length: garments }, () => [NAVY_L]);
const tag = (page: Page) => page.getByRole("region", { name: "On this press" });
const offline = (page: Page, off: boolean): Promise<void> => page.context().setOffline(off);
const unsent = (page: Page, taps: number) =>
  page.getByText(`Not sent yet: ${taps}`, { exact: true }).waitFor();

/** Every write of a browser that was answered, as it was answered: its path within the stall, and its key. */
function answeredWrites(context: BrowserContext, { base }: CrewStall): { path: string; once: string }[] {
  const writes: { path: string; once: string }[] = [];
  context.on("response", (response) => {
    const request = response.request();
    if (request.method() !== "POST") return;
    const path = new URL(request.url()).pathname.slice(base.length);
    writes.push({ path, once: request.headers()["idempotency-key"] ?? "" });
  });
  return writes;
}

/** The crew pages are kept whole: the counter's shell is the last thing that is asked for. */
const keepsPages = (page: Page): Promise<void> =>
  expect
    .poll(() =>
      page.evaluate(async () => {
        const home = `/crew/${document.body.dataset["fair"]}/${document.body.dataset["stall"]}`;
        return (await caches.match(`${home}/counter`)) !== undefined;
      }),
    )
    .toBe(true);

/** The press screen at a press, with what the stall reserves for it, and kept for opening without signal. */
async function standAt(stall: CrewStall, press: string, reserved: number) {
  const opened = await openPage(stage.browser, stall.link(""), KEPT);
  await tap(opened.page, `Press ${press}, flat platen`);
  await expect
    .poll(async () => (await stall.queue()).presses.find((one) => one.press === press)?.reserve.length)
    .toBeGreaterThanOrEqual(reserved);
  await keepsPages(opened.page);
  return opened;
}

describe("the press screen without signal", () => {
  it("keeps five taps through a reload, and each arrives once, in order, from two tabs", async () => {
    const stall = await crewStall(stage.running, line(8));
    const [a, b, c] = stall.numbers;
    const { page, faults } = await standAt(stall, "A", 3);
    await tap(page, "Pull next garment");
    await tag(page).getByText(String(a), { exact: true }).waitFor();
    await expect.poll(async () => (await stall.queue()).presses[0]?.reserve.length).toBe(3);
    await page.getByText(`${b}-1`).first().waitFor();
    // A second tab of the same tablet, which has the same taps to send.
    const other = await page.context().newPage();
    await other.goto(stall.link("/counter"));
    await other.getByText("Up to date").waitFor();

    await offline(page, true);
    await page.getByText("No signal · 0 taps saved · 3 reserved").waitFor();
    await tap(page, "Pressed");
    await tap(page, `Take ${b}-1, reserved`);
    await tag(page).getByText(String(b), { exact: true }).waitFor();
    await tap(page, "Pressed");
    await tap(page, `Take ${c}-1, reserved`);
    await tap(page, "Pressed");
    await unsent(page, 5);
    await expectAccessible(page);
    expect((await stall.queue()).counts).toMatchObject({ pressing: 1, ready: 0 });

    await page.reload();
    await unsent(page, 5);
    await page.getByRole("heading", { name: "Press A, flat" }).waitFor();
    await page.getByText(/Updated \d+ s ago/).waitFor();
    await page.getByText("Not sent yet: 5", { exact: true }).click();
    const listed = await page.locator("#unsent-list li span").allTextContents();
    expect(listed.map((row) => row.replace(/^.*?M: /, ""))).toEqual([
      `${a}-1 pressed`,
      `${b}-1 put on press A`,
      `${b}-1 pressed`,
      `${c}-1 put on press A`,
      `${c}-1 pressed`,
    ]);

    const writes = answeredWrites(page.context(), stall);
    await offline(page, false);
    await expect.poll(async () => (await stall.queue()).ready).toEqual([a, b, c]);
    await page.getByText("Not sent yet:").waitFor({ state: "hidden" });
    expect(writes.map(({ path }) => path)).toEqual([
      `/jobs/${a}-1/pressed`,
      "/presses/A/pull",
      `/jobs/${b}-1/pressed`,
      "/presses/A/pull",
      `/jobs/${c}-1/pressed`,
    ]);
    expect(new Set(writes.map(({ once }) => once)).size).toBe(5);
    expect(await page.locator("#news").isVisible()).toBe(false);
    expect(faults).toEqual([]);
  });

  it("never gives two tablets the same garment, and another tablet takes over from a dead one", async () => {
    const stall = await crewStall(stage.running, line(4));
    const [one, two] = await Promise.all([standAt(stall, "A", 1), standAt(stall, "B", 1)]);
    await Promise.all([tap(one.page, "Pull next garment"), tap(two.page, "Pull next garment")]);
    await Promise.all(
      [one, two].map(({ page }) => page.getByRole("button", { name: "Pressed", exact: true }).waitFor()),
    );
    const { presses } = await stall.queue();
    const jobs = presses.flatMap(({ job }) => job?.number ?? []);
    expect(new Set(jobs).size).toBe(2);
    const third = await openPage(stage.browser, stall.link(""), KEPT);
    await tap(third.page, "Press A, flat platen");
    await tag(third.page).getByText(String(jobs[0]), { exact: true }).waitFor();
    expect([...one.faults, ...two.faults, ...third.faults]).toEqual([]);
  });

  it("lists what the stall refused afterwards until somebody has read it", async () => {
    const stall = await crewStall(stage.running, line(6));
    const [a, b] = stall.numbers;
    const { page, faults } = await standAt(stall, "A", 3);
    await tap(page, "Pull next garment");
    await tag(page).getByText(String(a), { exact: true }).waitFor();
    await page.getByText(`${b}-1`).first().waitFor();
    await offline(page, true);
    await page.getByText("No signal ·").waitFor();
    await tap(page, "Pressed");
    await tap(page, `Take ${b}-1, reserved`);
    await tap(page, "Pressed");
    await unsent(page, 3);
    // In the meantime one order is dropped, and another press takes the reserved garment.
    await stall.crew.post(`${stall.base}/orders/${a}/dropped`);
    await stall.crew.post(`${stall.base}/jobs/${b}-1/returned`, { press: "A" });
    expect((await stall.crew.post(`${stall.base}/presses/B/pull`)).status).toBe(200);
    await offline(page, false);
    const news = page.locator("#news-list li span");
    await expect.poll(() => news.count()).toBe(3);
    const said = await news.allTextContents();
    expect(said[0]).toContain(`Not done: ${a}-1 pressed`);
    expect(said[0]).toContain("Its order was cancelled or has ended.");
    expect(said[1]).toContain(`Not done: ${b}-1 put on press A`);
    expect(said[2]).toContain(`Not sent: ${b}-1 pressed`);
    await expectAccessible(page);
    await page.reload();
    await expect.poll(() => news.count()).toBe(3);
    for (let left = 3; left > 0; left -= 1) {
      await page.getByRole("button", { name: "Got it" }).first().click();
      await expect.poll(() => news.count()).toBe(left - 1);
    }
    expect(faults).toEqual([]);
  });

  it("keeps the taps if the key has ended, and sends them with the new one", async () => {
    const stall = await crewStall(stage.running, line(2));
    const [a] = stall.numbers;
    const { page } = await standAt(stall, "A", 1);
    await tap(page, "Pull next garment");
    await tag(page).getByText(String(a), { exact: true }).waitFor();
    await offline(page, true);
    await page.getByText("No signal ·").waitFor();
    await tap(page, "Pressed");
    const { body } = await stall.organiser.post<{ key: string }>(`${stall.base}/key`);
    await offline(page, false);
    await page.getByText("This tablet’s link has been replaced. Your taps are saved").waitFor();
    await unsent(page, 1);
    expect(
      (await stall.crew.withKey(body.key).get<{ ready: number[] }>(`${stall.base}/queue`)).body.ready,
    ).toEqual([]);
    await page.evaluate((key) => {
      location.hash = `key=${key}`;
      location.reload();
    }, body.key);
    await page.getByText(`Order ${a} is ready.`).waitFor();
    expect(await page.locator("#unsent").isVisible()).toBe(false);
  });

  it("works for as long as it is open if the browser keeps nothing, and says so", async () => {
    const stall = await crewStall(stage.running, line(2));
    const context = await stage.browser.newContext({
      viewport: { width: 390, height: 844 },
      locale: "en-US",
    });
    const page = await context.newPage();
    // A private window of some browsers, on an address without TLS.
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("no", "SecurityError");
      };
      for (const name of ["locks", "serviceWorker"]) Reflect.deleteProperty(Navigator.prototype, name);
    });
    await page.goto(stall.link(""));
    await tap(page, "Press A, flat platen");
    await page.getByText("This browser keeps nothing").waitFor();
    await tap(page, "Pull next garment");
    await tag(page).getByText(String(stall.numbers[0]), { exact: true }).waitFor();
    await offline(page, true);
    await page.getByText("No signal ·").waitFor();
    await tap(page, "Pressed");
    await unsent(page, 1);
    await offline(page, false);
    await expect.poll(async () => (await stall.queue()).ready).toEqual([stall.numbers[0]]);
  });
});

describe("the counter without signal", () => {
  it("hands over what was ready, and takes an order with the time it was taken", async () => {
    const stall = await crewStall(stage.running, line(1));
    const [number = 0] = stall.numbers;
    await stall.crew.post(`${stall.base}/presses/A/pull`);
    await stall.crew.post(`${stall.base}/jobs/${number}-1/pressed`);
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"), KEPT);
    await tap(page, "Orders");
    await page.getByRole("button", { name: new RegExp(`^${number} `) }).waitFor();
    await expect
      .poll(() =>
        page.evaluate(
          () =>
            new Promise((resolve) => {
              const request = indexedDB.open("stallpress");
              request.onsuccess = () => {
                const keys = request.result.transaction("kept").objectStore("kept").getAllKeys();
                keys.onsuccess = () => resolve(keys.result.some((key) => String(key).startsWith("orders ")));
              };
            }),
        ),
      )
      .toBe(true);
    await keepsPages(page);
    await offline(page, true);
    await page.reload();
    await tap(page, "Orders");
    await page.getByRole("button", { name: new RegExp(`^${number} `) }).click();
    await page.getByText(`No signal: order ${number} as this tablet last saw it.`).waitFor();
    await tap(page, "Paid: Cash");
    await page.locator("#hand-right").click();
    await page.getByRole("region", { name: "The order" }).getByText("handed over").waitFor();
    await expectAccessible(page);
    await unsent(page, 2);

    await tap(page, "New order");
    await page.getByLabel("Longtail tee $24.00").check();
    await page.getByLabel("Navy", { exact: true }).check();
    await page.getByLabel(/^L \(/).check();
    await tap(page, "Add to order");
    const before = Date.now();
    await tap(page, "Place order, not paid yet");
    await page.getByText("No signal · 1 order saved on this tablet").waitFor();
    await unsent(page, 2);
    await offline(page, false);
    await page.getByText(/^At the stall by now: \d+\.$/).waitFor();
    const whole = async (order: number) =>
      (
        await stall.crew.get<{ stage: string; placedAt: string; paid: unknown }>(
          `${stall.base}/orders/${order}/whole`,
        )
      ).body;
    expect(await whole(number)).toMatchObject({ stage: "collected", paid: { tender: "cash" } });
    const [waiting] = (await stall.queue()).next;
    const { placedAt } = await whole(waiting?.number ?? 0);
    // By the stall's clock to the second, as the Date of an answer has it.
    expect(Math.abs(Date.parse(placedAt) - before)).toBeLessThan(5000);
    expect(faults).toEqual([]);
  });
});

describe("what is kept of the pages", () => {
  it("is replaced as a whole by a newer build, and never serves other pages", async () => {
    const stall = await crewStall(stage.running, line(1));
    const through = (page: "" | "/counter"): string => stall.link(page).replace(stage.running.url, relay.url);
    // The network fails once, and the page asks again.
    let failures = 1;
    relay.change = (path, text) => {
      if (path === "/crew/service-worker.js" && failures-- > 0) throw new Error("no network");
      return text;
    };
    const { page, faults } = await openPage(stage.browser, through(""), KEPT);
    await page.getByRole("button", { name: "Press A, flat platen" }).waitFor();
    const home = new URL(page.url()).pathname;
    await keepsPages(page);
    const holds = () =>
      page.evaluate(async () => {
        const rows: string[] = [];
        for (const name of await caches.keys())
          for (const { url } of await (await caches.open(name)).keys()) rows.push(new URL(url).pathname);
        return rows;
      });
    expect((await holds()).filter((path) => path.startsWith("/v1/"))).toEqual([]);
    expect(await page.evaluate(async () => (await caches.keys()).length)).toBe(1);

    // Another build: its worker differs, and so does its shell.
    relay.change = (path, text) =>
      path === "/crew/service-worker.js"
        ? text.replace(/[0-9a-f]{16}/, "another build")
        : path === home
          ? text.replace("<title>Press", "<title>Newer press")
          : text;
    await page.reload();
    await page.getByText("Update this page when you have a moment.").waitFor();
    expect(await page.title()).toBe("Press");
    await expectAccessible(page);
    await tap(page, "Update");
    await page.waitForFunction(() => document.title === "Newer press");
    await offline(page, true);
    await page.reload();
    expect(await page.title()).toBe("Newer press");
    await offline(page, false);

    // Customers and the organiser are served by the network alone.
    for (const other of [home.replace("/crew/", "/at/"), `/fair/${home.split("/")[2]}`, "/plan"]) {
      await page.goto(relay.url + other);
      expect(await page.evaluate(() => navigator.serviceWorker.controller)).toBeNull();
    }
    expect(faults).toEqual([]);
  });
});
