import jsQR from "jsqr";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { at, example, start } from "../http/running.ts";
import { openPage } from "./browser.ts";
import { OPEN_HOST } from "./launch.ts";
import { openStage } from "./stage.ts";

const stage = openStage(undefined, {
  worker: () => start({ GATEWAY_NUMBER: "+12125550199", GATEWAY_URL: "http://127.0.0.1:9/out" }),
});

/** The text of the n-th code on the page, read by a decoder that shares nothing with the encoder. */
async function read(page: Page, n: number): Promise<string | undefined> {
  const svg = page.locator("svg.code").nth(n);
  const picture = await svg.evaluate(async (drawing) => {
    const copy = drawing.cloneNode(true) as SVGElement; // a clone of an svg element is one
    const SIDE = 400;
    copy.setAttribute("width", String(SIDE));
    copy.setAttribute("height", String(SIDE));
    const image = new Image();
    image.src = `data:image/svg+xml,${encodeURIComponent(new XMLSerializer().serializeToString(copy))}`;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = SIDE;
    canvas.height = SIDE;
    const context = canvas.getContext("2d");
    if (context === null) throw new Error("the browser has no canvas");
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, SIDE, SIDE);
    // As text, a byte a letter: an array of that many numbers takes ten seconds on the browser's wire.
    return { side: SIDE, bytes: Array.from(data, (byte) => String.fromCharCode(byte)).join("") };
  });
  const { side, bytes } = picture;
  return jsQR(Uint8ClampedArray.from(Buffer.from(bytes, "latin1")), side, side)?.data;
}

describe("the poster", () => {
  it("carries the web link and the text link as codes that read back, in both languages", async () => {
    const fair = await example(stage.running, "brackenfield");
    const crew = stage.running.anyone.withKey(fair.stalls[0]?.key ?? null);
    const { body: menu } = await crew.get<Menu>(`${at(fair)}/menu/whole`);
    const tees = menu.offers.flatMap(({ id, blank }) => (blank === "tee" ? [id] : []));
    const bundles = [
      {
        id: "two-tees",
        name: "Any 2 tees",
        translations: { es: "2 camisetas" },
        price: 4000,
        takes: [{ offers: tees, quantity: 2 }],
      },
      { id: "four-tees", name: "Any 4 tees", price: 7600, takes: [{ offers: tees, quantity: 4 }] },
    ];
    expect((await crew.put(`${at(fair)}/menu`, { ...menu, bundles })).status).toBe(200);
    const open = stage.running.url.replace("127.0.0.1", OPEN_HOST);
    const { page, faults } = await openPage(stage.browser, `${open}/at/brackenfield/tern/poster`, {
      viewport: { width: 800, height: 1100 },
    });
    await page.getByRole("heading", { name: "Tern & Tide" }).waitFor();
    await page.getByText("Longtail tee $24.00").waitFor();
    await page.getByText("Any 2 tees $40.00 · 2 camisetas").waitFor();
    await page.getByText("Plus 7.25 % tax").waitFor();
    expect(await read(page, 0)).toBe(`${open}/at/brackenfield/tern`);
    expect(await read(page, 1)).toBe("sms:+12125550199?body=tern%20menu");
    expect(await page.locator("[lang=es] li").count()).toBe(3);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("#print").isVisible()).toBe(false);
    const pdf = (await page.pdf({ format: "Letter" })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(1);
    expect(faults).toEqual([]);
  });

  it("prints no address that only this computer knows, and says what to do", async () => {
    const { page } = await openPage(stage.browser, `${stage.running.url}/at/brackenfield/tern/poster`);
    await page.getByText("Only this computer can open the address you used").waitFor();
    expect(await page.locator("svg.code").count()).toBe(1);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    expect(await page.content()).not.toContain(`${stage.running.url}/at/brackenfield/tern"`);
  });

  it("prints no number that no gateway stands behind", async () => {
    const silent = await start({ GATEWAY_NUMBER: "+12125550199" });
    try {
      const open = silent.url.replace("127.0.0.1", OPEN_HOST);
      const { page } = await openPage(stage.browser, `${open}/at/brackenfield/tern/poster`);
      await page.getByRole("heading", { name: "tern" }).waitFor();
      expect(await page.locator("svg.code").count()).toBe(1);
      expect(await page.content()).not.toContain("2125550199");
    } finally {
      await silent.stop();
    }
  });
});
