/**
 * The costs that grow with a fair, small against large in one run, in turn: stalls, waiting garments, past orders.
 * Prints the ratios that the README names.
 */
import { randomUUID } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Client } from "../../src/local/client.ts";
import { serve } from "../../src/local/serve.ts";
import { freePort } from "../faults/worker-process.ts";
import { keptHeap } from "../http/heap.ts";
import { type Bench, type Figure, median } from "./figure.ts";
import { rate } from "./main/load.ts";
import { LINE, openPlace, orderAt, type Place, SECRETS } from "./place.ts";

const CONNECTIONS = 32;
const ROUNDS = 41;
const SPEAKERS = 8;
const WAITING = { small: 20, large: 5000 };
const PAST = 200_000;
const STALLS = 300;
const MOST = 1.5;
/** An isolate may hold 128 MiB (Cloudflare Workers, limits), all its objects and the code together. */
const MOST_MEBIBYTES = 64;

/** Milliseconds of pull, place, poll and the question after one's order, once each. */
async function once({ base, crew }: Place, speaker: Client): Promise<Record<string, number>> {
  const timed = async <T>(work: () => Promise<{ status: number; body: T }>) => {
    const before = performance.now();
    const answer = await work();
    const took = performance.now() - before;
    if (answer.status >= 300) throw new Error(`${answer.status}: ${JSON.stringify(answer.body)}`);
    return { took, body: answer.body };
  };
  const place = await timed(() => crew.post<{ number: number }>(`${base}/orders`, { lines: [LINE] }));
  const pull = await timed(() => crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`));
  const poll = await timed(() => crew.get(`${base}/queue`));
  const status = await timed(() =>
    speaker.post<{ replies: readonly { text: string }[] }>(`${base}/chat`, {
      id: randomUUID(),
      text: "status",
    }),
  );
  if (!/\d{3}: /.test(JSON.stringify(status.body)))
    throw new Error(`no order in the answer: ${JSON.stringify(status.body)}`);
  // Handed over, so that the line is as long as it was.
  const { job } = pull.body.job;
  await crew.post(`${base}/jobs/${job}/pressed`);
  await crew.post(`${base}/orders/${job.split("-")[0]}/paid`);
  await crew.post(`${base}/orders/${job.split("-")[0]}/collected`);
  return { pull: pull.took, place: place.took, poll: poll.took, STATUS: status.took };
}

/** A web customer with an order in line, for STATUS to find. */
async function speakerAt(url: string, { base }: Place): Promise<Client> {
  let client = new Client(url);
  for (const text of ["1 navy L", "yes"]) {
    const said = await client.post<{ customer: string; order?: { number: number } }>(`${base}/chat`, {
      id: randomUUID(),
      text,
    });
    client = client.withKey(said.body.customer);
    if (text === "yes" && said.body.order === undefined) throw new Error("the customer has no order");
  }
  return client;
}

type Side = { readonly place: Place; readonly speakers: readonly Client[] };

/** A stall with its customers, who order before the line is too long for them: each may text so often a minute only. */
async function sideOf(url: string, owner: Client, fair: string): Promise<Side> {
  const place = await openPlace(owner, fair);
  const speakers: Client[] = [];
  for (let n = 0; n < SPEAKERS; n++) speakers.push(await speakerAt(url, place));
  return { place, speakers };
}

async function compared(what: string, small: Side, large: Side): Promise<readonly Figure[]> {
  const sides = [small, large];
  const times = [new Map<string, number[]>(), new Map<string, number[]>()];
  for (let round = -3; round < ROUNDS; round++) {
    for (const side of round % 2 === 0 ? [0, 1] : [1, 0]) {
      const { place, speakers = [] } = sides[side] ?? {};
      const speaker = speakers[(round + SPEAKERS) % SPEAKERS];
      if (place === undefined || speaker === undefined) continue;
      for (const [name, took] of Object.entries(await once(place, speaker)))
        if (round >= 0) times[side]?.set(name, [...(times[side]?.get(name) ?? []), took]);
    }
  }
  return ["pull", "place", "poll", "STATUS"].map((name) => {
    const [little, much] = times.map((of) => median(of.get(name) ?? []));
    const ratio = (much ?? Number.NaN) / (little ?? Number.NaN);
    console.log(
      `| ${what} | ${name} | ${little?.toFixed(2)} ms | ${much?.toFixed(2)} ms | ${ratio.toFixed(2)} |`,
    );
    return {
      bench: "growth",
      name: `${what}: ${name}, large to small`,
      figure: ratio,
      goal: { atMost: MOST },
      unit: "ratio",
    };
  });
}

async function measure(): Promise<readonly Figure[]> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-growth-"));
  const file = fileURLToPath(new URL("./growth/worker.ts", import.meta.url));
  const inspectorPort = await freePort();
  const { url, stop } = await serve({
    port: 0,
    inspectorPort,
    host: "127.0.0.1",
    data,
    secrets: SECRETS,
    entry: { file, objects: {} },
  });
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const [alone, crowded, few, many, fresh, old] = await Promise.all(
      ["alone", "crowded", "few", "many", "fresh", "old"].map((fair) => sideOf(url, owner, fair)),
    );
    if (!alone || !crowded || !few || !many || !fresh || !old) throw new Error("the stalls did not open");
    const organiser = (
      await owner.post<{ key: string }>("/bench/more-stalls", { fair: "crowded", stalls: STALLS })
    ).status;
    if (organiser !== 201) throw new Error(`the stalls were not added: ${organiser}`);

    console.log("| what grows | | small | large | ratio |\n| --- | --- | --- | --- | --- |");
    const figures: Figure[] = [];
    for (const { place } of [alone, crowded, fresh, old])
      await rate(url, 20, CONNECTIONS, 201, () => orderAt(place));
    figures.push(...(await compared(`stalls of the fair, 2 to ${STALLS}`, alone, crowded)));

    const passed = await owner.post(`/bench/past`, { stall: "old/tern", orders: PAST });
    if (passed.status !== 201) throw new Error(`the past was not written: ${passed.status}`);
    figures.push(...(await compared(`past orders, 0 to ${PAST}`, fresh, old)));

    await rate(url, WAITING.small, CONNECTIONS, 201, () => orderAt(few.place));
    const before = await keptHeap(inspectorPort);
    await rate(url, WAITING.large, CONNECTIONS, 201, () => orderAt(many.place));
    const grown = (await keptHeap(inspectorPort)) - before;
    figures.push(...(await compared(`waiting garments, ${WAITING.small} to ${WAITING.large}`, few, many)), {
      bench: "growth",
      name: `kept in memory by a stall where ${WAITING.large} orders wait`,
      figure: grown,
      goal: { atMost: MOST_MEBIBYTES },
      unit: "MiB",
    });
    return figures;
  } finally {
    await stop();
    await rm(data, { recursive: true, force: true });
  }
}

export const bench: Bench = { name: "growth", run: measure };
