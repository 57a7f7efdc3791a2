import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { CrewOrderView } from "../../src/model/orders/order.ts";
import type { JobView, QueueView } from "../../src/model/orders/queue.ts";
import { at, example } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;
let crew: Client;
let base: string;
let address: string;

const stage = openStage(async () => {
  fair = await example(stage.running);
  base = at(fair);
  crew = stage.running.anyone.withKey(fair.stalls[0]?.key ?? "");
  address = `${stage.running.url}/at/${fair.fair}/${fair.stalls[0]?.stall}`;
});

/** Taps a choice and waits for the stall's answer to it. */
async function tap(page: Page, label: string): Promise<void> {
  const answers = await page.locator(".line.stall").count();
  await page.locator(".choice", { hasText: label }).first().click();
  await expect.poll(() => page.locator(".line.stall").count()).toBe(answers + 1);
}

async function type(page: Page, text: string): Promise<void> {
  await page.locator("#text").fill(text);
  await page.locator("#text").press("Enter");
}

/** Says something and waits for the stall's answer to it. */
async function send(page: Page, text: string): Promise<void> {
  const answers = await page.locator(".line.stall").count();
  await type(page, text);
  await expect.poll(() => page.locator(".line.stall").count()).toBe(answers + 1);
}

/** Makes the page poll once, and waits until the result is drawn. */
async function looked(page: Page): Promise<void> {
  const answered = page.waitForResponse((response) => response.url().includes("/chat?after="));
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
  await (await answered).finished();
  await page.evaluate(
    () => new Promise<void>((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => drawn()))),
  );
}

/** The answered steps as shown, each with the customer's answer; none may take more than one line. */
const steps = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const seen = (part: Element | null | undefined): string =>
      [...(part?.childNodes ?? [])]
        .filter((node) => !(node instanceof Element) || node.checkVisibility())
        .map((node) => node.textContent)
        .join("");
    return [...document.querySelectorAll(".line.asks:not(.open)")].map((line) => {
      const answer = line.nextElementSibling;
      const lower = (answer?.getBoundingClientRect().top ?? Number.NaN) - line.getBoundingClientRect().top;
      const said = `${seen(line.querySelector("p"))}|${seen(answer?.querySelector("p"))}`;
      return Math.abs(lower) < 4 ? said : `not in one line: ${said}`;
    });
  });

const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function pressOne(): Promise<void> {
  const { body } = await crew.post<{ job: JobView }>(`${base}/presses/A/pull`);
  await crew.post(`${base}/jobs/${body.job.job}/pressed`);
}

