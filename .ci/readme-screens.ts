/** Takes the README's screens from the pictures that `npm run pictures` drew, as small WebP files under examples/screens. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { launch } from "../tests/browser/launch.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Each screen's picture, how wide it stands in the README, and how high of its width at the most: what one sees first. */
const SCREENS = {
  order: ["customer-menu-390x844-day", 390, 2.2],
  press: ["press-1024x768-day", 820, 0.75],
  counter: ["counter-slip-1024x768-day", 820, 0.95],
  board: ["board-1920x1080-night", 820, 0.6],
  organiser: ["organiser-1280x900-day", 820, 0.75],
  planner: ["plan-answer-bring-1024x768-day", 820, 0.85],
} as const;

const browser = await launch();
const page = await browser.newPage();
mkdirSync(`${root}examples/screens`, { recursive: true });
for (const [name, [picture, width, highest]] of Object.entries(SCREENS)) {
  const png = readFileSync(`${root}.pictures/${picture}.png`).toString("base64");
  const webp = await page.evaluate(
    async ({ source, wide, most }) => {
      const image = new Image();
      image.src = `data:image/png;base64,${source}`;
      await image.decode();
      const canvas = document.createElement("canvas");
      canvas.width = wide;
      canvas.height = Math.round(Math.min((image.height * wide) / image.width, wide * most));
      canvas.getContext("2d")?.drawImage(image, 0, 0, wide, (image.height * wide) / image.width);
      return canvas.toDataURL("image/webp", 0.8).split(",")[1] ?? "";
    },
    { source: png, wide: width, most: highest },
  );
  writeFileSync(`${root}examples/screens/${name}.webp`, Buffer.from(webp, "base64"));
}
await browser.close();
