/**
 * A whole stall saved and loaded, a small one and one of 200,000 orders with emoji in names and wishes and of 30,000
 * conversations: bytes, seconds, and what the worker keeps in memory at the most. `WHOLE_ORDERS=20000` makes it smaller.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "../../src/local/client.ts";
import { loadExample } from "../../src/local/example.ts";
import { serve } from "../../src/local/serve.ts";
import type { StallPart } from "../../src/model/accounts/whole-stall.ts";
import { freePort } from "../faults/worker-process.ts";
import { keptHeap } from "../http/heap.ts";
import type { Bench, Figure } from "./figure.ts";
import { SECRETS } from "./place.ts";
import { partsOfLived, type Size } from "./whole/lived.ts";

const LARGE_ORDERS = Number(process.env["WHOLE_ORDERS"] ?? 200_000);
const LARGE: Size = { orders: LARGE_ORDERS, conversations: Math.round(LARGE_ORDERS * 0.15) };
const SMALL: Size = { orders: LARGE.orders / 20, conversations: LARGE.conversations / 20 };
/** The extra memory allowed for a stall twenty times as large, in MiB. */
const MORE_MEBIBYTES = 16;
const EVERY_MS = 5000;
const TRIES = 3;

/** The most that the worker keeps while some work is done, in MiB: the collector runs before each look. */
async function peakDuring<T>(
  inspectorPort: number,
  work: () => Promise<T>,
): Promise<{ readonly value: T; readonly seconds: number; readonly peak: number }> {
  let [peak, over] = [0, false];
  const look = async (): Promise<void> => {
    do {
      peak = Math.max(peak, await keptHeap(inspectorPort));
      await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
    } while (!over);
  };
  const looking = look();
  const began = performance.now();
  try {
    const value = await work();
    const seconds = (performance.now() - began) / 1000;
    over = true;
    await looking;
    return { value, seconds, peak };
  } finally {
    over = true;
  }
}

type Place = { readonly crew: Client; readonly base: string };

/** Sends until there is an answer: a connection that was idle while a part was made may have been closed. */
async function answered<T>(send: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await send();
    } catch (error) {
      if (attempt >= TRIES) throw error;
    }
  }
}

/** Loads the parts into an empty stall; gives how many characters they had. */
async function load({ crew, base }: Place, parts: Iterable<StallPart>): Promise<number> {
  let [part, characters] = [0, 0];
  const upload = `${base}/everything/upload-of-the-bench`;
  for (const body of parts) {
    const text = JSON.stringify(body);
    characters += text.length;
    const type = { "content-type": "application/json" };
    const answer = await answered(() => crew.put(`${upload}/${part}`, text, type));
    if (answer.status !== 200) throw new Error(`part ${part}: ${JSON.stringify(answer.body).slice(0, 400)}`);
    part += 1;
  }
  const whole = await answered(() => crew.post(upload, { parts: part }));
  if (whole.status !== 200) throw new Error(`the whole: ${JSON.stringify(whole.body)}`);
  return characters;
}

/** Saves the stall; returns the bytes of the file, and keeps none of it. */
async function save(url: string, base: string, key: string): Promise<number> {
  const answer = await fetch(`${url}${base}/everything`, { headers: { authorization: `Bearer ${key}` } });
  if (answer.status !== 200 || answer.body === null) throw new Error(`saving: ${answer.status}`);
  let bytes = 0;
  let last = "";
  const decoder = new TextDecoder();
  for await (const piece of answer.body) {
    bytes += piece.length;
    last = decoder.decode(piece.slice(-3));
  }
  if (!last.endsWith("]}\n")) throw new Error("the file ends early");
  return bytes;
}

async function sized(name: string, size: Size): Promise<readonly [readonly Figure[], number]> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-whole-"));
  const inspectorPort = await freePort();
  const { url, stop } = await serve({ port: 0, inspectorPort, host: "127.0.0.1", data, secrets: SECRETS });
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const { fair, key } = await loadExample(owner, Date.now(), "brackenfield");
    const { body } = await owner.withKey(key).put<{ key: string }>(`/v1/fairs/${fair}/stalls/lived`, {
      name: "Lived",
    });
    const base = `/v1/fairs/${fair}/stalls/lived`;
    const place = { crew: owner.withKey(body.key), base };
    const loaded = await peakDuring(inspectorPort, () => load(place, partsOfLived(size)));
    const saved = await peakDuring(inspectorPort, () => save(url, base, body.key));
    const { body: board } = await place.crew.get<{ counts: { ready: number } }>(`${base}/queue`);
    if (board.counts.ready !== 0) throw new Error("an order is open");
    const peak = Math.max(loaded.peak, saved.peak);
    const figure = (what: string, value: number, unit: string): Figure => ({
      bench: "whole",
      name: `${name}: ${what}`,
      figure: value,
      goal: null,
      unit,
    });
    return [
      [
        figure("loaded", loaded.value / 1e6, "MB"),
        figure("loading takes", loaded.seconds, "s"),
        figure("kept in memory at the most while loading", loaded.peak, "MiB"),
        figure("saved", saved.value / 1e6, "MB"),
        figure("saving takes", saved.seconds, "s"),
        figure("kept in memory at the most while saving", saved.peak, "MiB"),
      ],
      peak,
    ];
  } finally {
    await stop();
    await rm(data, { recursive: true, force: true });
  }
}

async function run(): Promise<readonly Figure[]> {
  const [small, little] = await sized(`${SMALL.orders} orders, ${SMALL.conversations} conversations`, SMALL);
  const [large, much] = await sized(`${LARGE.orders} orders, ${LARGE.conversations} conversations`, LARGE);
  return [
    ...small,
    ...large,
    {
      bench: "whole",
      name: "kept in memory, the large stall beyond the small one",
      figure: much - little,
      goal: { atMost: MORE_MEBIBYTES },
      unit: "MiB",
    },
  ];
}

export const bench: Bench = { name: "whole", run };
