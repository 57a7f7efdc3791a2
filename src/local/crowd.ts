/** A seeded crowd: customers who order by conversation or at the counter, and a crew that presses. */
import { type Random, seededRandom } from "../maths/random.ts";
import type { ChatReply } from "../model/orders/chat.ts";
import type { QueueView } from "../model/orders/queue.ts";
import type { Client } from "./client.ts";
import type { LoadedFair, LoadedStall } from "./example.ts";

export type CrowdOptions = {
  readonly client: Client;
  readonly fair: LoadedFair;
  readonly seed: number;
  /** Mean seconds between two customers at a stall. */
  readonly everySeconds: number;
  /** Mean seconds a garment is on the press. */
  readonly pressSeconds: number;
  /** Ends the play. */
  readonly signal: AbortSignal;
};

/** Waits, but not past the end of the play. */
function pause(seconds: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) return resolve();
    const timer = setTimeout(done, seconds * 1000);
    function done(): void {
      clearTimeout(timer);
      signal.removeEventListener("abort", done);
      resolve();
    }
    signal.addEventListener("abort", done);
  });
}

/** Seconds to the next event of a steady stream. */
const exponential = (random: Random, mean: number): number => -Math.log(1 - random.next()) * mean;

/** Ways in which people order; a request for something off the menu gets a question back. */
const TEXTS = [
  "1 navy L",
  "2 sand M",
  "1 black XL",
  "navy large longtail tee",
  "2 navy m x2",
  "3",
  "4 black",
  "5",
  "6",
  "otter tee black L",
  "1",
];

async function customer({ client }: CrowdOptions, base: string, random: Random): Promise<void> {
  const id = (): string =>
    Array.from({ length: 22 }, () => random.pick([..."abcdefghijkmnpqrstuvwxyz23456789"])).join("");
  let speaker = client;
  let text = random.pick(TEXTS);
  // Anything still asked for is answered with the first choice; most people then say yes.
  for (let turn = 0; turn < 6; turn++) {
    const { status, body } = await speaker.post<ChatReply>(`${base}/chat`, { id: id(), text });
    if (status !== 200) return;
    speaker = client.withKey(body.customer);
    if (body.order !== undefined) return;
    const asksToConfirm = /\byes\b/i.test(body.replies[0]?.text ?? "");
    text = asksToConfirm ? (random.chance(0.93) ? "yes" : "drop") : "1";
  }
}

async function customers(options: CrowdOptions, stall: LoadedStall, random: Random): Promise<void> {
  const base = `/v1/fairs/${options.fair.fair}/stalls/${stall.stall}`;
  while (!options.signal.aborted) {
    await customer(options, base, random);
    await pause(exponential(random, options.everySeconds), options.signal);
  }
}

/** One press: pulls, presses, now and then spoils, and lets the counter hand over what is ready. */
async function press(options: CrowdOptions, stall: LoadedStall, name: string, random: Random): Promise<void> {
  const base = `/v1/fairs/${options.fair.fair}/stalls/${stall.stall}`;
  const crew = options.client.withKey(stall.key);
  while (!options.signal.aborted) {
    const pulled = await crew.post<{ job: { job: string } } | "">(`${base}/presses/${name}/pull`);
    if (pulled.status !== 200 || pulled.body === "") {
      await pause(2, options.signal);
      continue;
    }
    await pause(options.pressSeconds * (0.7 + random.next() * 0.6), options.signal);
    const { job } = pulled.body.job;
    if (random.chance(0.03))
      await crew.post(`${base}/jobs/${job}/spoiled`, { lost: "transfer", reason: "peeled-badly" });
    else await crew.post(`${base}/jobs/${job}/pressed`, {});
  }
}

async function counter(options: CrowdOptions, stall: LoadedStall, random: Random): Promise<void> {
  const base = `/v1/fairs/${options.fair.fair}/stalls/${stall.stall}`;
  const crew = options.client.withKey(stall.key);
  while (!options.signal.aborted) {
    const { body } = await crew.get<QueueView>(`${base}/queue`);
    // Some come at once, some have to be called again.
    for (const number of (body.ready ?? []).filter(() => random.chance(0.4))) {
      await crew.post(`${base}/orders/${number}/paid`, { tender: random.pick(["cash", "card"]) });
      await crew.post(`${base}/orders/${number}/collected`, {});
    }
    await pause(options.pressSeconds, options.signal);
  }
}

const PRESSES: Readonly<Record<string, readonly string[]>> = { tern: ["A", "B", "C"], gannet: ["A"] };

/** Plays the crowd until the signal ends it. The same seed draws the same customers and crew. */
export async function playCrowd(options: CrowdOptions): Promise<void> {
  const random = seededRandom(options.seed);
  const playing = options.fair.stalls.flatMap((stall) => [
    customers(options, stall, random.fork()),
    counter(options, stall, random.fork()),
    ...(PRESSES[stall.stall] ?? []).map((name) => press(options, stall, name, random.fork())),
  ]);
  await Promise.all(playing);
}
