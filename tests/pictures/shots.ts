/** Every page of an example fair in the midst of its day, and the states of it that look different, at the sizes it is used in. */
import type { Browser, BrowserContext, Page } from "playwright-core";
import { OPEN_HOST } from "../browser/launch.ts";
import { OWNER_SECRET } from "../http/secrets.ts";
import type { Midst } from "./midst.ts";

const PHONE = { width: 390, height: 844 };
const SMALL = { width: 320, height: 568 };
const SIDEWAYS = { width: 844, height: 390 };
const TABLET = { width: 1024, height: 768 };
const UPRIGHT = { width: 768, height: 1024 };
const DESK = { width: 1280, height: 900 };
const LAPTOP = { width: 1280, height: 800 };
const BOARD = { width: 1920, height: 1080 };

/** What an operator reads and taps at each garment. */
const TAG = [".garment .drawn-garment", ".placement", "[data-part=pressed-next]", "[data-part=give-back]"];

export type Size = { readonly width: number; readonly height: number };
export type Shot = {
  readonly name: string;
  readonly path: string;
  readonly sizes: readonly Size[];
  /** Brings the page into the state to photograph. */
  readonly act?: (page: Page) => Promise<void>;
  /** What is in view at every size without a scroll. */
  readonly inView?: readonly string[];
  /** Only what the window shows, for pages that are never scrolled. */
  readonly window?: true;
  /** Whose keys the browser has; the crew's and the organiser's if nothing is said. */
  readonly keeps?: "customer" | "nobody";
  /** Opened at an address that others can open too, so that codes are drawn. */
  readonly open?: true;
};

