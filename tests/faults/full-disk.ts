/**
 * `node tests/faults/full-disk.ts`: the store's disk fills up during a rush, and has room again later. On Linux, where
 * the process gets a small private disk in memory.
 */
import { mkdtemp, rm, statfs, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Problem } from "../../src/model/basics/problem.ts";
import { conclude, Orders } from "./orders.ts";
import { freePort, startProcess } from "./worker-process.ts";

const MEBIBYTE = 1024 * 1024;
const SIZE = 8;
/** Room for some orders but not for many. */
const LEFT = 0.5;
const ORDERS = 400;
const say = (line: string): void => void process.stdout.write(`${line}\n`);

const data = await mkdtemp(join(tmpdir(), "stallpress-full-"));
const mounted = `mount -t tmpfs -o size=${SIZE}m tmpfs "${data}" && exec "$@"`;
const under = ["unshare", "--map-root-user", "--mount", "sh", "-c", mounted, "sh"];
const worker = await startProcess(await freePort(), data, [], { under });
// The disk as that process sees it.
const disk = `/proc/${worker.group}/root${data}`;
const filler = join(disk, "somebody-elses-pictures");
try {
  const orders = await Orders.open(worker.url);
  const { bavail, bsize } = await statfs(disk);
  await writeFile(filler, Buffer.alloc(bavail * bsize - LEFT * MEBIBYTE));
  const statuses = new Map<number, number>();
  for (let n = 0; n < ORDERS; n++) {
    const status = await orders.place();
    statuses.set(status, (statuses.get(status) ?? 0) + 1);
  }
  say(
    `${ORDERS} orders while the disk filled up: ${[...statuses].map(([status, n]) => `${n} answered ${status}`).join(", ")}`,
  );
  if (orders.acknowledged.size === 0) orders.faults.push("no order was taken while there was room");
  if ((statuses.get(507) ?? 0) === 0) orders.faults.push("nobody was told that the disk is full");
  for (const status of statuses.keys())
    if (status !== 201 && status !== 507) orders.faults.push(`an order was answered ${status}`);
  const { body } = await orders.crew.post<Problem>(`${orders.base}/presses/A/pull`);
  say(`the crew reads: ${body.detail}`);
  const ill = await orders.crew.get("/v1/health");
  if (ill.status !== 503) orders.faults.push(`health answered ${ill.status} with no room left`);

  await rm(filler);
  await orders.repeat();
  const well = await orders.crew.get("/v1/health");
  if (well.status !== 200) orders.faults.push(`health answers ${well.status} with room again`);
  say(`with room again, ${await orders.check()}`);
  conclude(orders.faults);
} finally {
  await worker.kill();
  await rm(data, { recursive: true, force: true });
}
