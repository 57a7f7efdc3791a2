/**
 * Builds what the browser is served: every entry under src/screens/client into .assets, with the styles
 * and pictures beside them. `wrangler` runs it before each deploy, npm before each start and test.
 */
import { copyFile, cp, mkdir, readdir, rm } from "node:fs/promises";
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
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildAssets();
