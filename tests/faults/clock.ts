/**
 * `node tests/faults/clock.ts`: moves the computer's clock back an hour, forward, and back to the right time under the
 * running worker. Orders keep their numbers, and texts go out at once at every time. On Linux with a C compiler, where
 * one process can have a clock of its own.
 */
import { execFileSync } from "node:child_process";
import { mkdtemp, open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { GATEWAY_SECRET } from "../http/secrets.ts";
import { openSink } from "../http/sink.ts";
import { conclude, Orders } from "./orders.ts";
import { freePort, startProcess } from "./worker-process.ts";

const HOUR = 3600;
const SHIFTS = [0, -HOUR, 0, HOUR, 0, -HOUR, HOUR, 0];
const ORDERS = 25;
/**
 * The longest that a text may take, in milliseconds: an alarm sends it, and an overdue alarm is set again after 10 s.
 */
const PATIENCE = 20_000;
const MOMENT = 2000;
const OWN_NUMBER = "+12125550199";
const say = (line: string): void => void process.stdout.write(`${line}\n`);

const data = await mkdtemp(join(tmpdir(), "stallpress-clock-"));
const library = join(data, "shifted-clock.so");
execFileSync("cc", [
  "-shared",
  "-fPIC",
  "-O2",
  "-o",
  library,
  fileURLToPath(new URL("shifted-clock.c", import.meta.url)),
]);
const shift = await open(join(data, "shift"), "w+");
async function set(seconds: number): Promise<void> {
  const bytes = Buffer.alloc(8);
  bytes.writeBigInt64LE(BigInt(seconds));
  await shift.write(bytes, 0, 8, 0);
}
await set(0);

const sink = await openSink(GATEWAY_SECRET);
const env = { LD_PRELOAD: library, SHIFT_FILE: join(data, "shift") };
const worker = await startProcess(await freePort(), join(data, "store"), [sink.url, OWN_NUMBER], { env });
try {
  const orders = await Orders.open(worker.url);
  const { faults } = orders;
  const fair = orders.base.split("/stalls/")[0] ?? "";
  // Texts go to the fair's second stall, where nothing else waits.
  const stall = `${fair}/stalls/gannet`;
  const crew = orders.crew.withKey(orders.keys.get("gannet") ?? "");

  /** Like every screen and gateway while the worker restarts: sends the same again. */
  async function again<T>(send: () => Promise<T>): Promise<T> {
    const until = performance.now() + PATIENCE;
    for (;;) {
      try {
        return await send();
      } catch (error) {
        if (performance.now() > until) throw error;
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
    }
  }

  async function text(from: string, id: string, said: string): Promise<void> {
    const body = JSON.stringify({ id, from, to: OWN_NUMBER, text: said });
    const seal = { [SIGNATURE_HEADER]: await sign(GATEWAY_SECRET, body) };
    const { status } = await again(() => orders.crew.withKey(null).post(`${fair}/texts`, body, seal));
    if (status !== 200) faults.push(`"${said}" was answered ${status}`);
  }

  /** Waits for a text to a number; the crew's screen polls all the while, as on any day. */
  async function comes(to: string, what: RegExp): Promise<void> {
    const until = performance.now() + PATIENCE;
    while (!sink.texts.some((sent) => sent.to === to && what.test(sent.text))) {
      if (performance.now() > until) {
        faults.push(`${to} got no text like ${what}`);
        return;
      }
      await again(() => crew.get(`${stall}/queue`));
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
  }

  for (const [turn, seconds] of SHIFTS.entries()) {
    await set(seconds);
    const began = performance.now();
    for (let n = 0; n < ORDERS; n++) {
      const status = await orders.place();
      if (status !== 201 && status !== 0) faults.push(`an order was answered ${status}`);
    }
    const from = `+121255501${turn}0`;
    await text(from, `${turn}-1`, "gannet 1 navy L");
    await comes(from, /yes/i);
    await text(from, `${turn}-2`, "yes");
    await comes(from, /\d{3}/);
    const { body } = await again(() =>
      crew.post<{ job: { job: string } }>(
        `${stall}/presses/A/pull`,
        {},
        { "idempotency-key": `"pull-${turn}-a"` },
      ),
    );
    await again(() => crew.post(`${stall}/jobs/${body.job.job}/pressed`));
    await comes(from, /ready/i);
    const took = (performance.now() - began) / 1000;
    say(
      `clock ${seconds === 0 ? "right" : `${seconds / HOUR} h`}: orders, texts and a garment in ${took.toFixed(1)} s`,
    );
    // Nobody sets a clock twice within a moment.
    await new Promise((resolve) => setTimeout(resolve, MOMENT));
  }
  await orders.repeat();
  say(`${SHIFTS.length} settings of the clock, ${await orders.check()}`);
  conclude(faults);
} finally {
  await worker.kill();
  await sink.stop();
  await shift.close();
  await rm(data, { recursive: true, force: true });
}
