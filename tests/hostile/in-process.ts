/**
 * The whole worker inside the test's process, its objects on stores in memory: thousands of requests a second, and
 * every row can be inspected. This file plays the platform; tests that depend on the real platform run on it.
 */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build, type Plugin } from "esbuild";
import { Client } from "../../src/local/client.ts";
import { GATEWAY_SECRET, OWNER_SECRET } from "../http/secrets.ts";
import { MemoryStore } from "../stall/test-stall.ts";
import { quickCrypto } from "./quick-crypto.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The platform's module, as far as the worker uses it. */
const platform: Plugin = {
  name: "platform",
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^cloudflare:workers$/ }, () => ({ path: "workers", namespace: "platform" }));
    onLoad({ filter: /.*/, namespace: "platform" }, () => ({
      contents: "export class DurableObject { constructor(ctx, env) { this.ctx = ctx; this.env = env; } }",
    }));
  },
};

type Method = (...values: unknown[]) => unknown;
type Kind = new (ctx: unknown, env: unknown) => Readonly<Record<string, Method>>;
type Worker = {
  readonly default: {
    readonly fetch: (request: Request, env: unknown, context: object) => Promise<Response>;
  };
  readonly Stall: Kind;
  readonly Fair: Kind;
};

/** One object's storage: a write that throws takes back all that its transaction wrote. */
class Storage {
  readonly kv = new MemoryStore();
  #alarm: number | null = null;
  readonly transactionSync = <T>(work: () => T): T => {
    const undo: (() => void)[] = [];
    const { rows } = this.kv;
    const { set } = rows;
    const remove = rows.delete;
    const before = (key: string): void => {
      const [had, value] = [rows.has(key), rows.get(key)];
      undo.push(() => (had ? set.call(rows, key, value) : remove.call(rows, key)));
    };
    rows.set = (key, value) => {
      before(key);
      return set.call(rows, key, value);
    };
    rows.delete = (key) => {
      before(key);
      return remove.call(rows, key);
    };
    try {
      return work();
    } catch (error) {
      for (const back of undo.reverse()) back();
      throw error;
    } finally {
      rows.set = set;
      rows.delete = remove;
    }
  };
  readonly setAlarm = async (at: number): Promise<void> => {
    this.#alarm = at;
  };
  readonly getAlarm = async (): Promise<number | null> => this.#alarm;
  readonly deleteAlarm = async (): Promise<void> => {
    this.#alarm = null;
  };
}

export type Living = { readonly storage: Storage; readonly object: Readonly<Record<string, Method>> };

/** Objects of one kind by name; values are copied on the way in and out, as between isolates. */
class Namespace {
  readonly living = new Map<string, Living>();
  readonly #kind: Kind;
  readonly #env: () => unknown;

  constructor(kind: Kind, env: () => unknown) {
    this.#kind = kind;
    this.#env = env;
  }

  readonly getByName = (name: string): object => {
    const { object } = this.#of(name);
    return new Proxy(object, {
      get: (_, method) =>
        method === "then"
          ? undefined
          : async (...values: unknown[]) => {
              const copied = structuredClone(values);
              return structuredClone(await object[String(method)]?.(...copied));
            },
    });
  };

  #of(name: string): Living {
    const known = this.living.get(name);
    if (known !== undefined) return known;
    const storage = new Storage();
    const made = { storage, object: new this.#kind({ storage, id: { name } }, this.#env()) };
    this.living.set(name, made);
    return made;
  }
}

export type InProcess = {
  readonly fetch: (request: Request) => Promise<Response>;
  readonly anyone: Client;
  readonly owner: Client;
  readonly stalls: ReadonlyMap<string, Living>;
  readonly fairs: ReadonlyMap<string, Living>;
};

/** Each line of the worker's log, until somebody asks for them. */
const lines: string[] = [];
const MOST_LINES = 5000;
const write = (line: string): void => void (lines.length < MOST_LINES && lines.push(line));
Object.assign(globalThis, {
  workersConsole: { info: write, warn: write, error: write },
  workersCrypto: quickCrypto,
  // An edge that keeps nothing: every request is answered by the worker.
  workersCaches: { default: { match: async () => undefined, put: async () => {} } },
});

/** The worker's log lines since the last call. */
export const logged = (): readonly string[] => lines.splice(0);

/** Adds the body's length, as a client does that sends it in one piece. */
async function measured(request: Request): Promise<Request> {
  if (request.body === null) return request;
  const { byteLength } = await request.clone().arrayBuffer();
  const headers = new Headers(request.headers);
  headers.set("content-length", String(byteLength));
  return new Request(request, { headers });
}

/** The longest that bundling may take on a slow machine, in milliseconds. */
export const BUNDLING = 180_000;

/** The worker with all its libraries as one module, `banner` before its first line. */
export async function workerText(banner: string): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [`${root}src/worker.ts`],
    bundle: true,
    write: false,
    format: "esm",
    target: "es2024",
    conditions: ["worker", "browser"],
    external: ["node:*"],
    banner: { js: banner },
    plugins: [platform],
    jsx: "automatic",
    jsxImportSource: "hono/jsx",
    logLevel: "warning",
  });
  return outputFiles[0]?.text ?? "";
}

const QUICK =
  "const console = globalThis.workersConsole, crypto = globalThis.workersCrypto, caches = globalThis.workersCaches;";

/** Starts a worker on empty stores. */
type Start = (bindings?: Readonly<Record<string, unknown>>) => InProcess;

let shared: Promise<Start> | null = null;

/** The worker as one module, which the test files of this process share. */
export function bundled(): Promise<Start> {
  shared ??= workerText(QUICK).then(loaded);
  return shared;
}

/** Loads the worker from the text of its module. */
export async function loaded(text: string): Promise<Start> {
  const folder = await mkdtemp(join(tmpdir(), "stallpress-worker-"));
  const file = join(folder, "worker.mjs");
  await writeFile(file, text);
  const worker = (await import(pathToFileURL(file).href)) as Worker; // as src/worker.ts exports it
  await rm(folder, { recursive: true });
  return (bindings = {}) => {
    let env: Readonly<Record<string, unknown>> = {};
    const stalls = new Namespace(worker.Stall, () => env);
    const fairs = new Namespace(worker.Fair, () => env);
    env = {
      KEY_SECRET: "a secret for tests only, and for nothing else",
      OWNER_SECRET,
      GATEWAY_SECRET,
      GATEWAY_NUMBER: "+12125550199",
      STALL: stalls,
      FAIR: fairs,
      ...bindings,
    };
    const context = { waitUntil: () => {}, passThroughOnException: () => {} };
    const fetch = (request: Request): Promise<Response> => worker.default.fetch(request, env, context);
    const anyone = new Client("http://stallpress.test", null, async (request) =>
      fetch(await measured(request)),
    );
    return { fetch, anyone, owner: anyone.withKey(OWNER_SECRET), stalls: stalls.living, fairs: fairs.living };
  };
}
