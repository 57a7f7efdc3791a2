/** The counter without signal: orders with numbers and payment, kept and sent once, whatever is lost on the way. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import type { CrewOrderView } from "../../src/model/orders/order.ts";
import { expectAccessible, KEPT, openPage, tap } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L, setRules } from "./crew-page.ts";
import { type Relay, relayTo } from "./relay.ts";
import { openStage } from "./stage.ts";

let relay: Relay;

const stage = openStage(async () => {
  relay = await relayTo(stage.running.url);
});
afterAll(() => relay.stop());

const orderTag = (page: Page) => page.getByRole("region", { name: "The order" });
const offline = (page: Page, off: boolean): Promise<void> => page.context().setOffline(off);

const order = async ({ crew, base }: CrewStall, number: number): Promise<CrewOrderView> =>
  (await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`)).body;

/** The values the browser keeps under names with this prefix. */
const keptAs = (page: Page, name: string): Promise<unknown> =>
  page.evaluate(
    (start) =>
      new Promise((resolve) => {
        const request = indexedDB.open("stallpress");
        request.onsuccess = () => {
          const store = request.result.transaction("kept").objectStore("kept");
          const keys = store.getAllKeys();
          keys.onsuccess = () => {
            const key = keys.result.find((one) => String(one).startsWith(start));
            if (key === undefined) return resolve(null);
            const value = store.get(key);
            value.onsuccess = () => resolve(value.result);
          };
        };
      }),
    name,
  );

/** A counter that has its block of numbers, and is kept for opening without signal. */
async function counterWithBlock(link: string) {
  const opened = await openPage(stage.browser, link, KEPT);
  const { page } = opened;
  await expect
    .poll(async () => ((await keptAs(page, "numbers ")) as { numbers: unknown[] } | null)?.numbers.length)
    .toBe(20);
  await expect
    .poll(() => page.evaluate(async () => (await caches.match(location.pathname)) !== undefined))
    .toBe(true);
  return opened;
}