describe("the customer's page", () => {
  it("takes an order by taps, pins its standing, and shows when it is ready", async () => {
    const { page, faults } = await openPage(stage.browser, address);
    await page.locator(".choice").first().waitFor();
    await expect.poll(() => page.locator("h1").textContent()).toBe("Tern & Tide");
    await tap(page, "Longtail tee");
    await tap(page, "Navy");
    await tap(page, "2XL");
    await tap(page, "1");
    expect(await page.locator(".line.open p").first().textContent()).toContain("Order it?");
    expect(await page.locator("#ticket").isVisible()).toBe(false);
    await tap(page, "YES");

    const ticket = page.locator("#ticket");
    const number = Number(await ticket.locator(".number-big").textContent());
    const word = await ticket.locator(".word strong").textContent();
    const order = await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`);
    expect(await ticket.textContent()).toContain("Next in line");
    expect(await ticket.locator(".bill").textContent()).toBe("$24 + $1.74 tax = $25.74");
    expect(await ticket.locator("a").getAttribute("href")).toBe(new URL(`${address}/board`).pathname);
    // An answered step takes one line: the question, and the answer.
    expect(await steps(page)).toEqual([
      "Menu|Longtail tee $24",
      "Which color?|Navy",
      "Which size?|2XL",
      "How many?|1",
      expect.stringMatching(/^Longtail tee, Navy, 2XL: .*\|YES$/),
    ]);
    const queue = await crew.get<QueueView>(`${base}/queue`);
    expect(queue.body.next[0]).toMatchObject({ number, colour: "navy", size: "2XL" });
    expect(order.body.word).toBe(word);
    // An answer without a list ends the list: nothing is left to tap by mistake.
    expect(await page.locator(".choice").count()).toBe(0);

    await pressOne();
    await page.locator("#ticket.ready").waitFor();
    expect(await ticket.textContent()).toContain(`say the word ${word}`);
    expect(await page.locator("#ticket-news").textContent()).toContain("Ready");

    await page.setViewportSize({ width: 320, height: 640 });
    expect(await sidewaysScroll(page)).toBe(0);
    await page.reload();
    await page.locator("#ticket.ready").waitFor();
    expect(await page.locator(".line.stall").count()).toBe(6);
    expect(faults).toEqual([]);
  });

  it("takes an order back after it is sure, and says that the stall has paused", async () => {
    const { page, faults } = await openPage(stage.browser, address);
    await page.locator(".choice").first().waitFor();
    await send(page, "otter tee sand M");
    const yes = page.locator("#choices .main");
    expect((await yes.boundingBox())?.width).toBeGreaterThan(350);
    await yes.click();
    const ticket = page.locator("#ticket");
    await ticket.locator(".number-big").waitFor();
    await crew.post(`${base}/pause`, { reason: "rain" });
    await ticket.locator(".paused").waitFor();
    expect(await ticket.textContent()).toMatch(/about \d+ min once we start again/);
    await expectAccessible(page);
    await crew.post(`${base}/resume`);
    await expect.poll(() => ticket.locator(".paused").count()).toBe(0);

    const cancel = ticket.getByRole("button", { name: "Cancel order" });
    await cancel.focus();
    await page.keyboard.press("Enter");
    const keep = ticket.getByRole("button", { name: "Keep it" });
    expect(await keep.evaluate((element) => element === document.activeElement)).toBe(true);
    await expectAccessible(page);
    await keep.click();
    expect(await cancel.evaluate((element) => element === document.activeElement)).toBe(true);
    await cancel.click();
    await ticket.getByRole("button", { name: "Yes, cancel" }).click();
    await page.locator("#ticket.over").waitFor();
    expect(await ticket.textContent()).toContain("Canceled");
    expect(await ticket.locator("button").count()).toBe(0);
    expect(faults).toEqual([]);
  });

  it("leaves two thirds of a small screen to the conversation, upright and on its side", async () => {
    for (const viewport of [
      { width: 320, height: 640 },
      { width: 740, height: 360 },
    ]) {
      const { page, close } = await openPage(stage.browser, address, { viewport, locale: "es-MX" });
      await page.locator(".choice").first().waitFor();
      const box = await page.locator("footer").boundingBox();
      expect(box?.height).toBeLessThan(viewport.height / 3);
      const rows = new Set(
        await page
          .locator("footer :is(input, button):visible")
          .evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().bottom / 8))),
      );
      expect(rows.size).toBeLessThanOrEqual(2);
      expect(await sidewaysScroll(page)).toBe(0);
      await close();
    }
  });

  it("keeps what was said without a network, over a reload, and says it once", async () => {
    const { page } = await openPage(stage.browser, address);
    await page.locator(".choice").first().waitFor();
    const context = page.context();
    await context.route("**/v1/**", (route) => route.abort());
    await type(page, "1 sand M");
    await type(page, "yes");
    await page.locator("#unsent").waitFor();
    expect(await page.locator(".state").allTextContents()).toEqual(["not sent yet", "not sent yet"]);
    await page.reload();
    await expect.poll(() => page.locator(".state").count()).toBe(2);

    // The stall hears both, the page hears no reply to them; then both are sent again.
    await context.unroute("**/v1/**");
    await context.route("**/v1/**/chat", async (route) => {
      await route.fetch();
      await route.abort();
    });
    const before = (await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting;
    const tryAgain = page.locator("#again");
    const sent = page.waitForEvent("requestfailed", (request) => request.url().endsWith("/chat"));
    await tryAgain.click();
    await sent;
    await context.unroute("**/v1/**/chat");
    await tryAgain.click();
    await page.locator("#ticket .number-big").waitFor();
    await expect.poll(() => page.locator(".state").count()).toBe(0);
    expect((await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting).toBe(before + 1);
    expect(await page.locator(".line.customer p").allTextContents()).toEqual(["menu", "1 sand M", "yes"]);
  });

  it("keeps the reader's place, the focus and the buttons while it looks for news", async () => {
    const { page } = await openPage(stage.browser, address, { viewport: { width: 360, height: 560 } });
    await page.locator(".choice").first().waitFor();
    for (const text of ["help", "1 navy M", "add", "1 sand L"]) await send(page, text);
    await tap(page, "YES");
    await send(page, "menu");
    const end = () =>
      page.evaluate(
        () => document.documentElement.scrollHeight - window.innerHeight - Math.round(window.scrollY),
      );
    // A question that is taller than the window is shown from its beginning.
    const belowHeader = () =>
      page.evaluate(() => {
        const edge = (selector: string) => document.querySelector(selector)?.getBoundingClientRect();
        return (edge(".line.open")?.top ?? 0) - (edge("header")?.bottom ?? 0);
      });
    await expect.poll(belowHeader).toBeGreaterThanOrEqual(0);
    await expect.poll(belowHeader).toBeLessThan(40);

    // Reading further up, with a choice focused by key.
    await page.locator(".choice").nth(1).focus();
    // The position of the line being read in the window: a tag that grows at the top does not move it.
    const place = () =>
      page.evaluate(() => {
        const read = document.querySelectorAll(".line")[3]?.getBoundingClientRect();
        return read?.top ?? Number.NaN;
      });
    await page.evaluate(() => window.scrollTo({ top: 40 }));
    const first = await place();
    // A window scrolls by whole pixels, but a line's position may be fractional.
    const isAt = async (wanted: number) => Math.abs((await place()) - wanted) < 1;
    const button = await page.locator(".choice").nth(1).elementHandle();
    await looked(page);
    await looked(page);
    expect(await isAt(first)).toBe(true);
    expect(await page.evaluate((kept) => document.activeElement === kept, button)).toBe(true);

    // News that comes while somebody types further up moves nothing either.
    await page.locator("#text").focus();
    await page.locator("#text").pressSequentially("1 na");
    await page.evaluate(() => window.scrollTo({ top: 40 }));
    const second = await place();
    const lines = await page.locator(".line.stall").count();
    while ((await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting > 0) await pressOne();
    await page.locator("#ticket.ready").waitFor();
    await expect.poll(() => page.locator(".line.stall").count()).toBe(lines + 1);
    await looked(page);
    expect(await isAt(second)).toBe(true);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("text");
    expect(await page.locator("#text").inputValue()).toBe("1 na");

    // A customer's own message is shown, wherever they were reading.
    await page.locator("#text").fill("status");
    await page.locator("#text").press("Enter");
    await expect.poll(end).toBeLessThanOrEqual(1);
  });

  it("speaks Spanish to a browser that does", async () => {
    const { page } = await openPage(stage.browser, address, { locale: "es-MX" });
    await page.locator(".choice").first().waitFor();
    expect(await page.locator("html").getAttribute("lang")).toBe("es");
    expect(await page.locator("#say button").textContent()).toBe("Enviar");
    await page.locator("#shortcuts button", { hasText: "Ayuda" }).click();
    await expect.poll(() => page.locator(".line.stall").last().textContent()).toContain("ANULAR");
    await expectAccessible(page);
  });

  it("says that a stall is not set up yet, in the browser's language, and so does the board", async () => {
    const added = await stage.running.owner
      .withKey(fair.key)
      .put(`/v1/fairs/${fair.fair}/stalls/knot`, { name: "Knot Yet" });
    expect(added.status).toBe(200);
    const knot = `${stage.running.url}/at/${fair.fair}/knot`;
    const told = async (url: string, locale: string) => {
      const { page, close } = await openPage(stage.browser, url, { locale });
      await page.locator("#trouble:not([hidden])").waitFor();
      const text = await page.locator("#trouble").textContent();
      await expectAccessible(page);
      await close();
      return text;
    };
    const english = "This stall isn’t set up yet. Come back in a little while.";
    expect(await told(knot, "en-US")).toBe(english);
    expect(await told(knot, "es-MX")).toBe("Este puesto aún no está listo. Vuelve en un rato.");
    expect(await told(`${knot}/board`, "en-US")).toBe(english);
  });

  it("has a page for people who lost their way", async () => {
    for (const path of ["/", `/at/${fair.fair}`, "/somewhere"]) {
      const { page, close } = await openPage(stage.browser, stage.running.url + path, { locale: "es-MX" });
      await page.locator("h1").waitFor();
      await expectAccessible(page);
      await close();
    }
  });

  it("says what is wrong if there is no such stall", async () => {
    const { page } = await openPage(stage.browser, `${stage.running.url}/at/${fair.fair}/nobody`);
    await page.locator("#trouble:not([hidden])").waitFor();
    expect(await page.locator("#trouble").textContent()).toContain("no stall");
    await expectAccessible(page);
  });
});

describe("a worker that is given no handset", () => {
  it("has no pretend phones", async () => {
    expect((await stage.running.anyone.get("/phones")).status).toBe(404);
    expect((await stage.running.anyone.post("/phones/texts")).status).toBe(404);
  });
});
