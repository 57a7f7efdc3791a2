/** Setting a stall up in a real browser: typing, the texts beside it, retiring, two people at once, no network. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { expectAccessible, openPage } from "./browser.ts";
import { type CrewStall, crewStall, NAVY_L } from "./crew-page.ts";
import { openStage } from "./stage.ts";

const stage = openStage();

const setupOf = (stall: CrewStall): string => stall.link("").replace("#", "/setup#");
const whole = async ({ crew, base }: CrewStall): Promise<Menu> =>
  (await crew.get<Menu>(`${base}/menu/whole`)).body;
const row = (page: Page, name: string) =>
  page.locator("details.entry", { has: page.locator(`summary b:text-is("${name}")`) });
const save = async (page: Page): Promise<void> => {
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
};

describe("the set-up page", () => {
  it("shows the texts as they are typed, and says beside a field what is wrong with it", async () => {
    const stall = await crewStall(stage.running);
    const { page, faults } = await openPage(stage.browser, setupOf(stall), {
      viewport: { width: 1280, height: 900 },
    });
    await page.locator("#texts").getByText("Longtail tee, $24. Which color?").waitFor();
    await page.getByText("6 replies, 6 messages to pay for.").waitFor();
    await row(page, "Longtail tee").locator("summary").click();
    await row(page, "Longtail tee").getByLabel("Name", { exact: true }).fill("Longtail tee with a ęagle on");
    await page.locator("#texts").getByText("Longtail tee with a eagle on").first().waitFor();
    await page.locator("#advice").getByText("ę").first().waitFor();
    const price = row(page, "Longtail tee with a ęagle on").getByLabel("Price USD");
    await price.fill("a lot");
    // Nothing is said while it is being typed.
    expect(await price.getAttribute("aria-invalid")).toBe(null);
    await price.press("Tab");
    expect(await price.getAttribute("aria-invalid")).toBe("true");
    await page.getByText("must be a price").first().waitFor();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("One thing is still to fix before").waitFor();
    await expectAccessible(page);
    await page.reload();
    await page.getByText("What was typed here before and not saved is still here.").waitFor();
    await row(page, "Longtail tee with a ęagle on").locator("summary").click();
    expect(await price.inputValue()).toBe("a lot");
    await price.fill("27.50");
    await page.getByRole("button", { name: "Gift", exact: true }).click();
    await row(page, "Gift").getByLabel("Costs more by USD").fill("2.50");
    await page.getByLabel("Add a bundle").fill("Any 2 caps");
    await page.keyboard.press("Enter");
    await page.keyboard.type("30");
    await row(page, "Any 2 caps").getByLabel("Otter tote").check();
    await save(page);
    expect(await whole(stall)).toMatchObject({
      bundles: [
        { name: "Any 2 caps", price: 3000, takes: [{ offers: ["tern-cap", "otter-tote"], quantity: 2 }] },
      ],
      wishes: [{ name: "Gift", surcharge: 250 }],
    });
    expect((await whole(stall)).offers[0]).toMatchObject({
      price: 2750,
      name: "Longtail tee with a ęagle on",
    });
    expect(faults).toEqual([]);
  });

  it("copies the menu of an earlier fair by its crew link, and says why if it cannot", async () => {
    const earlier = await crewStall(stage.running);
    const openings = [
      {
        opens: new Date(Date.now() - 3_600_000).toISOString(),
        closes: new Date(Date.now() + 3_600_000).toISOString(),
      },
    ];
    const fresh = { fair: "this-year", name: "This Year", timeZone: "UTC", openings };
    const { body: made } = await stage.running.owner.post<{ key: string }>("/v1/fairs", fresh);
    const organiser = stage.running.anyone.withKey(made.key);
    const path = "/v1/fairs/this-year/stalls/tern";
    const { body: added } = await organiser.put<{ key: string }>(path, { name: "Tern & Tide" });
    const address = `${stage.running.url}/crew/this-year/tern/setup#key=${added.key}`;
    const { page, faults } = await openPage(stage.browser, address);
    const link = page.getByLabel("Or copy the menu of an earlier fair: its crew link");
    await link.fill("somewhere else");
    await page.getByRole("button", { name: "Copy its menu" }).click();
    await page.getByText("That isn’t a crew link.").waitFor();
    await link.fill(`${earlier.link("").split("#")[0]}#key=crew.1.nobody`);
    await page.getByRole("button", { name: "Copy its menu" }).click();
    await page.getByText("It could not be read:").waitFor();
    await link.fill(earlier.link(""));
    await page.getByRole("button", { name: "Copy its menu" }).click();
    await row(page, "Longtail tee").waitFor();
    await save(page);
    const menu = await stage.running.anyone.withKey(added.key).get<Menu>(`${path}/menu/whole`);
    expect(menu.body).toEqual(await whole(earlier));
    expect(faults).toEqual([]);
  });

  it("takes a colour with an open order off sale instead of out, and the order is still pressed", async () => {
    const stall = await crewStall(stage.running, [[NAVY_L]]);
    const { page, faults } = await openPage(stage.browser, setupOf(stall));
    await row(page, "Tee").locator("summary").click();
    await page.getByRole("button", { name: "Remove “Navy”" }).click();
    await page.getByText(`order ${stall.numbers[0]} still needs it`).waitFor();
    await row(page, "Tee").getByRole("button", { name: "Remove “Sand”" }).click();
    await page.locator("#bar summary").click();
    await page.getByText("Garment Tee, color Navy: taken off sale").waitFor();
    await save(page);
    const menu = await whole(stall);
    expect(menu.blanks[0]?.colours.map(({ id, offered }) => [id, offered])).toEqual([
      ["navy", false],
      ["black", true],
    ]);
    expect((await stall.crew.post(`${stall.base}/orders`, { lines: [NAVY_L] })).status).toBe(409);
    const { body } = await stall.crew.post<{ job: { job: string } }>(`${stall.base}/presses/A/pull`);
    expect(body.job.job).toBe(`${stall.numbers[0]}-1`);
    expect((await stall.crew.post(`${stall.base}/jobs/${body.job.job}/pressed`)).status).toBe(200);
    expect(faults).toEqual([]);
  });

  it("tells the later of two savers what changed, merges what does not collide, and lets one choose if it does", async () => {
    const stall = await crewStall(stage.running);
    const order = (await stall.crew.post<PlacedOrder>(`${stall.base}/orders`, { lines: [NAVY_L] })).body;
    const { page, faults } = await openPage(stage.browser, setupOf(stall), {
      viewport: { width: 1024, height: 768 },
    });
    await row(page, "Otter tee").locator("summary").click();
    await row(page, "Otter tee").getByLabel("Price USD").fill("30");
    await row(page, "Longtail tee").locator("summary").click();
    await row(page, "Longtail tee").getByLabel("Price USD").fill("31");
    await page.locator("#bar summary").click();
    await page.getByText(`Open orders keep their price: order ${order.number}`).waitFor();
    const menu = await whole(stall);
    const [first, ...others] = menu.offers;
    const theirs = {
      ...menu,
      offers: [{ ...first, price: 3300 }, ...others],
      rules: { ...menu.rules, lowStock: 8 },
    };
    expect((await stall.crew.put(`${stall.base}/menu`, theirs)).status).toBe(200);
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("Somebody else saved meanwhile").waitFor();
    await page.getByText("Rules, a blank is running low at: “3” becomes “8”").waitFor();
    await page.getByText("You both changed Product Longtail tee, price").waitFor();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Take theirs" }).click();
    await save(page);
    const after = await whole(stall);
    expect(after.offers.slice(0, 3).map(({ price }) => price)).toEqual([3300, 2400, 3000]);
    expect(after.rules.lowStock).toBe(8);
    const kept = await stall.crew.get<{ total: object }>(`${stall.base}/orders/${order.number}/whole`);
    expect(kept.body.total).toEqual(order.total);
    expect(faults).toEqual([]);
  });

  it("keeps what was typed when the network goes, through a reload, and saves it once when it is back", async () => {
    const stall = await crewStall(stage.running);
    const { page } = await openPage(stage.browser, setupOf(stall), {
      viewport: { width: 320, height: 700 },
    });
    await row(page, "Tern cap").locator("summary").click();
    await page.context().setOffline(true);
    await row(page, "Tern cap").getByLabel("Price USD").fill("19");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("No connection, so it is not saved yet.").waitFor();
    await page.context().setOffline(false);
    await page.reload();
    await page.getByText("1 change, not saved yet").waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    await save(page);
    expect((await whole(stall)).offers.find(({ id }) => id === "tern-cap")?.price).toBe(1900);
  });

  it("stays usable with 12 blanks of 8 colours and 10 sizes, 40 designs and 30 offers, and prints each sheet on one page", async () => {
    const stall = await crewStall(stage.running);
    const menu = await whole(stall);
    const many = (count: number, name: string) =>
      Array.from({ length: count }, (_, n) => ({
        id: `${name.toLowerCase()}-${n}`,
        name: `${name} ${n}`,
        offered: true,
      }));
    const sizes = Array.from({ length: 10 }, (_, n) => ({
      id: `${n}X`,
      name: `${n}X`,
      offered: true,
      child: false,
    }));
    const [tee] = menu.blanks;
    const [design] = menu.designs;
    const blanks = many(12, "Blank").map((one) => ({
      ...tee,
      ...one,
      translations: {},
      colours: many(8, "Colour"),
      sizes,
    }));
    const designs = many(40, "Design").map((one) => ({ ...design, ...one, translations: {} }));
    const offers = many(30, "Offer").map((one, n) => ({
      ...one,
      price: 2400,
      blank: `blank-${n % 12}`,
      design: `design-${n}`,
    }));
    expect((await stall.crew.put(`${stall.base}/menu`, { ...menu, blanks, designs, offers })).status).toBe(
      200,
    );
    const { page, faults } = await openPage(stage.browser, setupOf(stall));
    await page.getByLabel("Find among 40 designs").fill("design 33");
    await expect.poll(() => page.locator("#designs details.entry:visible").count()).toBe(1);
    await row(page, "Design 33").locator("summary").click();
    await row(page, "Design 33").getByLabel("Dwell seconds").fill("9");
    await page.locator("#advice").getByText("30 products: every customer reads and picks").waitFor();
    await expectAccessible(page);
    await save(page);
    expect((await whole(stall)).designs[33]?.settings.dwellSeconds).toBe(9);
    await page.goto(setupOf(stall).replace("/setup#", "/prints#"));
    await page.locator("#prices li").nth(29).waitFor();
    await expectAccessible(page);
    for (const what of ["card", "crew"]) {
      await page.evaluate((prints) => {
        document.body.dataset["prints"] = prints;
      }, what);
      const pdf = (await page.pdf({ format: "Letter" })).toString("latin1");
      expect([what, pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length]).toEqual([what, 1]);
    }
    expect(faults).toEqual([]);
  });
});
