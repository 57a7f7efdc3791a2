/** Workers for tests: one that the files of a process share, and others on a store of their own. */
import { rmSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "../../src/local/client.ts";
import { type LoadedFair, loadExample } from "../../src/local/example.ts";
import { handsetFor } from "../../src/local/handset/handset.ts";
import { type ServeOptions, serve } from "../../src/local/serve.ts";
import { GATEWAY_SECRET, OWNER_SECRET } from "./secrets.ts";

export { GATEWAY_SECRET } from "./secrets.ts";

const GATEWAY_NUMBER = "+12125550199";
export const PHONES_KEY = "opens-the-pretend-phones";

export type Running = {
  readonly url: string;
  readonly anyone: Client;
  readonly owner: Client;
  readonly stop: () => Promise<void>;
};

/** Starts a worker on a free port and a fresh folder. */
export async function start(
  more: Readonly<Record<string, string>> = {},
  serving: Partial<Pick<ServeOptions, "port" | "handset" | "log" | "limits">> = {},
): Promise<Running> {
  return startIn(await mkdtemp(join(tmpdir(), "stallpress-")), more, serving);
}

async function startIn(
  data: string,
  more: Readonly<Record<string, string>> = {},
  serving: Partial<Pick<ServeOptions, "port" | "handset" | "log" | "limits">> = {},
): Promise<Running> {
  const secrets = {
    KEY_SECRET: "a secret for tests only, and for nothing else",
    OWNER_SECRET,
    GATEWAY_SECRET,
    ...more,
  };
  const served = await serve({ port: 0, host: "127.0.0.1", data, secrets, ...serving });
  const anyone = new Client(served.url);
  return {
    url: served.url,
    anyone,
    owner: anyone.withKey(OWNER_SECRET),
    stop: async () => {
      await served.stop();
      await rm(data, { recursive: true, force: true });
    },
  };
}

let sharedWorker: Promise<Running> | null = null;

/**
 * The worker that the test files of this process share: each file loads its own fairs into it (`example`). It ends with
 * the process; a file that needs other secrets, limits or an empty store starts its own.
 */
export function shared(): Promise<Running> {
  sharedWorker ??= (async () => {
    const data = await mkdtemp(join(tmpdir(), "stallpress-"));
    process.once("exit", () => rmSync(data, { recursive: true, force: true }));
    const running = await startIn(data);
    return { ...running, stop: async () => {} };
  })();
  return sharedWorker;
}

/** A port that nothing listens on at the moment. */
function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer().once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      const port = typeof address === "object" && address !== null ? address.port : 0;
      server.close(() => resolve(port));
    });
  });
}

/** A worker whose texts go to and come from pretend phones at /phones. */
export async function startWithPhones(fair: string | null): Promise<Running> {
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const handset = handsetFor({
    secret: GATEWAY_SECRET,
    number: GATEWAY_NUMBER,
    worker: () => url,
    fair,
    key: PHONES_KEY,
  });
  return start({ GATEWAY_URL: `${url}/phones/outbound`, GATEWAY_NUMBER }, { port, handset });
}

let fairsLoaded = 0;

/** Loads the example fair, under a name that no other test of this process has. */
export const example = (
  running: Pick<Running, "owner">,
  fair = `brackenfield-${++fairsLoaded}`,
): Promise<LoadedFair> => loadExample(running.owner, Date.now(), fair);

/** The address of a loaded stall's API. */
export const at = (fair: LoadedFair, index = 0): string =>
  `/v1/fairs/${fair.fair}/stalls/${fair.stalls[index]?.stall}`;
