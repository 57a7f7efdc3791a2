/** The reserve of a press on the screens of two presses: signal cut for a while, wanted back, and let go after silence. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { expectAccessible, openPage, tap } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const line = (garments: number) => Array.from({ length: garments }, () => [NAVY_L]);
const openTab = (page: Page, name: string): Promise<void> => page.getByRole("tab", { name }).click();
const tag = (page: Page) => page.getByRole("region", { name: "On this press" });
const offline = (page: Page, off: boolean): Promise<void> => page.context().setOffline(off);
const pressOf = async (stall: CrewStall, press: string) =>
  (await stall.queue()).presses.find((one) => one.press === press);

async function standAt(stall: CrewStall, press: string, reserved: number) {
  const opened = await openPage(stage.browser, stall.link(""));
  await tap(opened.page, `Press ${press}, flat platen`);
  await expect.poll(async () => (await pressOf(stall, press))?.reserve.length).toBe(reserved);
  await openTab(opened.page, "Presses");
  await opened.page.getByText(`${reserved} reserved for this press.`).waitFor();
  return opened;
}

/** Pulls and presses the next garment, and gives its number. */
async function pressNext(stall: CrewStall, page: Page, press: string): Promise<number> {
  await tap(page, "Pull next garment");
  await page.getByRole("button", { name: "Pressed", exact: true }).waitFor();
  const number = (await pressOf(stall, press))?.job?.number ?? 0;
  await tap(page, "Pressed");
  await expect.poll(async () => (await stall.queue()).ready).toContain(number);
  return number;
}

/** Changes what the pages of a browser read of the queue. */
async function readAs(page: Page, change: (queue: QueueView) => void): Promise<void> {
  await page.route("**/queue?press=*", async (route) => {
    const response = await route.fetch({ headers: { ...route.request().headers(), "if-none-match": "" } });
    const queue = (await response.json()) as QueueView;
    change(queue);
    await route.fulfill({ response, json: queue });
  });
}

describe("two presses, one of them without signal for a while", () => {
  it("press every garment once: the other press gets reserved ones only with the tablet's answer", async () => {
    const stall = await crewStall(stage.running, line(6));
    const a = await standAt(stall, "A", 3);
    const b = await standAt(stall, "B", 1);
    await offline(a.page, true);
    await a.page.getByText("No signal · 0 taps saved · 3 reserved").waitFor();
    await tap(a.page, "Take 101-1, reserved");
    await tag(a.page).getByText("101", { exact: true }).waitFor();
    await tap(a.page, "Pressed");
    await a.page.getByText("No signal · 2 taps saved · 2 reserved").waitFor();
    await expectAccessible(a.page);

    const atB: number[] = [];
    for (let n = 0; n < 3; n++) atB.push(await pressNext(stall, b.page, "B"));
    expect(atB).toEqual([104, 105, 106]);
    // B would be idle: A is asked, and does not answer without signal.
    await tap(b.page, "Pull next garment");
    await b.page
      .getByText("Nothing free for this press now. Press A was asked for some of its reserve.")
      .waitFor();
    expect(await pressOf(stall, "A")).toMatchObject({ askedBack: ["102-1", "103-1"] });
    await tap(b.page, "Pull next garment");
    expect((await pressOf(stall, "B"))?.job).toBeNull();

    // A works on; back with signal, it gives back what it has not taken.
    await tap(a.page, "Take 102-1, reserved");
    await tag(a.page).getByText("102", { exact: true }).waitFor();
    await offline(a.page, false);
    await a.page.getByText("Given back, as asked: 103-1.").waitFor();
    expect(await pressNext(stall, b.page, "B")).toBe(103);
    await tap(a.page, "Pressed");
    await expect
      .poll(async () => [...(await stall.queue()).ready].sort())
      .toEqual([101, 102, 103, 104, 105, 106]);
    expect(await a.page.locator("#news").isVisible()).toBe(false);
    expect([...a.faults, ...b.faults]).toEqual([]);
  });

  it("ask for a whole reserve by a tap, and give all back when the press is left", async () => {
    const stall = await crewStall(stage.running, line(6));
    const a = await standAt(stall, "A", 3);
    const b = await standAt(stall, "B", 1);
    await tap(b.page, "Ask press A for its reserve");
    await a.page.getByText("Given back, as asked: 101-1, 102-1, 103-1.").waitFor();
    await tap(a.page, "Leave press A");
    await expect.poll(async () => await pressOf(stall, "A")).toMatchObject({ reserves: false, reserve: [] });
    expect([...a.faults, ...b.faults]).toEqual([]);
  });
});

describe("a press that was silent for too long", () => {
  it("takes nothing from its reserve any more, by its own clock", async () => {
    const stall = await crewStall(stage.running, line(6));
    const { page, faults } = await openPage(stage.browser, "about:blank");
    await page.clock.install();
    await page.goto(stall.link(""));
    await tap(page, "Press A, flat platen");
    await openTab(page, "Presses");
    await page.getByText("3 reserved for this press.").waitFor();
    await offline(page, true);
    await page.getByRole("button", { name: "Take 101-1, reserved" }).waitFor();
    await page.clock.fastForward("21:00");
    const button = page.getByRole("button", { name: "No signal for 20 minutes. The reserve has ended" });
    await button.waitFor();
    expect(await button.isDisabled()).toBe(true);
    await page.getByText("No signal · 0 taps saved · reserve ended").waitFor();
    expect(faults).toEqual([]);
  });

  it("shows where its garments went until somebody has read it", async () => {
    const stall = await crewStall(stage.running, line(6));
    const { page, faults } = await standAt(stall, "A", 3);
    const at = "2027-06-12T14:00:00Z";
    const answered = page.waitForRequest(
      (request) => request.method() === "POST" && request.url().endsWith("/presses/A/reserve"),
    );
    await readAs(page, ({ presses }) => {
      const own = presses.find(({ press }) => press === "A");
      if (own === undefined) return;
      const [one, two] = own.reserve.map(({ job }) => job);
      if (one === undefined || two === undefined) return;
      own.reserve = [];
      own.letGo = {
        at,
        silentSince: at,
        jobs: [
          { job: one, stage: "pressing", press: "B" as typeof own.press },
          { job: two, stage: "waiting", press: null },
        ],
      };
    });
    await page.getByText("Press A was silent for 20 minutes, so its reserve was let go.").waitFor();
    const news = page.locator("#news-list li span");
    expect(await news.allTextContents()).toEqual([
      "Press A was silent for 20 minutes, so its reserve was let go. At press B now: 101-1. Back in the queue: 102-1. Don’t press these here unless you pull them again.",
    ]);
    expect((await answered).postDataJSON()).toEqual({ on: true });
    await expectAccessible(page);
    await page.getByRole("button", { name: "Got it" }).click();
    await expect.poll(() => news.count()).toBe(0);
    expect(faults).toEqual([]);
  });

  it("is named on the tag of each of its garments, to be looked at first", async () => {
    const stall = await crewStall(stage.running, line(2));
    const { page, faults } = await openPage(stage.browser, stall.link(""));
    await readAs(page, ({ presses }) => {
      for (const { press, job } of presses)
        if (press === "B" && job !== null)
          job.letGo = [{ press: "A" as typeof press, silentSince: job.since }];
    });
    await tap(page, "Press B, flat platen");
    await tap(page, "Pull next garment");
    await tag(page).getByText("Look at press A first.").waitFor();
    await expectAccessible(page);
    expect(faults).toEqual([]);
  });
});
