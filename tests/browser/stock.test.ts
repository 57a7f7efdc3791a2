/** Counting stock in a real browser. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const stockOf = (stall: CrewStall): string => stall.link("").replace("#", "/stock#");
const onHand = async ({ crew, base }: CrewStall): Promise<ReadonlyMap<string, number>> => {
  const { body } = await crew.get<StockView>(`${base}/stock`);
  return new Map([
    ...body.skus.map((one) => [one.sku as string, one.onHand] as const),
    ...body.transfers.map((one) => [one.design as string, one.onHand] as const),
  ]);
};
/** Pastes a range copied from a spreadsheet into a cell. */
const paste = (page: Page, label: string, text: string): Promise<void> =>
  page.getByLabel(label, { exact: true }).evaluate((field, given) => {
    const data = new DataTransfer();
    data.setData("text/plain", given);
    field.dispatchEvent(
      new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);

describe("the stock page", () => {
  it("takes a table of 6 by 8 copied from a spreadsheet, sizes down and colours across", async () => {
    const stall = await crewStall(stage.running);
    const { body: menu } = await stall.crew.get<Menu>(`${stall.base}/menu/whole`);
    const [tee, ...others] = menu.blanks;
    if (tee === undefined) throw new Error("the example has a tee");
    const more = ["Moss", "Rust", "Sky", "Plum", "Chalk"].map((name) => ({
      id: name.toLowerCase(),
      name,
      offered: true,
    }));
    const wide = { ...menu, blanks: [{ ...tee, colours: [...tee.colours, ...more] }, ...others] };
    expect((await stall.crew.put(`${stall.base}/menu`, wide)).status).toBe(200);
    const colours = [...tee.colours, ...more];
    const lines = tee.sizes.map(({ name }, row) =>
      [name, ...colours.map((_, column) => 10 * row + column)].join("\t"),
    );
    const { page, faults } = await openPage(stage.browser, stockOf(stall), {
      viewport: { width: 1280, height: 900 },
    });
    await paste(
      page,
      "Tee, Navy, S",
      [["", ...colours.map(({ name }) => name)].join("\t"), ...lines].join("\r\n"),
    );
    await page.getByText("48 counts were pasted.").waitFor();
    await page.getByText("48 counts typed, not saved yet.").waitFor();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Save the count" }).click();
    await page.getByText("Saved.").waitFor();
    const after = await onHand(stall);
    for (const [row, { id: size }] of tee.sizes.entries())
      for (const [column, { id: colour }] of colours.entries())
        expect(after.get(`tee.${colour}.${size}`)).toBe(10 * row + column);
    expect(faults).toEqual([]);
  });

  it("counts with the keyboard alone, names the order a low count would short, and keeps what was typed without a network", async () => {
    const stall = await crewStall(stage.running, [[{ ...NAVY_L, quantity: 2 }], [NAVY_L]]);
    const { page, faults } = await openPage(stage.browser, stockOf(stall), {
      viewport: { width: 320, height: 700 },
    });
    await page.getByLabel("Tee, Navy, M", { exact: true }).focus();
    const wrong = page.getByLabel("Tee, Navy, M", { exact: true });
    await page.keyboard.type("7x");
    await page.getByText("Fix the marked cells first.").waitFor();
    expect(await wrong.getAttribute("aria-invalid")).toBe("true");
    expect(await page.locator(`[id="${await wrong.getAttribute("aria-describedby")}"]`).textContent()).toBe(
      "“7x” isn’t a whole number.",
    );
    expect(await page.getByRole("button", { name: "Save the count" }).isDisabled()).toBe(true);
    await page.keyboard.press("Backspace");
    expect(await wrong.getAttribute("aria-invalid")).toBeNull();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.type("2");
    await page.getByText(`2 counted, 3 promised. order ${stall.numbers[1]} would fall short`).waitFor();
    await page.context().setOffline(true);
    await page.getByRole("button", { name: "Save anyway" }).click();
    await page.getByText("No connection, so it is not saved yet.").waitFor();
    await page.context().setOffline(false);
    await page.reload();
    await page.getByText("2 counts typed, not saved yet.").waitFor();
    expect(await page.getByLabel("Tee, Navy, L", { exact: true }).inputValue()).toBe("2");
    await expectAccessible(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    await page.getByRole("button", { name: "Save anyway" }).click();
    await page.getByText("Saved.").waitFor();
    const before = await onHand(stall);
    expect([before.get("tee.navy.M"), before.get("tee.navy.L")]).toEqual([7, 2]);
    expect((await stall.queue()).short.map(({ number }) => number)).toEqual([stall.numbers[1]]);
    await page.getByLabel("a delivery: pieces to add").check();
    await page.getByLabel("Otter transfers", { exact: true }).fill("5");
    await page.getByRole("button", { name: "Save the delivery" }).click();
    await page.getByText("Saved.").waitFor();
    expect((await onHand(stall)).get("otter")).toBe((before.get("otter") ?? 0) + 5);
    expect(faults).toEqual([]);
  });
});
