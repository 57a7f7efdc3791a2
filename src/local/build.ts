/**
 * Builds what the browser is served: every entry under src/screens/client into .assets, with the styles
 * and pictures beside them. `wrangler` runs it before each deploy, npm before each start and test.
 */
import { createHash } from "node:crypto";
import { copyFile, cp, mkdir, readdir, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));
const client = `${root}src/screens/client`;

const packages = createRequire(import.meta.url);
const FONT = "@fontsource-variable/atkinson-hyperlegible-next";
/** Files of a library beside its code: its style sheet (pages may hold none inline), a font, and their licences. */
const LIBRARY_FILES = [
  ["uplot/dist/uPlot.min.css", "uplot.css"],
  ["uplot/LICENSE", "uplot-license.txt"],
  [`${FONT}/files/atkinson-hyperlegible-next-latin-wght-normal.woff2`, "atkinson-hyperlegible-next.woff2"],
  [`${FONT}/LICENSE`, "atkinson-hyperlegible-next-license.txt"],
] as const;

/** The check library's messages in forty languages, of which pages show the English ones: 260 kB left out. */
const englishOnly: Plugin = {
  name: "english only",
  setup: ({ onLoad }) => onLoad({ filter: /zod\/v4\/locales\/index\.js$/ }, () => ({ contents: "" })),
};

/** The files below a folder by their paths from it, in order. */
async function filesBelow(folder: string): Promise<readonly string[]> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  return found
    .filter((file) => file.isFile())
    .map((file) => relative(folder, `${file.parentPath}/${file.name}`))
    .sort();
}

/** Names a build by its contents: a hash of every file below `folders`, names included. */
async function nameOf(folders: readonly string[]): Promise<string> {
  const hash = createHash("sha256");
  for (const folder of folders)
    for (const file of await filesBelow(folder))
      hash.update(file).update(await readFile(`${folder}/${file}`));
  return hash.digest("hex").slice(0, 16);
}

/** Writes the browser's files; a fresh folder each time, so that nothing old is served. */
export async function buildAssets(out = `${root}.assets`): Promise<void> {
  const entries = (await filesBelow(client)).filter((file) => /\.entry\.tsx?$/.test(file));
  await rm(out, { recursive: true, force: true });
  await mkdir(`${out}/assets`, { recursive: true });
  await build({
    entryPoints: entries.map((entry) => ({
      in: `${client}/${entry}`,
      out: basename(entry).replace(/\.entry\.tsx?$/, ""),
    })),
    outdir: `${out}/assets`,
    bundle: true,
    format: "esm",
    target: "es2022",
    minify: true,
    legalComments: "none",
    plugins: [englishOnly],
    logLevel: "warning",
  });
  await cp(`${root}src/screens/static`, out, { recursive: true });
  const styles = `${root}src/screens/styles`;
  const sheets = (await filesBelow(styles)).filter((style) => !style.startsWith("parts/"));
  await build({
    entryPoints: sheets.map((sheet) => ({ in: `${styles}/${sheet}`, out: basename(sheet, ".css") })),
    outdir: `${out}/assets`,
    bundle: true,
    // Custom properties and selectors of today; what a browser lacks is not written twice.
    target: ["chrome105", "safari15.4", "firefox121"],
    minify: true,
    external: ["/assets/*"],
    logLevel: "warning",
  });
  for (const [file, name] of LIBRARY_FILES) await copyFile(packages.resolve(file), `${out}/assets/${name}`);
  const workers = `${root}src/screens/service-worker`;
  // Under /crew/, so that it can only ever serve the crew's pages; last, since they name all that they go with.
  await build({
    entryPoints: [
      { in: `${workers}/crew-pages.ts`, out: "crew/service-worker" },
      { in: `${workers}/plan-page.ts`, out: "plan-service-worker" },
      { in: `${workers}/help-pages.ts`, out: "help-service-worker" },
    ],
    outdir: out,
    bundle: true,
    format: "iife",
    target: "es2022",
    minify: true,
    define: { BUILD: JSON.stringify(await nameOf([`${out}/assets`, `${root}src/screens`])) },
    logLevel: "warning",
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildAssets();
