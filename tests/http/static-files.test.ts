/** Scripts, styles and pictures have the same security headers as pages, although the platform serves them. */
import { readdir } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { beforeAll, expect, it } from "vitest";
import { type Running, shared } from "./running.ts";

const SERVED = fileURLToPath(new URL("../../.assets", import.meta.url));

let running: Running;
beforeAll(async () => {
  running = await shared();
});

it("are never taken for another kind, framed, or let load from elsewhere", async () => {
  const files = (await readdir(SERVED, { recursive: true })).filter((name) => /^[^_].*\.\w+$/.test(name));
  expect(files).toContain("crew/service-worker.js");
  expect(files).toContain("plan-service-worker.js");
  expect(files.length).toBeGreaterThan(30);
  for (const file of files) {
    const { status, headers } = await fetch(`${running.url}/${file}`);
    expect([file, status, headers.get("x-content-type-options")]).toEqual([file, 200, "nosniff"]);
    expect(headers.get("content-security-policy")).toMatch(/^default-src 'none'; script-src 'self';/);
    expect(headers.get("x-frame-options")).toBe("DENY");
    expect(headers.get("referrer-policy")).toBe("no-referrer");
    expect(headers.get("cross-origin-resource-policy")).toBe("same-origin");
    expect(headers.get("strict-transport-security")).toMatch(/^max-age=\d{8}/);
  }
});

it("are told anew when a stall's tablet asks, and not sent twice", async () => {
  const file = `${running.url}/assets/screens.css`;
  const first = await fetch(file);
  expect(first.headers.get("cache-control")).toContain("must-revalidate");
  const again = await fetch(file, { headers: { "if-none-match": first.headers.get("etag") ?? "" } });
  expect(again.status).toBe(304);
});

it("hold nothing that is not theirs to give", async () => {
  for (const path of [
    "_headers",
    "assets/../_headers",
    "assets/%2e%2e/_headers",
    ".dev.vars",
    "wrangler.toml",
    "assets/../src/worker.ts",
  ])
    expect([path, (await fetch(`${running.url}/${path}`)).status]).toEqual([path, 404]);
});
