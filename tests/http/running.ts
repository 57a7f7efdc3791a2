/** A worker on a store of its own, for one test file. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "../../src/local/client.ts";
import { type LoadedFair, loadExample } from "../../src/local/example.ts";
import { serve } from "../../src/local/serve.ts";
import { GATEWAY_SECRET, OWNER_SECRET } from "./secrets.ts";

export { GATEWAY_SECRET } from "./secrets.ts";

export type Running = {
  readonly url: string;
  readonly anyone: Client;
  readonly owner: Client;
  readonly stop: () => Promise<void>;
};

/** Starts a worker on a free port and a fresh folder. */
export async function start(more: Readonly<Record<string, string>> = {}): Promise<Running> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-"));
  const secrets = { KEY_SECRET: "a secret for tests only", OWNER_SECRET, GATEWAY_SECRET, ...more };
  const served = await serve({ port: 0, host: "127.0.0.1", data, secrets });
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

export const example = (running: Running, fair?: string): Promise<LoadedFair> =>
  loadExample(running.owner, Date.now(), fair);

/** The address of a loaded stall's API. */
export const at = (fair: LoadedFair, index = 0): string =>
  `/v1/fairs/${fair.fair}/stalls/${fair.stalls[index]?.stall}`;
