/**
 * The browser that a package ships, unpacked once into the project's own cache. The package itself unpacks into the
 * temporary folder and takes a file that another process is still writing for a finished one.
 */
import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readFile, rename, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

export const CACHE = fileURLToPath(new URL("../../node_modules/.cache/stallpress/", import.meta.url));

const UNPACK = 'console.log(await (await import("@sparticuz/chromium")).default.executablePath())';

/** The folder of the installed version: an update of the package is unpacked beside the old one. */
async function folderIn(cache: string): Promise<string> {
  const main = createRequire(import.meta.url).resolve("@sparticuz/chromium");
  const { version } = JSON.parse(await readFile(join(main, "../../package.json"), "utf8")) as {
    readonly version: string;
  }; // npm's own file
  return join(cache, `chromium-${version}`);
}

/**
 * The path of the unpacked browser. It is unpacked beside its place and moved there whole, so that it is there whole or
 * not at all; if several processes unpack it at once, the first is kept.
 */
export async function packagedBrowser(cache: string = CACHE): Promise<string> {
  const folder = await folderIn(cache);
  const path = join(folder, "chromium");
  if (existsSync(path)) return path;
  await mkdir(cache, { recursive: true });
  const own = await mkdtemp(`${folder}-`);
  // The package asks for the temporary folder's name: here it is this one.
  await promisify(execFile)(process.execPath, ["--input-type=module", "--eval", UNPACK], {
    cwd: fileURLToPath(new URL("../..", import.meta.url)),
    env: { ...process.env, TMPDIR: own },
  });
  try {
    await rename(own, folder);
  } catch (error) {
    await rm(own, { recursive: true, force: true });
    if (!existsSync(path)) throw error;
  }
  return path;
}

/** Unpacks it before any test file starts, unless an installed browser is named. */
export default async function setup(): Promise<void> {
  if (process.env["CHROME_PATH"] === undefined) await packagedBrowser();
}
