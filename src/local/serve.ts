/** Runs the worker on this computer, on a store kept in a folder. */
import { mkdir } from "node:fs/promises";
import { networkInterfaces } from "node:os";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { convertV4MiniflareOptions, Miniflare, type MiniflareOptions } from "miniflare";
import { unstable_getMiniflareWorkerOptions } from "wrangler";
import { whenSetBack } from "./clock-watch.ts";
import { openFront } from "./front.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

export type Served = {
  readonly url: string;
  readonly stop: () => Promise<void>;
};

export type ServeOptions = {
  readonly port: number;
  readonly host: string;
  /** Folder the store is kept in. */
  readonly data: string;
  readonly secrets: Readonly<Record<string, string>>;
  /** Another entry script than the worker's, with further objects, for benches. */
  readonly entry?: { readonly file: string; readonly objects: Readonly<Record<string, string>> };
  /**
   * Applies the limits of wrangler.toml with buckets in memory, and counts each peer by its real address. If absent,
   * nobody is counted.
   */
  readonly limits?: boolean;
  /** Takes each line of the worker's log; without it, warnings and errors are shown and the rest is not. */
  readonly log?: (line: string) => void;
  /** Port for a debugger; without it there is none. */
  readonly inspectorPort?: number;
  /** Answers what the worker passes on under /phones. */
  readonly handset?: (request: Request) => Promise<Response>;
};

const LOOPBACK_HOSTS: ReadonlySet<string> = new Set(["127.0.0.1", "localhost", "::1"]);

/** The whole worker as one module. */
async function bundleWorker(entryFile: string): Promise<string> {
  const built = await build({
    entryPoints: [entryFile],
    bundle: true,
    write: false,
    format: "esm",
    target: "es2024",
    conditions: ["workerd", "worker", "browser"],
    external: ["cloudflare:*", "node:*"],
    jsx: "automatic",
    jsxImportSource: "hono/jsx",
    logLevel: "warning",
  });
  const [file] = built.outputFiles;
  if (file === undefined) throw new Error("the worker could not be bundled: esbuild wrote nothing");
  return file.text;
}

/** Starts the worker; ready when the promise resolves. */
export async function serve({
  port,
  host,
  data,
  secrets,
  entry,
  handset,
  log,
  limits,
  inspectorPort,
}: ServeOptions): Promise<Served> {
  await mkdir(data, { recursive: true });
  const front = limits === true ? await openFront(host, port) : null;
  const { workerOptions } = unstable_getMiniflareWorkerOptions(`${root}wrangler.toml`);
  const objects = Object.fromEntries(
    Object.entries(entry?.objects ?? {}).map(([binding, className]) => [
      binding,
      { className, useSQLite: true },
    ]),
  );
  const options = convertV4MiniflareOptions({
    ...(front === null ? { host, port } : { host: "127.0.0.1", port: 0 }),
    cf: false,
    workers: [
      {
        ...workerOptions,
        name: "stallpress",
        rootPath: root,
        modulesRoot: root,
        modules: [
          {
            type: "ESModule",
            path: "worker.js",
            contents: await bundleWorker(entry?.file ?? `${root}src/worker.ts`),
          },
        ],
        durableObjects: { ...(workerOptions["durableObjects"] as object), ...objects },
        ratelimits: {},
        bindings: {
          ...(limits === true ? (workerOptions["bindings"] as object) : {}),
          ...(LOOPBACK_HOSTS.has(host) ? { LOOPBACK: "only" } : {}),
          ...secrets,
        },
        ...(handset === undefined ? {} : { serviceBindings: { HANDSET: handset } }),
      },
    ],
  });
  const local: MiniflareOptions = {
    ...options,
    resourcePersistencePath: data,
    ...(inspectorPort === undefined ? {} : { inspectorPort }),
    logRequests: false,
    handleStructuredLogs: ({ level, message }) => {
      if (log !== undefined) log(message);
      else if (level === "warn" || level === "error") console.error(message);
    },
    enableDevRegistry: false,
    telemetry: { enabled: false },
  };
  const miniflare = new Miniflare(local);
  const url = await miniflare.ready;
  front?.open(Number(url.port));
  // The runtime's time of day never goes back: after the clock was set back, it stands still and no alarm rings until
  // the old time is reached. A restart, some tenths of a second on the same store and port, accepts the clock.
  const unwatch = whenSetBack(() => {
    console.error("This computer's clock was set back. Restarting the worker.");
    miniflare
      .setOptions(local)
      .then(async () => front?.open(Number((await miniflare.ready).port)))
      .catch((error: unknown) => console.error("The worker could not be restarted.", error));
  });
  return {
    url: front === null ? url.origin : `http://127.0.0.1:${front.port}`,
    stop: async () => {
      unwatch();
      await front?.stop();
      await miniflare.dispose();
    },
  };
}

/** This computer's address on the local network, for phones on it; null if there is none. */
export function lanAddress(): string | null {
  for (const addresses of Object.values(networkInterfaces())) {
    for (const address of addresses ?? []) {
      if (address.family === "IPv4" && !address.internal) return address.address;
    }
  }
  return null;
}
