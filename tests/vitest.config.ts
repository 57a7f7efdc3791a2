import { fileURLToPath } from "node:url";
import { cloudflareTest } from "@cloudflare/vitest-plugin";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * Two kinds of test: `worker` runs inside the Workers runtime (tests/worker), `node` runs everything
 * else in Node: pure code, published checks, the real browser and whole processes.
 */
export default defineConfig({
  root,
  test: {
    // Half of a run is waiting for pages and processes, so one worker more than there are cores.
    maxWorkers: 3,
    projects: [
      {
        root,
        plugins: [
          cloudflareTest({
            wrangler: { configPath: `${root}wrangler.toml` },
            miniflare: {
              bindings: {
                KEY_SECRET: "a secret for tests only, and for nothing else",
                OWNER_SECRET: "the-owner-of-the-tests-in-the-runtime",
              },
            },
          }),
        ],
        test: { name: "worker", include: ["tests/worker/**/*.test.ts"], testTimeout: 60_000 },
      },
      {
        root,
        // Simulations run the objects outside the platform, on a module of their own in place of its.
        resolve: { alias: { "cloudflare:workers": `${root}tests/simulation/whole/platform.ts` } },
        test: {
          name: "node",
          globalSetup: `${root}tests/browser/packaged-browser.ts`,
          // Modules are read once for many files; a test that changes something global puts it back.
          isolate: false,
          environment: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/worker/**"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          // Pages poll every few seconds, and the machine may be busy.
          expect: { poll: { timeout: 15_000 } },
        },
      },
    ],
  },
});
