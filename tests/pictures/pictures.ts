/**
 * `npm run pictures`: every page of an example fair in the midst of its day, by day and by night, at the sizes it is
 * used in, as PNG files under .pictures. Words after `--` choose the pictures whose names begin with one of them.
 */
import { mkdir, rm } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import type { Browser } from "playwright-core";
import { launch } from "../browser/launch.ts";
import { start } from "../http/running.ts";
import { fairInTheMidst, type Midst } from "./midst.ts";
import { openShot, type Shot, shotsOf } from "./shots.ts";

const OUT = fileURLToPath(new URL("../../.pictures/", import.meta.url));

async function take(browser: Browser, url: string, shot: Shot, midst: Midst): Promise<void> {
  for (const theme of ["day", "night"] as const)
    for (const viewport of shot.sizes) {
      const { context, page } = await openShot(browser, url, shot, midst, viewport, theme);
      const path = `${OUT}${shot.name}-${viewport.width}x${viewport.height}-${theme}.png`;
      await page.screenshot({ path, fullPage: shot.window !== true });
      await context.close();
      console.log(path);
    }
}

const wanted = process.argv.slice(2);
const running = await start();
const browser = await launch();
try {
  const midst = await fairInTheMidst(running);
  if (wanted.length === 0) await rm(OUT, { recursive: true, force: true });
  await mkdir(OUT, { recursive: true });
  for (const shot of shotsOf(midst))
    if (wanted.length === 0 || wanted.some((word) => shot.name.startsWith(word)))
      await take(browser, running.url, shot, midst).catch((reason: unknown) => {
        console.error(`${shot.name}: ${String(reason).split("\n")[0]}`);
        process.exitCode = 1;
      });
} finally {
  await browser.close();
  await running.stop();
}
