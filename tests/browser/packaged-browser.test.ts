import { execFile } from "node:child_process";
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { expect, it } from "vitest";

const module = fileURLToPath(new URL("packaged-browser.ts", import.meta.url));

it("is unpacked once and whole by two processes that start together", async () => {
  const cache = await mkdtemp(join(tmpdir(), "browser-cache-"));
  try {
    // Each unpacks it and starts it at once: a file that the other still writes cannot be started.
    const program = `
      import { execFileSync } from "node:child_process";
      import { packagedBrowser } from ${JSON.stringify(module)};
      console.log(execFileSync(await packagedBrowser(${JSON.stringify(cache)}), ["--version", "--no-sandbox"], { encoding: "utf8" }));`;
    const run = () =>
      promisify(execFile)(process.execPath, ["--input-type=module", "--eval", program], { timeout: 50_000 });
    const [one, other] = await Promise.all([run(), run()]);
    expect(one.stdout).toMatch(/\d+\.\d+/);
    expect(other.stdout).toBe(one.stdout);
    expect(await readdir(cache)).toEqual([expect.stringMatching(/^chromium-[\d.]+$/)]);
  } finally {
    await rm(cache, { recursive: true, force: true });
  }
}, 60_000);
