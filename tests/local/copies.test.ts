/** Copies of a store that is in use open as the stall was, and only the newest are kept. */
import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Client } from "../../src/local/client.ts";
import { type LoadedFair, loadExample } from "../../src/local/example.ts";
import { localSecrets } from "../../src/local/secrets.ts";
import { type Served, serve } from "../../src/local/serve.ts";
import { copiesIn, copyStore } from "../../src/local/store/copies.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at } from "../http/running.ts";

const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
const DRILL = fileURLToPath(new URL("../../src/local/store/restore-drill.ts", import.meta.url));

let folder: string;
let data: string;
let running: Served;
let fair: LoadedFair;

const open = async (store: string): Promise<Served> =>
  serve({ port: 0, host: "127.0.0.1", data: store, secrets: await localSecrets(store) });
const place = (served: Served): Promise<unknown> =>
  new Client(served.url).post(`${at(fair)}/orders`, { lines: [LINE] });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "stallpress-copies-"));
  data = join(folder, "data");
  running = await open(data);
  const { OWNER_SECRET } = await localSecrets(data);
  fair = await loadExample(new Client(running.url, OWNER_SECRET), Date.now());
});

afterAll(async () => {
  await running.stop();
  await rm(folder, { recursive: true, force: true });
});

it("opens as the stall was when it was copied, while the stall goes on", async () => {
  const copies = join(folder, "copies");
  await place(running);
  const name = await copyStore(data, copies, new Date("2027-06-12T14:05:00Z"));
  expect(name).toBe("2027-06-12T14-05-00Z");
  await place(running);
  const restored = await open(join(copies, name));
  try {
    const crew = new Client(restored.url, fair.stalls[0]?.key ?? "");
    expect((await crew.get<QueueView>(`${at(fair)}/queue`)).body.counts.waiting).toBe(1);
  } finally {
    await restored.stop();
  }
});

it("keeps the newest 24, and nothing of a copy that was broken off", async () => {
  const copies = join(folder, "many");
  for (let day = 1; day <= 25; day++)
    await mkdir(join(copies, `2027-05-${String(day).padStart(2, "0")}T10-00-00Z`), { recursive: true });
  await mkdir(join(copies, ".unfinished"));
  await writeFile(join(copies, ".unfinished", "left.sqlite"), "half");
  await copyStore(data, copies, new Date("2027-06-12T14:05:00Z"));
  const names = await copiesIn(copies);
  expect(names).toHaveLength(24);
  expect([names[0], names.at(-1)]).toEqual(["2027-05-03T10-00-00Z", "2027-06-12T14-05-00Z"]);
  expect(await readdir(copies)).toEqual(names);
});

it("is proved by the drill, which finds a damaged one", async () => {
  const copies = join(folder, "drilled");
  const drill = (): Promise<{ code: number | null; out: string }> =>
    new Promise((resolve) => {
      const child = spawn(process.execPath, [DRILL], { env: { ...process.env, STALLPRESS_COPIES: copies } });
      let out = "";
      child.stdout.on("data", (text) => (out += text));
      child.once("close", (code) => resolve({ code, out }));
    });
  const name = await copyStore(data, copies, new Date("2027-06-12T14:05:00Z"));
  const whole = await drill();
  expect(whole).toMatchObject({ code: 0, out: expect.stringContaining(`The copy ${name} opens`) });
  // Both orders of the tests above are in the line that a crew would see.
  expect(whole.out).toContain(
    "Tern & Tide at brackenfield: garments waiting 2, on a press 0; orders ready 0",
  );
  expect(whole.out).toContain("Gannet Goods at brackenfield: garments waiting 0");
  const stalls = join(copies, name, "do", "stallpress-Stall");
  for (const file of await readdir(stalls)) await writeFile(join(stalls, file), "not a store any more");
  expect((await drill()).code).not.toBe(0);
});
