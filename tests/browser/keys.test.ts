import { expect, it } from "vitest";
import { at, example } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

it("keeps the old link working for 15 minutes unless told otherwise, and asks before it stops a tablet", async () => {
  const fair = await example(stage.running);
  const old = stage.running.anyone.withKey(fair.stalls[0]?.key ?? "");
  const { page, faults } = await openPage(
    stage.browser,
    `${stage.running.url}/fair/${fair.fair}#key=${fair.key}`,
  );
  await page.goto(`${stage.running.url}/fair/${fair.fair}/keys`);
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

  // A link for a press is made without ending any, and opens the press page alone.
  await page.getByRole("button", { name: "Press link for Tern & Tide" }).click();
  await page.getByText("It cannot refund, discount, change prices or close.").waitFor();
  await expectAccessible(page);
  const link = (await page.getByRole("link", { name: "Open here" }).getAttribute("href")) ?? "";
  const press = await openPage(stage.browser, link);
  await press.page.getByRole("button", { name: "Press A, flat platen" }).click();
  await press.page.getByRole("tab", { name: "Presses" }).waitFor();
  expect(await press.page.getByRole("tab", { name: "Shift" }).count()).toBe(0);
  expect(await press.page.getByRole("button", { name: "Pause…" }).isVisible()).toBe(false);
  await press.page.getByText("Menu", { exact: true }).click();
  const shown = press.page.locator('nav a[href^="/crew/"]:visible');
  expect(await shown.allTextContents()).toEqual(["Press", "Count"]);
  await expectAccessible(press.page);
  // Every other page of the crew says so, and shows nothing else.
  for (const other of ["counter", "closeout", "setup", "passers-by", "prints"]) {
    await press.page.goto(link.replace(/#.*$/, `/${other}`));
    await press.page.getByText("This tablet has a link for a press.").waitFor();
    expect(await press.page.getByRole("main").getByRole("button").count(), other).toBe(0);
    expect(await press.page.getByText("connecting…").isVisible(), other).toBe(false);
  }
  expect([...faults, ...press.faults]).toEqual([]);

  // The fair's gateway, from its own example: a field is tapped, what is missing is said, then it is saved.
  await page.getByRole("link", { name: "Text gateway" }).click();
  await page.getByText("Read from the example").waitFor();
  await page.locator("#sample").fill('{"note":"n-7","writer":"+12125550100","line":"menu"}');
  await page.getByRole("button", { name: /^.writer/ }).click();
  await page.getByRole("button", { name: /^.line/ }).click();
  await page.locator("#save").click();
  await page.locator("section .fault", { hasText: "Message’s id: tap the field that holds it." }).waitFor();
  await page.getByRole("button", { name: /^.note/ }).click();
  await page.getByText("Read from the example: +12125550100 wrote “menu”.").waitFor();
  await page.locator("#url").fill("http://texts.example/out");
  await page.locator("#numbers").fill("+12125550199");
  await page.locator("#save").click();
  await page.locator("section .fault", { hasText: "The address: must be https" }).waitFor();
  await expectAccessible(page);
  await page.locator("#url").fill("https://texts.example/out");
  await page.locator("#save").click();
  await page.getByText("Saved. Every stall uses it.").waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await page.getByLabel("Your own telephone number").fill("+1 (212) 555-0100");
  await page.getByRole("button", { name: "Send me a text" }).click();
  await expect
    .poll(() => page.locator("#tried").textContent())
    .toMatch(/^A text goes only to a number that has texted/);
});
