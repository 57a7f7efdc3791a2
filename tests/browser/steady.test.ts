/** Polling pages do not disturb the person at work: focus, half-typed words, open parts, scrolling. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openPage, tap } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L, OTTER_M } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const focused = (page: Page): Promise<string | null> =>
  page.evaluate(
    () => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.textContent ?? null,
  );
const order = async ({ crew, base }: CrewStall): Promise<number> =>
  (await crew.post<{ number: number }>(`${base}/orders`, { lines: [OTTER_M] })).body.number;

describe("while orders come in", () => {
  it("the counter keeps what is half typed, where the keyboard is, and what is open", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page, faults } = await openPage(stage.browser, stall.link("/counter"));
    await page.getByLabel("Longtail tee $24.00").check();
    await page.getByText("Paper order").click();
    const name = page.getByLabel("Name or initials (optional)");
    await name.focus();
    await page.keyboard.type("Zo");
    const top = await page.evaluate(() => scrollY);
    const read = page.waitForResponse((response) => response.url().endsWith("/stock"));
    await order(stall);
    await read;
    await page.locator("button", { hasText: /^All 2$/ }).waitFor({ state: "attached" });
    await page.keyboard.type("ë");
    expect(await name.inputValue()).toBe("Zoë");
    expect(await page.getByLabel("Number on the slip").isVisible()).toBe(true);
    expect(await page.getByLabel("Longtail tee $24.00").isChecked()).toBe(true);
    expect(await page.evaluate(() => scrollY)).toBe(top);
    expect(faults).toEqual([]);
  });

  it("the press keeps the button under the thumb, the tab, and the open row of what sells out", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page, faults } = await openPage(stage.browser, stall.link(""), {
      viewport: { width: 1024, height: 768 },
    });
    await tap(page, "Press A, flat platen");
    await page.locator("#low summary").first().click();
    await tap(page, "Pull next garment");
    // The button keeps the focus as it turns from pulling to pressing.
    await page.getByRole("button", { name: "Pressed, next" }).waitFor();
    expect(await focused(page)).toBe("Pressed, next");
    await page.getByRole("button", { name: "Spoiled…" }).focus();
    const late = await order(stall);
    await page.locator("#up-next").getByText(`${late}-1`).waitFor();
    expect(await focused(page)).toBe("Spoiled…");
    expect(await page.locator("#low details[open]").count()).toBe(1);
    await page.keyboard.press("Enter");
    await page.getByRole("dialog").waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    expect(await focused(page)).toBe("Spoiled…");
    expect(faults).toEqual([]);
  });

  it("the close-out keeps what is typed of the costs while something else is kept", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page, faults } = await openPage(stage.browser, stall.link("/closeout"));
    await page.getByLabel("Tee, each").fill("4.1");
    await page.getByLabel("People who came past").fill("900");
    await tap(page, "Keep the number");
    await page.getByText("The number is kept.").waitFor();
    expect(await page.getByLabel("Tee, each").inputValue()).toBe("4.1");
    expect(faults).toEqual([]);
  });
});

it("fits at twice the size and begins with the way past the bar, on each page of the crew and the organiser", async () => {
  const stall = await crewStall(stage.running, [[NAVY_L]]);
  const home = stall.link("").replace(/#.*$/, "");
  const fair = home.split("/").at(-2);
  const { page } = await openPage(stage.browser, stall.link(""), { viewport: { width: 640, height: 400 } });
  const ready: Readonly<Record<string, string>> = {
    [`${home}/stock`]: "#tables",
    [`${home}/closeout`]: "#costs",
    [`${stage.running.url}/fair/${fair}#key=${stall.organiserKey}`]: "#stalls",
  };
  for (const [address, part] of Object.entries(ready)) {
    await page.goto(address);
    await page.locator(part).waitFor();
    expect([address, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([
      address,
      640,
    ]);
    await page.keyboard.press("Tab");
    expect(await focused(page)).toBe("Skip to the page");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.closest("main") !== null)).toBe(true);
  }
});
