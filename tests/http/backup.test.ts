/** The runbook's back-up and restore: the folder is copied while nothing runs, and everything works from the copy. */
import { cp, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { Client } from "../../src/local/client.ts";
import { loadExample } from "../../src/local/example.ts";
import { localSecrets } from "../../src/local/secrets.ts";
import { serve } from "../../src/local/serve.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at } from "./running.ts";

const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

it("a copy of the data folder is the stall as it was, with every key and claim", async () => {
  const folder = await mkdtemp(join(tmpdir(), "stallpress-backup-"));
  const [data, copy] = [join(folder, "data"), join(folder, "copy")];
  const open = async (from: string) => {
    const served = await serve({ port: 0, host: "127.0.0.1", data: from, secrets: await localSecrets(from) });
    return { ...served, anyone: new Client(served.url) };
  };
  try {
    const before = await open(data);
    const { OWNER_SECRET } = await localSecrets(data);
    const fair = await loadExample(before.anyone.withKey(OWNER_SECRET), Date.now());
    const placed = await before.anyone.post<{ number: number; claim: string }>(`${at(fair)}/orders`, {
      lines: [LINE],
    });
    await before.stop();
    await cp(data, copy, { recursive: true });
    await rm(data, { recursive: true });
    await cp(copy, data, { recursive: true });
    const after = await open(data);
    const { number, claim } = placed.body;
    expect((await after.anyone.withKey(claim).get(`${at(fair)}/orders/${number}`)).status).toBe(200);
    const crew = after.anyone.withKey(fair.stalls[0]?.key ?? "");
    expect((await crew.get<QueueView>(`${at(fair)}/queue`)).body.counts.waiting).toBe(1);
    await after.stop();
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
