/** Names and texts that are HTML are shown as they were typed, on every page that shows any. */
import { describe, expect, it } from "vitest";
import { at, example } from "../http/running.ts";
import { openPage } from "./browser.ts";
import { openStage } from "./stage.ts";

/** As much as fits into the shortest name there is, in the forms that are tried first. */
const EVIL = '<img src=x onerror="alert(1)">';
const SCRIPT = "<script>alert(2)</script>";
let pages: readonly (readonly [name: string, address: string])[];

type Named = { name: string; translations?: unknown };

const stage = openStage(async () => {
  const fair = await example(stage.running);
  const base = at(fair);
  const key = fair.stalls[0]?.key ?? "";
  const crew = stage.running.anyone.withKey(key);
  const { body: menu } = await crew.get<{ offers: Named[]; blanks: Named[]; designs: Named[] }>(
    `${base}/menu/whole`,
  );
  const [offer] = menu.offers;
  const [design] = menu.designs;
  if (offer === undefined || design === undefined) throw new Error("the example has no offer");
  Object.assign(offer, { name: SCRIPT });
  Object.assign(design, { name: EVIL });
  const set = await crew.put(`${base}/menu`, menu);
  if (set.status !== 200) throw new Error(`the menu was refused: ${JSON.stringify(set.body)}`);
  await stage.running.anyone.withKey(fair.key).put(base, { name: EVIL });
  const line = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
  await crew.post(`${base}/orders`, { lines: [line], name: EVIL });
  await crew.post(`${base}/orders`, { lines: [line], name: SCRIPT });
  await crew.post(`${base}/presses/A/pull`);
  const place = `${fair.fair}/${fair.stalls[0]?.stall}`;
  pages = [
    ["customer", `/at/${place}`],
    ["board", `/at/${place}/board`],
    ["poster", `/at/${place}/poster`],
    ["press", `/crew/${place}#key=${key}`],
    ["counter", `/crew/${place}/counter#key=${key}`],
    ["setup", `/crew/${place}/setup#key=${key}`],
    ["close-out", `/crew/${place}/closeout#key=${key}`],
    ["passers-by", `/crew/${place}/passers-by#key=${key}`],
    ["stock", `/crew/${place}/stock#key=${key}`],
    ["keys", `/fair/${fair.fair}/keys#key=${fair.key}`],
    ["organiser", `/fair/${fair.fair}#key=${fair.key}`],
    ["plan", `/plan#key=${key}`],
  ];
});

describe("HTML in names and texts", () => {
  it("runs on no page, makes no element, and breaks no policy", async () => {
    const wrong: string[] = [];
    let shown = 0;
    for (const [name, address] of pages) {
      const { page, faults, close } = await openPage(stage.browser, stage.running.url + address);
      page.on("dialog", (dialog) => {
        wrong.push(`${name}: a dialog says ${dialog.message()}`);
        void dialog.dismiss();
      });
      // The page is ready once the stall has answered, or if it does not poll.
      await page.waitForFunction(() => {
        const line = document.querySelector("#freshness");
        return line === null || /[0-9]|Up to date/.test(line.textContent ?? "");
      });
      if (name === "customer") {
        await page.locator("textarea, input[type=text], input:not([type])").first().fill(EVIL);
        await page.keyboard.press("Enter");
        await page.getByText(EVIL).first().waitFor();
      }
      const made = await page.evaluate(
        () => document.querySelectorAll('img[src="x"], [onerror], body script:not([src])').length,
      );
      if (made > 0) wrong.push(`${name}: ${made} elements were made of a name`);
      shown += await page.getByText(/<img src=x|<script>alert/).count();
      wrong.push(...faults.map((fault) => `${name}: ${fault}`));
      await close();
    }
    expect(wrong).toEqual([]);
    // The names are there, as text: otherwise nothing was tried.
    expect(shown).toBeGreaterThan(4);
  }, 180_000);
});