/** Every page, and the states of it that look different. */
export function shotsOf({ place, fair, crewKey, organiserKey, ready, idle }: Midst): readonly Shot[] {
  const crew = `/crew/${place}`;
  const key = `#key=${crewKey}`;
  const say = (text: string) => async (page: Page) => {
    await page.locator("#text").fill(text);
    await page.keyboard.press("Enter");
    await page.locator(".line.stall").nth(1).waitFor();
  };
  const atPress = async (page: Page): Promise<void> => {
    const choice = page.locator("#presses button").first();
    await page.locator("#presses button, #floor:not([hidden])").first().waitFor();
    if (await choice.isVisible()) await choice.click();
    await page.locator("#bench-0 :is(.tag-number, .empty)").waitFor();
  };
  return [
    { name: "home", path: "/", sizes: [PHONE, DESK] },
    {
      name: "fairs",
      path: "/fairs",
      sizes: [PHONE, DESK],
      act: (page) => page.locator("#fairs .row").waitFor(),
    },
    {
      name: "help",
      path: "/help",
      sizes: [PHONE, DESK],
      act: async (page) => {
        await page.locator("#sought").fill("spoil");
        await page.locator("#found dt").first().waitFor();
      },
    },
    { name: "help-live", path: "/help/live", sizes: [PHONE, DESK] },
    { name: "help-contents", path: "/help", sizes: [PHONE] },
    { name: "help-api", path: "/help/api", sizes: [PHONE, DESK] },
    { name: "problem", path: "/problems/sold-out", sizes: [PHONE, DESK] },
    { name: "no-page", path: "/nowhere", sizes: [PHONE] },
    {
      name: "seen",
      keeps: "nobody",
      path: `/at/${fair}`,
      sizes: [PHONE, DESK],
      act: (page) => page.locator("#stalls li").first().waitFor(),
    },
    { name: "your-data", keeps: "customer", path: `/at/${place}/your-data`, sizes: [PHONE, DESK] },
    { name: "start", path: `/start#owner=${OWNER_SECRET}`, sizes: [PHONE, DESK] },
    {
      name: "customer-menu",
      keeps: "nobody",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL, SIDEWAYS],
      act: (page) => page.locator(".choice").first().waitFor(),
      window: true,
    },
    {
      name: "customer-colour",
      keeps: "nobody",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL],
      act: say("1"),
      window: true,
    },
    {
      name: "customer-size",
      keeps: "nobody",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL],
      act: say("1 navy"),
      window: true,
    },
    {
      name: "customer-confirm",
      keeps: "nobody",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL, SIDEWAYS],
      act: say("1 navy L"),
      window: true,
    },
    {
      name: "customer-cut-off",
      keeps: "nobody",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL, SIDEWAYS],
      window: true,
      act: async (page) => {
        await page.locator(".choice").first().waitFor();
        await page.context().setOffline(true);
        await page.locator("#text").fill("1");
        await page.keyboard.press("Enter");
        await page.locator("#unsent:not([hidden])").waitFor();
      },
    },
    {
      name: "customer-ready",
      keeps: "customer",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL, SIDEWAYS],
      window: true,
      act: (page) => page.locator("#ticket.ready").waitFor(),
    },
    {
      name: "customer-ordered",
      keeps: "nobody",
      path: `/at/${place}`,
      sizes: [PHONE, SMALL, SIDEWAYS],
      window: true,
      act: async (page) => {
        await say("1 navy L")(page);
        await page.locator(".choice", { hasText: "YES" }).click();
        await page.locator("#ticket .number-big").waitFor();
      },
    },
    {
      name: "board",
      path: `/at/${place}/board`,
      sizes: [BOARD, TABLET, PHONE],
      act: (page) => page.locator(".numbers li").first().waitFor(),
      window: true,
    },
    {
      name: "board-idle",
      path: `/at/${idle}/board`,
      sizes: [BOARD, PHONE],
      act: (page) => page.locator(".idle .drawn-garment").first().waitFor(),
      window: true,
      open: true,
    },
    { name: "poster", path: `/at/${place}/poster`, sizes: [DESK, PHONE], open: true },
    { name: "press-no-key", keeps: "nobody", path: `/crew/${place}x`, sizes: [UPRIGHT] },
    {
      name: "press",
      path: crew + key,
      sizes: [TABLET, LAPTOP, UPRIGHT, PHONE, SIDEWAYS],
      act: atPress,
      inView: TAG,
      window: true,
    },
    {
      name: "press-scrolled",
      path: crew + key,
      sizes: [PHONE],
      act: async (page) => {
        await atPress(page);
        await page.locator("#tab-stock").scrollIntoViewIfNeeded();
      },
      window: true,
    },
    {
      name: "press-no-signal",
      path: crew + key,
      sizes: [TABLET, UPRIGHT, PHONE],
      act: async (page) => {
        await atPress(page);
        await page.context().setOffline(true);
        await page.locator("#unsent:not([hidden])").waitFor();
      },
      window: true,
    },
    {
      name: "press-two",
      path: crew + key,
      sizes: [TABLET, UPRIGHT, PHONE],
      act: async (page) => {
        await atPress(page);
        await page.locator("#tab-presses").click();
        await page
          .getByRole("button", { name: /beside$/ })
          .first()
          .click();
        await page.locator("#bench-1:not([hidden])").waitFor();
      },
      window: true,
    },
    {
      name: "press-menu",
      path: crew + key,
      sizes: [TABLET, PHONE],
      act: async (page) => {
        await atPress(page);
        await page.locator(".menu > summary").click();
      },
      window: true,
    },
    {
      name: "counter",
      path: `${crew}/counter${key}`,
      sizes: [TABLET, UPRIGHT, PHONE, SMALL],
      act: (page) => page.locator("#offers label").first().waitFor(),
    },
    {
      name: "counter-slip",
      path: `${crew}/counter${key}`,
      sizes: [TABLET, PHONE, SMALL],
      act: async (page) => {
        for (const id of ["offers", "colours", "sizes"])
          await page.locator(`#${id} input:enabled`).first().check();
        await page.locator("#add").click();
      },
    },
    {
      name: "counter-list",
      path: `${crew}/counter${key}`,
      sizes: [TABLET, PHONE, SMALL],
      act: (page) => page.locator("#to-desk").click(),
    },
    {
      name: "counter-hand-over",
      path: `${crew}/counter${key}`,
      sizes: [TABLET, PHONE, SMALL],
      act: async (page) => {
        await page.locator("#to-desk").click();
        await page.locator("#find").fill(String(ready));
        await page.keyboard.press("Enter");
        await page.locator("#order-tag .tag-number").waitFor();
      },
    },
    {
      name: "stock",
      path: `${crew}/stock${key}`,
      sizes: [TABLET, PHONE],
      act: (page) => page.locator("#tables input").first().waitFor(),
    },
    {
      name: "stock-wrong",
      path: `${crew}/stock${key}`,
      sizes: [PHONE],
      act: async (page) => {
        await page.locator("#tables input").first().fill("7x");
        await page.locator("#tables input").nth(2).fill("0");
      },
    },
    {
      name: "setup",
      path: `${crew}/setup${key}`,
      sizes: [DESK, PHONE],
      act: (page) => page.locator(".editor").waitFor(),
    },
    {
      name: "setup-open",
      path: `${crew}/setup${key}`,
      sizes: [DESK, PHONE],
      act: async (page) => {
        await page.locator("details.entry", { hasText: "Tee" }).first().locator("summary").click();
        await page.locator(".advanced > summary", { hasText: "Advanced" }).click();
      },
    },
    {
      name: "setup-typed",
      path: `${crew}/setup${key}`,
      sizes: [DESK, PHONE],
      act: async (page) => {
        await page.getByRole("button", { name: "Back print" }).click();
        await page.getByLabel("Add a bundle").fill("Any 2 tees");
        await page.keyboard.press("Enter");
        await page.locator("#bar summary").click();
      },
    },
    ...(["card", "crew", "tags", "strip", "blank"] as const).map((sheet) => ({
      name: `prints-${sheet}`,
      path: `${crew}/prints${key}`,
      sizes: [DESK, PHONE],
      act: async (page: Page) => page.locator(`#print-${sheet}`).click(),
    })),
    {
      name: "closeout",
      path: `${crew}/closeout${key}`,
      sizes: [DESK, PHONE],
      act: (page) => page.locator("#account:not([hidden])").waitFor(),
    },
    {
      name: "day",
      path: `${crew}/day${key}`,
      sizes: [PHONE, TABLET],
      act: (page) => page.locator("#so-far .verdict").waitFor(),
    },
    { name: "passers-by", path: `${crew}/passers-by${key}`, sizes: [PHONE] },
    {
      name: "organiser",
      path: `/fair/${fair}#key=${organiserKey}`,
      sizes: [DESK, PHONE],
      act: (page) => page.locator("#stalls tbody tr").first().waitFor(),
    },
    {
      name: "organiser-beside",
      path: `/fair/${fair}#key=${organiserKey}`,
      sizes: [DESK, PHONE],
      act: async (page) => {
        await page.locator("#beside > summary").click();
        const [figures] = await Promise.all([
          page.waitForEvent("download"),
          page.locator("#years-save").click(),
        ]);
        await page.locator("#years-file").setInputFiles(await figures.path());
        await page.locator("#years").waitFor();
        await page.locator("#stalls tbody th button").first().click();
        await page.locator("#contact summary").click();
      },
    },
    {
      name: "gateway",
      path: `/fair/${fair}/gateway#key=${organiserKey}`,
      sizes: [DESK, PHONE],
      act: (page) => page.locator("#read-back", { hasText: "Read from" }).waitFor(),
    },
    {
      name: "keys",
      path: `/fair/${fair}/keys#key=${organiserKey}`,
      sizes: [DESK, PHONE],
      act: (page) => page.locator("#stalls li").first().waitFor(),
    },
    {
      name: "plan",
      path: "/plan",
      sizes: [DESK, PHONE],
      act: (page) => page.locator("#plan-standing", { hasText: "Up to date" }).waitFor(),
      window: true,
    },
    ...(
      [
        ["answer-bring", "plan"],
        ["gear-power", "power"],
        ["gear-pitch", "pitch"],
        ["sheets", "sheets"],
      ] as const
    ).map(([place, part]) => ({
      name: `plan-${place}`,
      path: `/plan#${place}`,
      sizes: [TABLET, PHONE],
      act: (page: Page) => page.locator(`#${part}-standing`, { hasText: "Up to date" }).waitFor(),
    })),
  ];
}

