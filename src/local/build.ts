/**
 * Builds what the browser is served: every entry under src/screens/client into .assets, with the styles
 * and pictures beside them. `wrangler` runs it before each deploy, npm before each start and test.
 */
import { createHash } from "node:crypto";
import { copyFile, cp, mkdir, readdir, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));
const client = `${root}src/screens/client`;

const packages = createRequire(import.meta.url);
/** What a library brings beside its code: its style, since pages may hold none, and its licence. */
const LIBRARY_FILES = [
  ["uplot/dist/uPlot.min.css", "uplot.css"],
  ["uplot/LICENSE", "uplot-license.txt"],
] as const;

/** The check library's messages in forty languages, of which pages show the English ones: 260 kB left out. */
const englishOnly: Plugin = {
  name: "english only",
  setup: ({ onLoad }) => onLoad({ filter: /zod\/v4\/locales\/index\.js$/ }, () => ({ contents: "" })),
};

/** A name for what is served: another one as soon as a file of `folders` or its place is another. */
async function nameOf(folders: readonly string[]): Promise<string> {
  const hash = createHash("sha256");
  for (const folder of folders) {
    for (const file of (await readdir(folder, { withFileTypes: true })).sort((one, other) =>
      one.name < other.name ? -1 : 1,
    )) {
      if (file.isFile()) hash.update(file.name).update(await readFile(`${folder}/${file.name}`));
    }
  }
  return hash.digest("hex").slice(0, 16);
}

/** Writes the browser's files; a fresh folder each time, so that nothing old is served. */
export async function buildAssets(out = `${root}.assets`): Promise<void> {
  const files = await readdir(client);
  const entries = files.filter((file) => file.endsWith(".entry.ts")).map((file) => `${client}/${file}`);
  await rm(out, { recursive: true, force: true });
  await mkdir(`${out}/assets`, { recursive: true });
  await build({
    entryPoints: entries.map((entry) => ({ in: entry, out: entry.replace(/^.*\/(.*)\.entry\.ts$/, "$1") })),
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
  for (const [file, name] of LIBRARY_FILES) await copyFile(packages.resolve(file), `${out}/assets/${name}`);
  // Under /crew/, so that it can only ever serve the crew's pages; last, since it names all that it goes with.
  await build({
    entryPoints: [{ in: `${root}src/screens/service-worker/crew-pages.ts`, out: "service-worker" }],
    outdir: `${out}/crew`,
    bundle: true,
    format: "iife",
    target: "es2022",
    minify: true,
    define: { BUILD: JSON.stringify(await nameOf([`${out}/assets`, `${root}src/screens`])) },
    logLevel: "warning",
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildAssets();
