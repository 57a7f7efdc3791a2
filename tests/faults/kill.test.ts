import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Orders } from "./orders.ts";
import { freePort, startProcess, type WorkerProcess } from "./worker-process.ts";

let data: string;
let port: number;
let worker: WorkerProcess | undefined;

beforeAll(async () => {
  data = await mkdtemp(join(tmpdir(), "stallpress-kill-"));
  port = await freePort();
  worker = await startProcess(port, data);
});
afterAll(async () => {
  await worker?.kill();
  await rm(data, { recursive: true, force: true });
});

describe("a runtime killed in the middle of a rush", () => {
  it("has every order it acknowledged, each once, and takes a repeat of the others", async () => {
    const orders = await Orders.open(worker?.url ?? "");
    const statuses = new Set<number>();
    const lane = async (): Promise<void> => {
      for (let n = 0; n < 40; n++) statuses.add(await orders.place());
    };
    const rush = Promise.all(Array.from({ length: 8 }, lane));
    await expect.poll(() => orders.acknowledged.size, { timeout: 20_000, interval: 5 }).toBeGreaterThan(60);
    await worker?.kill();
    await rush;
    expect(statuses).toEqual(new Set([201, 0]));
    expect(orders.unanswered.size).toBeGreaterThan(0);

    worker = await startProcess(port, data);
    await orders.repeat();
    expect(await orders.check()).toBe("320 orders acknowledged: lost 0, doubled 0");
    expect(orders.faults).toEqual([]);
  }, 180_000);
});
