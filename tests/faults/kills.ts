/**
 * `node tests/faults/kills.ts [--rounds 20] [--seed 1]`: the runtime is killed with SIGKILL at a random time under load,
 * started again on the same store, and killed again.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { seededRandom } from "../../src/maths/random.ts";
import { conclude, Orders } from "./orders.ts";
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

const data = await mkdtemp(join(tmpdir(), "stallpress-kills-"));
const port = await freePort();
let worker = await startProcess(port, data);
try {
  const orders = await Orders.open(worker.url);
  for (let round = 1; round <= rounds; round++) {
    let killed = false;
    const lane = async (): Promise<void> => {
      while (!killed) {
        const status = await orders.place();
        if (status !== 201 && status !== 0) orders.faults.push(`an order was answered ${status}`);
      }
    };
    const rush = Promise.all(Array.from({ length: LANES }, lane));
    await new Promise((resolve) => setTimeout(resolve, random.next() * LATEST));
    await worker.kill();
    killed = true;
    await rush;
    const open = orders.unanswered.size;
    worker = await startProcess(port, data);
    await orders.repeat();
    say(`round ${round}: ${orders.acknowledged.size} acknowledged in all, ${open} were broken off`);
  }
  say(`${rounds} kills, ${await orders.check()}`);
  conclude(orders.faults);
} finally {
  await worker.kill();
  await rm(data, { recursive: true, force: true });
}
