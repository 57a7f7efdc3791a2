/**
 * `npm run faults -- --rounds 20 [--seed 1]`: the runtime is killed with SIGKILL at a random time under load, started
 * again on the same store, and killed again. Every order that was acknowledged in any round must be there, once.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { Client } from "../../src/local/client.ts";
import { loadExample } from "../../src/local/example.ts";
import { seededRandom } from "../../src/maths/random.ts";
import type { OrderView, PlacedOrder } from "../../src/model/order.ts";
import type { StockView } from "../../src/model/stock.ts";
import { OWNER_SECRET } from "../http/secrets.ts";
import { freePort, startProcess } from "./worker-process.ts";

const LANES = 8;
/** A kill falls this many milliseconds after the rush began, at the latest. */
const LATEST = 1500;
const { values } = parseArgs({
  options: { rounds: { type: "string", default: "20" }, seed: { type: "string", default: "1" } },
});
const rounds = Number(values.rounds);
const random = seededRandom(Number(values.seed));
const say = (line: string): void => void process.stdout.write(`${line}\n`);

const data = await mkdtemp(join(tmpdir(), "stallpress-rounds-"));
const port = await freePort();
let worker = await startProcess(port, data);
const client = new Client(worker.url);
const fair = await loadExample(client.withKey(OWNER_SECRET), Date.now());
const base = `/v1/fairs/${fair.fair}/stalls/tern`;
// The crew's orders are taken however long the line is.
const crew = client.withKey(fair.stalls[0]?.key ?? "");
const entries = [
  { sku: "tee.navy.L", counted: 90_000 },
  { design: "longtail", counted: 90_000 },
];
await crew.post(`${base}/stock`, { entries });
const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];

const acknowledged = new Map<string, PlacedOrder>();
const unanswered = new Set<string>();
const faults: string[] = [];
let asked = 0;

async function place(key: string): Promise<void> {
  try {
    const { status, body } = await crew.post<PlacedOrder>(
      `${base}/orders`,
      { lines },
      { "idempotency-key": `"${key}"` },
    );
    if (status !== 201) {
      faults.push(`${key}: answered ${status}`);
      return;
    }
    const before = acknowledged.get(key);
    if (before !== undefined && before.number !== body.number)
      faults.push(`${key}: was order ${before.number}, repeated it is ${body.number}`);
    acknowledged.set(key, body);
    unanswered.delete(key);
  } catch {
    unanswered.add(key);
  }
}

try {
  for (let round = 1; round <= rounds; round++) {
    let killed = false;
    const rush = Promise.all(
      Array.from({ length: LANES }, async () => {
        while (!killed) await place(`order-number-${asked++}`);
      }),
    );
    await new Promise((resolve) => setTimeout(resolve, random.next() * LATEST));
    await worker.kill();
    killed = true;
    await rush;
    const open = unanswered.size;
    worker = await startProcess(port, data);
    // What was not answered is sent again; and some of what was, as a device does that did not hear it.
    for (const key of [...unanswered]) await place(key);
    for (const key of [...acknowledged.keys()].slice(-5)) await place(key);
    say(`round ${round}: ${acknowledged.size} acknowledged in all, ${open} were broken off`);
  }
  let lost = 0;
  for (const { number, claim, word } of acknowledged.values()) {
    const { status, body } = await client.withKey(claim).get<OrderView>(`${base}/orders/${number}`);
    if (status !== 200 || body.word !== word) lost += 1;
  }
  const numbers = new Set([...acknowledged.values()].map(({ number }) => number));
  const stock = (await crew.get<StockView>(`${base}/stock`)).body;
  const promised = stock.skus.find(({ sku }) => sku === "tee.navy.L")?.promised ?? 0;
  // Every order is one garment: what is promised beyond the acknowledged was done twice.
  const doubled = acknowledged.size - numbers.size + Math.max(0, promised - acknowledged.size);
  if (promised < acknowledged.size) faults.push(`only ${promised} garments are promised`);
  say(`${rounds} kills, ${acknowledged.size} orders: lost ${lost}, doubled ${doubled}`);
  if (lost + doubled + unanswered.size > 0) faults.push(`${unanswered.size} never answered`);
} finally {
  await worker.kill();
  await rm(data, { recursive: true, force: true });
}
for (const fault of faults) say(`FAULT: ${fault}`);
process.exitCode = faults.length === 0 ? 0 : 1;
