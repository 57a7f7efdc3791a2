/**
 * `npm run soak -- --minutes 30`: a paced crowd against the worker in its own process. Prints the memory and its slope,
 * then lets the crowd go home and looks for leftovers: a garment, a hold or a text.
 */

import { execFileSync } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { Client } from "../../src/local/client.ts";
import { playCrowd } from "../../src/local/crowd.ts";
import { loadExample } from "../../src/local/example.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { keptHeap } from "../http/heap.ts";
import { GATEWAY_SECRET, OWNER_SECRET } from "../http/secrets.ts";
import { openSink } from "../http/sink.ts";
import { freePort, startProcess } from "./worker-process.ts";

const LOOK_EVERY = 60_000;
/** The most that kept memory may grow in an hour, in MiB: orders, customers and journal rows all stay in storage. */
const FLAT = 4;
/** Compiling and first loading happen in this share of the time; the slope is of the rest. */
const WARMING = 1 / 3;
/** The longest that anything may last after the crowd has gone: holds last five minutes in the example. */
const REST = 8 * MINUTE;

const { values } = parseArgs({ options: { minutes: { type: "string", default: "30" } } });
const minutes = Number(values.minutes);
const say = (line: string): void => void process.stdout.write(`${line}\n`);
const wait = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Resident memory of the runtime in a process group, in MiB. */
function runtimeMemory(group: number): number {
  const lines = execFileSync("ps", ["-eo", "pgid=,rss=,comm="], { encoding: "utf8" }).split("\n");
  const sizes = lines
    .map((line) => line.trim().split(/\s+/))
    .filter(([pgid, , name]) => Number(pgid) === group && name === "workerd")
    .map(([, kib]) => Number(kib));
  if (sizes.length === 0) throw new Error("the runtime is gone");
  return sizes.reduce((sum, kib) => sum + kib, 0) / 1024;
}

/** Slope of a least-squares line, in the ordinate's unit for each unit of the abscissa. */
function slope(points: readonly (readonly [x: number, y: number])[]): number {
  const meanX = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const meanY = points.reduce((sum, [, y]) => sum + y, 0) / points.length;
  const over = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  return over / points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
}

const data = await mkdtemp(join(tmpdir(), "stallpress-soak-"));
const sink = await openSink(GATEWAY_SECRET);
const inspectorPort = await freePort();
const worker = await startProcess(await freePort(), data, [sink.url, "+12125550199", String(inspectorPort)]);
const client = new Client(worker.url);
const fair = await loadExample(client.withKey(OWNER_SECRET), Date.now());
const stop = new AbortController();
const faults: string[] = [];

/** People who text, one every few seconds, from numbers kept for fiction. */
let said = 0;
async function texters(): Promise<void> {
  for (let n = 0; !stop.signal.aborted; n++) {
    const from = `+121255501${String(n % 99).padStart(2, "0")}`;
    for (const text of ["tern 1 navy L", "yes", "status"]) {
      const body = JSON.stringify({ id: `soak-${n}-${text.slice(0, 1)}`, from, to: "+12125550199", text });
      const seal = { [SIGNATURE_HEADER]: await sign(GATEWAY_SECRET, body) };
      const { status } = await client.post(`/v1/fairs/${fair.fair}/texts`, body, seal);
      if (status === 200) said += 1;
      else faults.push(`a text was answered with ${status}`);
      await wait(2500);
    }
  }
}

const playing = playCrowd({ client, fair, seed: 1, everySeconds: 6, pressSeconds: 8, signal: stop.signal });
const texting = texters();
const points: (readonly [minute: number, mebibytes: number])[] = [];
const began = performance.now();
const elapsed = (): number => (performance.now() - began) / MINUTE;
try {
  while (elapsed() < minutes) {
    await wait(LOOK_EVERY);
    const kept = await keptHeap(inspectorPort);
    points.push([elapsed(), kept]);
    say(
      `${elapsed().toFixed(1)} min: ${kept.toFixed(2)} MiB kept, ${runtimeMemory(worker.group).toFixed(0)} MiB resident, ${sink.texts.length} texts out`,
    );
  }
  stop.abort();
  await Promise.all([playing, texting]);
  const later = points.filter(([minute]) => minute >= minutes * WARMING);
  const perHour = slope(later) * 60;
  const sizes = later.map(([, size]) => size);
  say(`kept after warming: ${Math.min(...sizes).toFixed(2)} to ${Math.max(...sizes).toFixed(2)} MiB`);
  say(`slope: ${perHour.toFixed(2)} MiB an hour (at most ${FLAT})`);
  if (perHour > FLAT) faults.push(`what is kept grows by ${perHour.toFixed(2)} MiB an hour`);
  say(`texts in ${said}, texts out ${sink.texts.length}`);

  // The crew presses and hands over the rest; then nothing may be promised or waiting.
  for (const { stall, key } of fair.stalls) {
    const base = `/v1/fairs/${fair.fair}/stalls/${stall}`;
    const crew = client.withKey(key);
    const until = performance.now() + REST;
    for (;;) {
      for (const press of ["A", "B", "C"]) {
        const pulled = await crew.post<{ job?: { job: string } } | "">(`${base}/presses/${press}/pull`);
        const job = pulled.body === "" ? undefined : pulled.body.job;
        if (job !== undefined) await crew.post(`${base}/jobs/${job.job}/pressed`);
      }
      const queue = (await crew.get<QueueView>(`${base}/queue`)).body;
      for (const number of queue.ready) {
        await crew.post(`${base}/orders/${number}/paid`, { tender: "cash" });
        await crew.post(`${base}/orders/${number}/collected`);
      }
      const stock = (await crew.get<StockView>(`${base}/stock`)).body;
      const promised = stock.skus.reduce((sum, sku) => sum + sku.promised, 0);
      if (promised === 0 && queue.ready.length === 0) break;
      if (performance.now() > until) {
        faults.push(`${stall}: ${promised} pieces still promised, ${queue.ready.length} orders still ready`);
        break;
      }
      await wait(5000);
    }
  }
  const quiet = sink.texts.length;
  await wait(MINUTE);
  // Each text is answered by one at least.
  if (quiet < said) faults.push(`${said} texts in, and only ${quiet} out`);
  if (sink.texts.length !== quiet) faults.push("texts still came a minute after everything was done");
  const answered = await client.get<{ status: string }>("/v1/health");
  if (answered.status !== 200) faults.push(`health answers ${answered.status}`);
} finally {
  stop.abort();
  await worker.kill();
  await sink.stop();
  await rm(data, { recursive: true, force: true });
}
for (const fault of new Set(faults)) say(`FAULT: ${fault}`);
say(faults.length === 0 ? "nothing was left behind" : `${faults.length} faults`);
process.exitCode = faults.length === 0 ? 0 : 1;
