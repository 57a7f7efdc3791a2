import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { LoadedFair } from "../../src/local/example.ts";
import type { JobView } from "../../src/model/orders/queue.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { at, example, GATEWAY_SECRET, PHONES_KEY, startWithPhones } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;

const stage = openStage(
  async () => {
    fair = await example(stage.running, "brackenfield");
    // Nobody undoes a tap here, so a ready text need not wait for it.
    const menu = JSON.parse(
      await readFile(new URL("../../examples/tern/menu.json", import.meta.url), "utf8"),
    );
    const crew = stage.running.anyone.withKey(fair.stalls[0]?.key ?? "");
    await crew.put(`${at(fair)}/menu`, { ...menu, rules: { ...menu.rules, readyTextSeconds: 0 } });
  },
  { worker: () => startWithPhones("brackenfield") },
);

const phone = (page: Page, index: number) => page.locator("section.phone").nth(index);

async function text(page: Page, index: number, said: string): Promise<void> {
  await phone(page, index).locator("input").fill(said);
  await phone(page, index).locator("input").press("Enter");
}
const arrived = (page: Page, index: number) => phone(page, index).locator(".arrived .text");

describe("the pretend phones", () => {
  it("carry an order by text from the first word to ready, each on its own number", async () => {
    const { page, faults } = await openPage(stage.browser, `${stage.running.url}/phones#key=${PHONES_KEY}`, {
      viewport: { width: 1024, height: 768 },
    });
    await expect.poll(() => page.locator("#fair").inputValue()).toBe("brackenfield");
    await expectAccessible(page);
    await page.locator("#another").click();
    await text(page, 0, "tern 1 navy L");
    await expect.poll(() => arrived(page, 0).last().textContent()).toContain("1 YES");
    expect(await phone(page, 0).locator(".arrived .size").last().textContent()).toBe("1 message, GSM-7");
    expect(await arrived(page, 1).count()).toBe(0);
    await text(page, 0, "yes");
    await expect.poll(() => arrived(page, 0).last().textContent()).toMatch(/Order \d+, pickup word/);

    const crew = stage.running.anyone.withKey(fair.stalls[0]?.key ?? "");
    const { body } = await crew.post<{ job: JobView }>(`${at(fair)}/presses/A/pull`);
    await crew.post(`${at(fair)}/jobs/${body.job.job}/pressed`);
    await expect.poll(() => arrived(page, 0).last().textContent()).toContain("is ready");
    expect(await phone(page, 0).locator(".typed .text").allTextContents()).toEqual(["tern 1 navy L", "yes"]);
    await expectAccessible(page);
    await page.setViewportSize({ width: 320, height: 640 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    expect(faults).toEqual([]);
  });

  it("open to nobody without the key of the printed link", async () => {
    const { page, close } = await openPage(stage.browser, `${stage.running.url}/phones`);
    await page.locator("#key-needed:not([hidden])").waitFor();
    await close();
    const said = { id: "abcdefgh", from: "+12125550177", fair: "brackenfield", text: "menu" };
    for (const other of [
      stage.running.anyone,
      stage.running.anyone.withKey("a-guess"),
      stage.running.owner,
    ]) {
      expect((await other.get("/phones/messages?of=%2B12125550100")).status).toBe(401);
      expect((await other.post("/phones/texts", said)).status).toBe(401);
    }
  });

  it("say why a text was not taken and keep it to be sent again", async () => {
    const { page } = await openPage(stage.browser, `${stage.running.url}/phones#key=${PHONES_KEY}`);
    await page.locator("#fair").fill("nowhere");
    await text(page, 0, "hello");
    await phone(page, 0).locator(".notice:not([hidden])").waitFor();
    expect(await phone(page, 0).locator(".notice").textContent()).toContain('no fair "nowhere"');
    expect(await phone(page, 0).locator("input").inputValue()).toBe("hello");
    await page.locator("#fair").fill("brackenfield");
    await phone(page, 0).locator("input").press("Enter");
    await expect.poll(() => phone(page, 0).locator("input").inputValue()).toBe("");
    expect(await phone(page, 0).locator(".typed .text", { hasText: "hello" }).count()).toBe(1);
  });

  it("take nothing in that is not signed, and show a repeated text once", async () => {
    const said = { id: "out-1", from: "+12125550199", to: "+12125550177", text: "Ünï ✓" };
    const body = JSON.stringify(said);
    const deliver = async (signature: string) =>
      (
        await fetch(`${stage.running.url}/phones/outbound`, {
          method: "POST",
          body,
          headers: { [SIGNATURE_HEADER]: signature },
        })
      ).status;
    expect(await deliver(`sha256=${"0".repeat(64)}`)).toBe(401);
    const good = await sign(GATEWAY_SECRET, body);
    expect([await deliver(good), await deliver(good)]).toEqual([200, 200]);
    const held = await stage.running.anyone
      .withKey(PHONES_KEY)
      .get<{ phones: { messages: object[] }[] }>(`/phones/messages?of=${encodeURIComponent(said.to)}`);
    expect(held.body.phones[0]?.messages).toMatchObject([
      { id: "out-1", text: said.text, parts: 1, alphabet: "UCS-2" },
    ]);
    const stranger = { id: "abcdefgh", from: "+447700900123", fair: "brackenfield", text: "hi" };
    expect((await stage.running.anyone.withKey(PHONES_KEY).post("/phones/texts", stranger)).status).toBe(422);
  });
});
