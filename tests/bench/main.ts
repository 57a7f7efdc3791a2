/** The whole stack against the least that could do the same: see the figures' names. */
import { randomUUID } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Client } from "../../src/local/client.ts";
import { serve } from "../../src/local/serve.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { type Bench, type Figure, median } from "./figure.ts";
import { rate, type Shot } from "./main/load.ts";
import { LINE, openPlace, orderAt, type Place, SECRETS } from "./place.ts";

const ROUNDS = 7;
const ORDERS = 400;
const POLLS = 1500;
const CONNECTIONS = 32;

type Written = { readonly puts: number; readonly rows: readonly (readonly [string, unknown])[] };

async function measure(): Promise<readonly Figure[]> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-bench-"));
  const file = fileURLToPath(new URL("./main/worker.ts", import.meta.url));
  const { url, stop } = await serve({
    port: 0,
    host: "127.0.0.1",
    data,
    secrets: SECRETS,
    entry: { file, objects: { BARE: "Bare" } },
  });
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const stalls = new Map<string, Place>();
    for (const name of ["orders", "few", "many", "life"]) stalls.set(name, await openPlace(owner, name));
    const at = (name: string) => {
      const found = stalls.get(name);
      if (found === undefined) throw new Error(`no stall for ${name}`);
      return found;
    };
    const order = (name: string): Shot => orderAt(at(name));
    return [
      ...(await orders(url, order)),
      ...(await polls(url, at("orders"))),
      ...(await growth(url, order, at)),
      ...(await life(url, at("life"))),
    ];
  } finally {
    await stop();
    await rm(data, { recursive: true, force: true });
  }
}

/** Orders a second against bare transactions that write the same rows. */
async function orders(url: string, order: (name: string) => Shot): Promise<readonly Figure[]> {
  const bare = new Client(url);
  await rate(url, 50, CONNECTIONS, 201, () => order("orders"));
  await bare.get<Written>("/bare/written/orders/tern");
  await rate(url, 1, 1, 201, () => order("orders"));
  const { rows } = (await bare.get<Written>("/bare/written/orders/tern")).body;
  await bare.post("/bare/rows", rows);
  const write = (): Shot => ({
    method: "POST",
    path: "/bare/write",
    headers: { "idempotency-key": randomUUID() },
    body: JSON.stringify({ lines: [LINE] }),
  });
  await rate(url, 50, CONNECTIONS, 201, write);
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    ours.push(await rate(url, ORDERS, CONNECTIONS, 201, () => order("orders")));
    theirs.push(await rate(url, ORDERS, CONNECTIONS, 201, write));
  }
  return [
    { bench: "main", name: "orders a second at one stall", figure: median(ours), goal: null, unit: "/s" },
    {
      bench: "main",
      name: `bare transactions a second, the same ${rows.length} rows`,
      figure: median(theirs),
      goal: null,
      unit: "/s",
    },
    {
      bench: "main",
      name: "orders to bare transactions",
      figure: median(ours.map((value, n) => value / (theirs[n] ?? 1))),
      goal: { atLeast: 0.6 },
      unit: "ratio",
    },
  ];
}

/** 304 answers a second against a fixed 304 through the same front door. */
async function polls(
  url: string,
  { base, crew, key }: { base: string; crew: Client; key: string },
): Promise<readonly Figure[]> {
  // Nobody presses here, so on a busy machine orders run late, which changes every screen. During a pause none does.
  const paused = await crew.post(`${base}/pause`, { reason: "lunch" });
  if (paused.status !== 200) throw new Error(`pausing: ${paused.status}`);
  const tag = (await crew.get(`${base}/queue`)).headers.get("etag") ?? "";
  const headers = { authorization: `Bearer ${key}`, "if-none-match": tag };
  const queue = (): Shot => ({ method: "GET", path: `${base}/queue`, headers });
  const fixed = (): Shot => ({ method: "GET", path: "/v1/bench/fixed", headers });
  await rate(url, 300, CONNECTIONS, 304, queue);
  await rate(url, 300, CONNECTIONS, 304, fixed);
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    ours.push(await rate(url, POLLS, CONNECTIONS, 304, queue));
    theirs.push(await rate(url, POLLS, CONNECTIONS, 304, fixed));
  }
  return [
    { bench: "main", name: "304 polls a second", figure: median(ours), goal: null, unit: "/s" },
    {
      bench: "main",
      name: "304 polls to a fixed 304",
      figure: median(ours.map((value, n) => value / (theirs[n] ?? 1))),
      goal: { atLeast: 0.8 },
      unit: "ratio",
    },
  ];
}