/** Takes a navy L at the counter, and gives the number and word that the page shows for it. */
async function takeOne(page: Page, button: string): Promise<readonly [number: number, word: string]> {
  await tap(page, "New order");
  await page.getByLabel("Longtail tee $24.00").check();
  await page.getByLabel("Navy", { exact: true }).check();
  await page.getByLabel(/^L \(/).check();
  await tap(page, "Add to order");
  await tap(page, button);
  await orderTag(page).getByText("saved on this tablet, not at the stall yet").waitFor();
  const number = Number(await orderTag(page).locator(".tag-number").textContent());
  const word = (await orderTag(page).locator(".tag-word").textContent()) ?? "";
  return [number, word.replace("pickup word", "")];
}

describe("the counter without signal", () => {
  it("numbers three paid orders, keeps them through a reload, and the stall has them as they were told", async () => {
    const stall = await crewStall(stage.running);
    await setRules(stall, { payment: "before-pressing" });
    const { page, faults } = await counterWithBlock(stall.link("/counter"));
    await page.getByLabel("Longtail tee $24.00").check();
    await page.getByLabel("Navy", { exact: true }).check();
    const free = Number(/\d+/.exec((await page.getByText(/^L \(\d+\)$/).textContent()) ?? "")?.[0]);
    await offline(page, true);
    await page.getByText("they may be out of date", { exact: false }).first().waitFor();
    const one = await takeOne(page, "Paid: Cash");
    const two = await takeOne(page, "Paid: Card");
    await page.getByText("No signal · 2 orders saved on this tablet").waitFor();
    await page.reload();
    await page.getByText("No signal · 2 orders saved on this tablet").waitFor();
    await tap(page, "New order");
    await page.getByLabel("Longtail tee $24.00").check();
    await page.getByLabel("Navy", { exact: true }).check();
    await page.getByText(`L (${free - 2})`, { exact: true }).waitFor();
    const three = await takeOne(page, "Paid: Cash");
    await page.getByText("No signal · 3 orders saved on this tablet").waitFor();
    for (const [number, word] of [one, two, three])
      await page.getByRole("button", { name: `${number} ${word}`, exact: true }).waitFor();
    expect(new Set([one, two, three].map(([number]) => number)).size).toBe(3);
    await expectAccessible(page);

    await offline(page, false);
    const numbers = [one, two, three].map(([number]) => number);
    await page.getByText(`At the stall by now: ${numbers.join(", ")}.`).waitFor();
    const { next } = await stall.queue();
    expect(next.map(({ number }) => number)).toEqual(numbers);
    for (const [[number, word], tender] of [
      [one, "cash"],
      [two, "card"],
      [three, "cash"],
    ] as const)
      expect(await order(stall, number)).toMatchObject({ word, stage: "waiting", paid: { tender } });
    await tap(page, "Seen");
    await page.locator("#saved").waitFor({ state: "hidden" });
    expect(faults).toEqual([]);
  });

  it("keeps an order that proves sold out: it is short, and the crew sees it", async () => {
    const stall = await crewStall(stage.running);
    await stall.crew.post(`${stall.base}/stock`, { entries: [{ sku: "tee.navy.L", counted: 1 }] });
    const { page } = await counterWithBlock(stall.link("/counter"));
    await page.getByText("Up to date").waitFor();
    await offline(page, true);
    const [number, word] = await takeOne(page, "Paid: Cash");
    await tap(page, "New order");
    await page.getByText("L: gone", { exact: true }).waitFor();
    await stall.crew.post(`${stall.base}/orders`, { lines: [NAVY_L] });
    await offline(page, false);
    await page
      .locator("#news-list")
      .getByText(`Order ${number}: 1 garment of it is sold out by now`)
      .waitFor();
    expect((await stall.queue()).short.map((job) => job.number)).toEqual([number]);
    expect(await order(stall, number)).toMatchObject({ word, paid: { tender: "cash" } });
  });

  it("repeats nothing if an answer is lost, and takes the next order in the meantime", async () => {
    const stall = await crewStall(stage.running);
    const link = stall.link("/counter").replace(stage.running.url, relay.url);
    const { page } = await counterWithBlock(link);
    let lost = 0;
    await page.route("**/orders", async (route) => {
      if (route.request().method() !== "POST") return route.continue();
      // The stall has the order, but its answer is lost.
      await route.fetch();
      lost += 1;
      return lost < 3 ? route.abort("connectionreset") : route.continue();
    });
    const one = await takeOne(page, "Paid: Cash");
    await expect.poll(() => lost).toBeGreaterThanOrEqual(3);
    await page.getByText(`At the stall by now: ${one[0]}.`).waitFor();
    const { counts, next } = await stall.queue();
    expect(counts.waiting).toBe(1);
    expect(next[0]?.number).toBe(one[0]);
    expect(await page.locator("#place").isDisabled()).toBe(false);
  });

  it("takes orders without a number if none was ever given, and its button stays alive", async () => {
    const stall = await crewStall(stage.running);
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    await page.route("**/numbers", (route) => route.abort());
    await page.getByText("Up to date").waitFor();
    await page.evaluate(
      () =>
        new Promise((resolve) => {
          const request = indexedDB.open("stallpress");
          request.onsuccess = () => {
            const store = request.result.transaction("kept", "readwrite").objectStore("kept");
            const keys = store.getAllKeys();
            keys.onsuccess = () => {
              for (const key of keys.result) if (String(key).startsWith("numbers ")) store.delete(key);
              store.transaction.oncomplete = () => resolve(null);
            };
          };
        }),
    );
    await offline(page, true);
    for (const count of ["1 order", "2 orders"]) {
      await tap(page, "New order");
      await page.getByLabel("Longtail tee $24.00").check();
      await page.getByLabel("Navy", { exact: true }).check();
      await page.getByLabel(/^L \(/).check();
      await tap(page, "Add to order");
      await tap(page, "Paid: Cash");
      await page.getByText("Kept: an order (1 × Longtail tee, Navy, L).").waitFor();
      await page.getByText(`No signal · ${count} saved on this tablet`).waitFor();
      expect(await page.locator("#lines").textContent()).toContain("Nothing on it yet.");
    }
    await offline(page, false);
    await expect.poll(async () => (await stall.queue()).counts.waiting).toBe(2);
    await expect.poll(() => page.locator("#news-list li").count()).toBe(2);
  });
});

describe("an order that is about to be dropped unpaid", () => {
  it("is announced at the counter, and can be paid or kept there", async () => {
    const stall = await crewStall(stage.running);
    await setRules(stall, { payment: "before-pressing", payMinutes: 2 });
    const place = async () =>
      (await stall.crew.post<{ number: number }>(`${stall.base}/orders`, { lines: [NAVY_L] })).body.number;
    const [kept, paid] = [await place(), await place()];
    const { page } = await openPage(stage.browser, stall.link("/counter"));
    const row = (number: number) => page.locator("#unpaid-list li").filter({ hasText: String(number) });
    await row(kept).getByText(`${kept} is dropped in 2 min: unpaid`).waitFor();
    await expectAccessible(page);
    const before = (await order(stall, kept)).dropsAt ?? "";
    await row(kept).getByRole("button", { name: "Keep" }).click();
    await expect.poll(async () => ((await order(stall, kept)).dropsAt ?? "") > before).toBe(true);
    await row(paid).getByRole("button", { name: "Paid: Cash" }).click();
    await expect.poll(async () => (await order(stall, paid)).paid?.tender).toBe("cash");
    await row(paid).waitFor({ state: "detached" });
  });
});
