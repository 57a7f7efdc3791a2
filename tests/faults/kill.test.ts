import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Client } from "../../src/local/client.ts";
import { loadExample } from "../../src/local/example.ts";
import type { OrderView, PlacedOrder } from "../../src/model/order.ts";
import type { StockView } from "../../src/model/stock.ts";
import { OWNER_SECRET } from "../http/secrets.ts";
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
    const client = new Client(worker?.url ?? "");
    const fair = await loadExample(client.withKey(OWNER_SECRET), Date.now());
    const base = `/v1/fairs/${fair.fair}/stalls/tern`;
    const crewKey = fair.stalls[0]?.key ?? "";
    const entries = [
      { sku: "tee.navy.L", counted: 400 },
      { design: "longtail", counted: 400 },
    ];
    await client.withKey(crewKey).post(`${base}/stock`, { entries });

    const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
    const acknowledged = new Map<string, PlacedOrder>();
    const unanswered: string[] = [];
    const order = async (n: number): Promise<void> => {
      const key = `order-number-${n}`;
      try {
        const { status, body } = await client.post<PlacedOrder>(
          `${base}/orders`,
          { lines },
          { "idempotency-key": key },
        );
        if (status === 201) acknowledged.set(key, body);
      } catch {
        unanswered.push(key);
      }
    };
    const rush = Promise.all(
      Array.from({ length: 8 }, async (_, lane) => {
        for (let n = 0; n < 40; n++) await order(lane * 100 + n);
      }),
    );
    await expect.poll(() => acknowledged.size, { timeout: 20_000, interval: 5 }).toBeGreaterThan(60);
    await worker?.kill();
    await rush;
    expect(unanswered.length).toBeGreaterThan(0);

    worker = await startProcess(port, data);
    for (const { number, claim, word } of acknowledged.values()) {
      const { status, body } = await client.withKey(claim).get<OrderView>(`${base}/orders/${number}`);
      expect([status, JSON.stringify(body)]).toEqual([200, expect.anything()]);
      expect([body.number, body.word]).toEqual([number, word]);
    }
    const again = await Promise.all(
      unanswered.map((key) =>
        client.post<PlacedOrder>(`${base}/orders`, { lines }, { "idempotency-key": key }),
      ),
    );
    const numbers = [...acknowledged.values(), ...again.map(({ body }) => body)].map(({ number }) => number);
    expect(new Set(numbers).size).toBe(numbers.length);
    const stock = await client.withKey(crewKey).get<StockView>(`${base}/stock`);
    const navy = stock.body.skus.find(({ sku }) => sku === "tee.navy.L");
    expect(navy?.promised).toBe(numbers.length);
  });
});
