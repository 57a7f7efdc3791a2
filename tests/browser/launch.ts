/** A real browser: the installed Chrome if CHROME_PATH names one, else the one in a package. */
import chromium from "@sparticuz/chromium";
import { type Browser, chromium as playwright } from "playwright-core";
import { packagedBrowser } from "./packaged-browser.ts";

/** A host name that counts as open to others: this computer under another name. */
export const OPEN_HOST = "fair.test";

const QUIET = [
  `--host-resolver-rules=MAP ${OPEN_HOST} 127.0.0.1`,
  "--no-sandbox",
  // Else each page starts a second process to spare, which no test uses.
  "--renderer-process-limit=1",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Of the package's own arguments: one process dies with its first closed page, and pages must be as safe as in use. */
const UNFIT = new Set(["--single-process", "--disable-web-security", "--allow-running-insecure-content"]);

export async function launch(): Promise<Browser> {
  const own = process.env["CHROME_PATH"];
  return playwright.launch({
    executablePath: own ?? (await packagedBrowser()),
    args: own === undefined ? [...chromium.args.filter((one) => !UNFIT.has(one)), ...QUIET] : QUIET,
    headless: true,
  });
}
