import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import type { Closeout } from "../../src/model/accounts/closeout.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { example as exampleFair } from "../http/running.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const plan = JSON.parse(readFileSync(new URL("../../examples/plan.json", import.meta.url), "utf8"));
const small = {
  ...plan,
  scenarios: 100,
  blanks: [
    {
      ...plan.blanks[0],
      colours: [{ id: "navy", share: 1 }],
      sizes: [
        { id: "M", share: 1 },
        { id: "L", share: 1 },
      ],
    },
  ],
  skus: [],
  designs: plan.designs.slice(0, 1),
  offers: [{ id: "longtail-tee", blank: "tee", design: "longtail", price: "$26", share: 1 }],
  presses: [{ platen: "flat", count: 1, garmentsPerHour: 42 }],
};

it("goes from a plan to a stall, its day, its close-out and the next plan, which has learnt", async () => {
  const { fair, key } = await exampleFair(stage.running);
  const at = `/v1/fairs/${fair}/stalls/knot`;
  const made = await stage.running.anyone.withKey(key).put<{ key: string }>(at, { name: "Knot" });
  const crew = stage.running.anyone.withKey(made.body.key);
  const { page, faults, close } = await openPage(stage.browser, `${stage.running.url}/plan#answer`);
  await page.locator("#load").setInputFiles({
    name: "small.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(small)),
  });
  await page.locator("#plan-note", { hasText: "small.json" }).waitFor();
  await page.locator("#plan-standing", { hasText: "Up to date" }).waitFor();
  expect(await page.locator("#fill").textContent()).toContain("the link that you were given");
  await page.evaluate(
    ([place, kept]) => localStorage.setItem(`key crew ${place}`, kept ?? ""),
    [`${fair}/knot`, made.body.key],
  );
  await page.reload();
  await page.getByRole("button", { name: "Use this plan at the stall" }).click();
  await page.locator("#fill .verdict", { hasText: "Done: knot opens with" }).waitFor();
  const brought = await page.locator("#bring table .stock strong").allTextContents();
  const opening = await crew.get<StockView>(`${at}/stock`);
  expect(opening.body.skus.map(({ onHand }) => String(onHand))).toEqual(brought);

  // A day on which everybody wants L.
  const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 2 }];
  for (let order = 0; order < 6; order++) {
    const { status, body } = await crew.post<PlacedOrder>(`${at}/orders`, { lines });
    expect(status).toBe(201);
    await crew.post(`${at}/orders/${body.number}/paid`, { tender: "cash" });
  }
  const day = (await crew.get<Closeout>(`${at}/closeout`)).body.day;
  await crew.post(`${at}/closeout/crowd`, { day, crowd: { passersBy: 300, uncertainty: 0.2 } });

  await page.goto(`${stage.running.url}/crew/${fair}/knot/day`);
  await page.locator("#so-far .verdict").waitFor();
  expect(await page.locator(".figures-row").textContent()).toContain("12");
  await expectAccessible(page);
  await page.goto(`${stage.running.url}/crew/${fair}/knot/closeout`);
  // The plan's costs count without a field typed, and the plan is shown beside the day.
  const planned = page.locator("#planned");
  await planned.locator("table").waitFor();
  expect(await page.locator("#costs-from").textContent()).toContain("From your plan, and already counted");
  expect(await page.locator('[id="fee 0"]').inputValue()).toBe("240.00");
  expect(await page.getByLabel("Adult tee, each", { exact: true }).inputValue()).toBe("4.10");
  const row = (name: string) => planned.locator("tr", { hasText: name });
  expect(await row("Profit").textContent()).toMatch(/\d$/);
  expect(await row("Garments sold").textContent()).toMatch(/12$/);
  expect(await row("L").last().textContent()).toMatch(/^L\d+12$/);
  await expectAccessible(page);

  await page.getByRole("link", { name: "Plan the next fair" }).click();
  await page.locator("#plan-note", { hasText: "lessons are in" }).waitFor();
  await page.locator("#taught td").first().waitFor();
  const large = page.locator("#taught tr", { hasText: "Adult tee, L" });
  // Sixty guesses of a half each, and twelve asks for L at one fair, which are worth ten.
  expect(await large.locator("td").allTextContents()).toEqual(["50.0 %", "57.1 %", "12"]);
  expect(await page.locator("#taught-sizes").isChecked()).toBe(true);
  const effect = page.locator("#taught-sizes-effect");
  await effect.getByText(/^It changes: .* blanks .*profit expected/).waitFor();
  await page.locator("#taught-sizes").uncheck();
  await large.waitFor({ state: "detached" });
  await page.locator("#taught-sizes").check();
  await large.waitFor();
  const kept = await page.evaluate(() =>
    JSON.parse(localStorage.getItem(`planned day ${localStorage.getItem("plan open")}`) ?? ""),
  );
  expect(kept.plan.name).toBe(`After ${plan.name}`);
  expect(kept.plan.lessons).toHaveLength(1);
  const left = (await crew.get<Closeout>(`${at}/closeout`)).body.skus.find(({ sku }) => sku === "tee.navy.M");
  expect(kept.plan.skus.find(({ sku }: { sku: string }) => sku === "tee.navy.M").owned).toBe(left?.left);
  await expectAccessible(page);

  // Once its day is closed, the fair is among the others.
  expect((await crew.post(`${at}/closeout/close`, { day })).status).toBe(200);
  await page.goto(`${stage.running.url}/fairs`);
  await page.locator("#fairs table", { hasText: "Every closed day" }).waitFor();
  expect(await page.locator("#fairs tr", { hasText: "Knot" }).textContent()).toContain("$");
  expect(await page.locator("#fairs tr", { hasText: "Longtail" }).first().textContent()).toMatch(/12$/);
  await expectAccessible(page);
  expect(faults).toEqual([]);
  await close();
}, 120_000);
