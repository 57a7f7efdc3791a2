import type { Browser } from "playwright-core";
import { expect, it } from "vitest";
import { at, example, type Running } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

let running: Running;
let browser: Browser;

openStage((stage) => {
  ({ running, browser } = stage);
});

it("keeps the old link working for 15 minutes unless told otherwise, and asks before it stops a tablet", async () => {
  const fair = await example(running);
  const old = running.anyone.withKey(fair.stalls[0]?.key ?? "");
  const { page, faults } = await openPage(browser, `${running.url}/fair/${fair.fair}#key=${fair.key}`);
  await page.goto(`${running.url}/fair/${fair.fair}/keys`);
  const make = page.getByRole("button", { name: "New crew key for Tern & Tide" });
  await make.click();
  await page.getByText("The old key still works for 15 minutes.").waitFor();
  expect((await old.get(`${at(fair)}/queue`)).status).toBe(200);

  const asked: string[] = [];
  let answer = false;
  page.on("dialog", (dialog) => {
    asked.push(dialog.message());
    void (answer ? dialog.accept() : dialog.dismiss());
  });
  await page.locator("#overlap").selectOption("0");
  await make.click();
  expect(asked).toEqual([expect.stringContaining("Stop the old key at once?")]);
  await expectAccessible(page);
  answer = true;
  await make.click();
  await page.getByText("The old key has stopped.").waitFor();
  expect((await old.get(`${at(fair)}/queue`)).status).toBe(403);
  expect(faults).toEqual([]);
});