export type Opened = { readonly context: BrowserContext; readonly page: Page };

/** Opens a shot's page in a context of its own and brings it into its state. */
export async function openShot(
  browser: Browser,
  url: string,
  shot: Shot,
  { kept, customers }: Midst,
  viewport: Size,
  theme: "day" | "night",
): Promise<Opened> {
  const context = await browser.newContext({
    viewport,
    locale: "en-US",
    colorScheme: theme === "night" ? "dark" : "light",
    reducedMotion: "reduce",
  });
  await context.addInitScript(
    (keys) => {
      for (const [name, value] of keys) localStorage.setItem(name, value);
    },
    { crew: kept, customer: customers, nobody: [] }[shot.keeps ?? "crew"],
  );
  const page = await context.newPage();
  const at = new URL(shot.path, url);
  if (shot.open) at.hostname = OPEN_HOST;
  await page.goto(at.href);
  await page.waitForFunction(
    () =>
      document.querySelector("#no-key:not([hidden])") !== null ||
      !/connecting/.test(document.querySelector("#freshness")?.textContent ?? ""),
  );
  await shot.act?.(page);
  // A picture below the fold is fetched only when it is near: a full page shows it too.
  await page.evaluate(async () => {
    for (const image of document.images) image.loading = "eager";
    await Promise.all([document.fonts.ready, ...[...document.images].map((image) => image.decode())]);
  });
  return { context, page };
}