/** A whole reply after a change, with 2,000 garments waiting against 20. */
async function growth(
  url: string,
  order: (name: string) => Shot,
  at: (name: string) => { base: string; crew: Client },
): Promise<readonly Figure[]> {
  await rate(url, 20, CONNECTIONS, 201, () => order("few"));
  await rate(url, 2000, CONNECTIONS, 201, () => order("many"));
  const times: Record<string, number[]> = { few: [], many: [] };
  for (let round = 0; round < 60; round++) {
    for (const name of round % 2 === 0 ? ["few", "many"] : ["many", "few"]) {
      const { base, crew } = at(name);
      // Pulling and handing back changes the version and leaves the line as long as it was.
      const { body } = await crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`);
      await crew.post(`${base}/jobs/${body.job.job}/returned`, {});
      const before = performance.now();
      const whole = await crew.get<QueueView>(`${base}/queue`);
      times[name]?.push(performance.now() - before);
      if (whole.status !== 200) throw new Error(`queue: ${whole.status}`);
    }
  }
  const few = median(times["few"] ?? []);
  const many = median(times["many"] ?? []);
  return [
    { bench: "main", name: "a whole reply after a change, 20 waiting", figure: few, goal: null, unit: "ms" },
    {
      bench: "main",
      name: "the same with 2,000 waiting, to 20",
      figure: many / few,
      goal: { atMost: 1.2 },
      unit: "ratio",
    },
  ];
}

/** Rows written for an order from placing to hand-over, everything its stall writes in that time included. */
async function life(url: string, { base, crew }: { base: string; crew: Client }): Promise<readonly Figure[]> {
  const bare = new Client(url);
  const ORDERS_LIVED = 40;
  await bare.get<Written>("/bare/written/life/tern");
  for (let n = 0; n < ORDERS_LIVED; n++) {
    const { body } = await crew.post<{ number: number }>(`${base}/orders`, { lines: [LINE] });
    await crew.post(`${base}/presses/A/pull`);
    await crew.post(`${base}/jobs/${body.number}-1/pressed`, {});
    await crew.post(`${base}/orders/${body.number}/paid`, {});
    await crew.post(`${base}/orders/${body.number}/collected`, {});
  }
  const { puts } = (await bare.get<Written>("/bare/written/life/tern")).body;
  const counter = puts / ORDERS_LIVED;

  let speaker = bare;
  for (let n = 0; n < ORDERS_LIVED; n++) {
    speaker = bare;
    let number = 0;
    for (const text of ["menu", "1", "1", "3", "1", "yes"]) {
      const { body } = await speaker.post<{ customer: string; order?: { number: number } }>(`${base}/chat`, {
        id: randomUUID(),
        text,
      });
      speaker = bare.withKey(body.customer);
      number = body.order?.number ?? 0;
    }
    await crew.post(`${base}/presses/A/pull`);
    await crew.post(`${base}/jobs/${number}-1/pressed`, {});
    await crew.post(`${base}/orders/${number}/paid`, {});
    await crew.post(`${base}/orders/${number}/collected`, {});
  }
  const talked = (await bare.get<Written>("/bare/written/life/tern")).body.puts / ORDERS_LIVED;
  return [
    {
      bench: "main",
      name: "records written per order over its life, placed, paid, collected",
      figure: counter,
      goal: { atMost: 24 },
      unit: "rows",
    },
    {
      bench: "main",
      name: "the same, ordered by conversation in six steps",
      figure: talked,
      goal: null,
      unit: "rows",
    },
  ];
}

export const bench: Bench = { name: "main", run: measure };
