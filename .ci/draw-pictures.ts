/**
 * Draws the pictures of the example's designs: every .svg under examples becomes a .webp beside it, with the project's own
 * test browser, and without words as the worker keeps it. Run it after a drawing was changed.
 */
import { globSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { pictureFrom } from "../src/pictures/kept-picture.ts";
import { launch } from "../tests/browser/launch.ts";

const MOST_PIXELS = 480;
const examples = fileURLToPath(new URL("../examples", import.meta.url));

const browser = await launch();
const page = await browser.newPage();
for (const file of globSync("*/pictures/*.svg", { cwd: examples })) {
  const svg = readFileSync(`${examples}/${file}`, "utf8");
  const [, width = 1, height = 1] = (/viewBox="0 0 (\d+) (\d+)"/.exec(svg) ?? []).map(Number);
  const scale = MOST_PIXELS / Math.max(width, height);
  const base64 = await page.evaluate(
    async ({ source, wide, high }) => {
      const image = new Image();
      image.src = `data:image/svg+xml,${encodeURIComponent(source)}`;
      await image.decode();
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = [wide, high];
      canvas.getContext("2d")?.drawImage(image, 0, 0, wide, high);
      return canvas.toDataURL("image/webp", 0.9).split(",")[1] ?? "";
    },
    { source: svg, wide: Math.round(width * scale), high: Math.round(height * scale) },
  );
  const kept = await pictureFrom(Uint8Array.from(Buffer.from(base64, "base64")));
  if (!kept.ok) throw new Error(`${file}: ${kept.detail}`);
  writeFileSync(`${examples}/${file.replace(/svg$/, "webp")}`, kept.bytes);
}
await browser.close();
