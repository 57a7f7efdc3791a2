import { describe, expect, it } from "vitest";
import type { LoadedFair } from "../../src/local/example.ts";
import { example } from "../http/running.ts";
import { type Opened, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let fair: LoadedFair;

const stage = openStage(async () => {
  fair = await example(stage.running);
});

/** Each screen has its own storage, since each is on its own device. */
const open = (path: string, width: number): Promise<Opened> =>
  openPage(stage.browser, stage.running.url + path, { viewport: { width, height: 900 } });

describe("one garment, from the customer's thumb to the organiser's figures", () => {
  it("shows on every screen what happened on the others", async () => {
    const place = `${fair.fair}/tern`;
    const key = `#key=${fair.stalls[0]?.key}`;
    const customer = await open(`/at/${place}`, 390);
    const press = await open(`/crew/${place}${key}`, 1024);
    const board = await open(`/at/${place}/board`, 1280);
    const counter = await open(`/crew/${place}/counter${key}`, 1024);
    const organiser = await open(`/fair/${fair.fair}#key=${fair.key}`, 1280);

    await customer.page.locator(".choice").first().waitFor();
    await customer.page.locator("#text").fill("1 navy L");
    await customer.page.locator("#text").press("Enter");
    await customer.page.locator(".choice", { hasText: "YES" }).click();
    const number = (await customer.page.locator("#ticket .number-big").textContent()) ?? "";
    const word = (await customer.page.locator("#ticket .word strong").textContent()) ?? "";
    await board.page.locator("#waiting li", { hasText: number }).waitFor();

    await press.page.getByRole("button", { name: "Press A, flat platen" }).click();
    await press.page.getByRole("button", { name: "Pull next garment", exact: true }).click();
    await press.page
      .getByRole("region", { name: "On this press" })
      .getByText(number, { exact: true })
      .waitFor();
    await board.page.locator("#making li", { hasText: number }).waitFor();
    await press.page.getByRole("button", { name: "Pressed", exact: true }).click();

    await customer.page.locator("#ticket.ready").waitFor();
    await board.page.locator("#ready li", { hasText: number }).waitFor();
    expect(await board.page.locator("body").textContent()).not.toContain(word);

    await counter.page.getByRole("button", { name: "Orders", exact: true }).click();
    await counter.page.getByLabel("Find an order").fill(number);
    await counter.page.keyboard.press("Enter");
    await counter.page.getByRole("button", { name: "Paid: Card", exact: true }).click();
    await counter.page.getByRole("button", { name: `They said “${word}”: hand over` }).click();
    await counter.page.getByText("handed over").first().waitFor();
    await board.page.locator("#board li", { hasText: number }).waitFor({ state: "detached" });

    const total = (term: string) =>
      organiser.page.locator("#total div", { hasText: term }).locator("dd").textContent();
    await expect.poll(() => total("garments pressed")).toBe("1");
    await expect.poll(() => total("still to press")).toBe("0");
    for (const { faults } of [customer, press, board, counter, organiser]) expect(faults).toEqual([]);
  });
});
