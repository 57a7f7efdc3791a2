/** A rush of customers by text, through a gateway on a bad day, over a worker that is killed in the middle. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "../../../src/local/client.ts";
import { seededRandom } from "../../../src/maths/random.ts";
import type { CrewOrderView } from "../../../src/model/orders/order.ts";
import { OWNER_SECRET } from "../../http/secrets.ts";
import { freePort, type ServerProcess, serveProcess, startProcess } from "../worker-process.ts";
import { openFair } from "./fair.ts";
import type { Entry } from "./log.ts";

const NUMBER = "+12125550199";
const AREAS = [201, 202, 203, 205, 206, 207, 208, 209, 210, 212];
/** 555-0100 to 555-0199 of ten area codes: numbers kept for fiction. */
const phoneOf = (n: number): string =>
  `+1${AREAS[Math.floor(n / 100) % 10]}555${String(100 + (n % 100)).padStart(4, "0")}`;

type Customer = {
  readonly phone: string;
  /** The pickup number the stall's reply named. */
  order: number | null;
};

export type Rush = {
  readonly customers: readonly Customer[];
  readonly entries: readonly Entry[];
  /** Orders handed over while their text may still have been on its way. */
  readonly collected: ReadonlySet<number>;
  readonly base: string;
  readonly crew: Client;
  readonly seconds: number;
  readonly stop: () => Promise<void>;
};

const wait = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Tries until it succeeds: a server may be down just now. */
async function insist<T>(what: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      return await what();
    } catch {
      await wait(50);
    }
  }
}

/** All entries of the relay, read on from the last look. */
class Inbox {
  readonly entries: Entry[] = [];
  readonly texts = new Map<string, string[]>();
  readonly #relay: () => Client;
  #looking: Promise<void> = Promise.resolve();

  constructor(relay: () => Client) {
    this.#relay = relay;
  }

  /** One look at a time: two at once would read on from the same place, and take an entry in twice. */
  look(): Promise<void> {
    this.#looking = this.#looking.then(() => this.#readOn());
    return this.#looking;
  }

  async #readOn(): Promise<void> {
    const { body } = await insist(() => this.#relay().get<Entry[]>(`/log?after=${this.entries.length}`));
    for (const entry of body) {
      this.entries.push(entry);
      if (entry.is !== "out") continue;
      this.texts.set(entry.to, [...(this.texts.get(entry.to) ?? []), entry.text]);
    }
  }

  /** Texts to a phone so far. */
  of(phone: string): readonly string[] {
    return this.texts.get(phone) ?? [];
  }
}

export type RushOptions = { readonly customers: number; readonly seed: number; readonly atOnce: number };

/** Plays the rush to its end: every customer has an order, everything is pressed, no text waits. */
export async function textRush({ customers: wanted, seed, atOnce }: RushOptions): Promise<Rush> {
  const began = performance.now();
  const random = seededRandom(seed);
  const data = await mkdtemp(join(tmpdir(), "stallpress-texts-"));
  const [port, relayPort] = [await freePort(), await freePort()];
  const gateway = [`http://127.0.0.1:${relayPort}/out`, NUMBER];
  let worker: ServerProcess = await startProcess(port, data, gateway);
  const hook = `${worker.url}/v1/fairs/rush/texts`;
  const relayArgs = [String(relayPort), join(data, "relay.log"), hook];
  let relay: ServerProcess = await serveProcess("./texts/relay.ts", [...relayArgs, String(seed)]);
  const client = new Client(worker.url);
  const { base, key } = await openFair(client.withKey(OWNER_SECRET), wanted);
  const crew = client.withKey(key);
  const phones = new Client(relay.url);
  const inbox = new Inbox(() => phones);
  const customers: Customer[] = Array.from({ length: wanted }, (_, n) => ({
    phone: phoneOf(n),
    order: null,
  }));

  const say = (phone: string, words: string, n: number): Promise<unknown> =>
    insist(() => phones.post("/say", { id: `${phone.slice(2)}-${n}`, from: phone, to: NUMBER, text: words }));
  const heard = async (phone: string, texts: number): Promise<string> => {
    for (;;) {
      const found = inbox.of(phone)[texts - 1];
      if (found !== undefined) return found;
      await wait(40);
    }
  };
  let over = false;
  const looking = (async () => {
    for (; !over; await wait(30)) await inbox.look();
  })();

  const queue = [...customers];
  const ordering = Array.from({ length: atOnce }, async () => {
    for (let customer = queue.shift(); customer !== undefined; customer = queue.shift()) {
      await say(customer.phone, "tern 1 navy L", 1);
      await heard(customer.phone, 1);
      await say(customer.phone, "yes", 2);
      customer.order = Number(/\b[1-9]\d{2,4}\b/.exec(await heard(customer.phone, 2))?.[0]);
    }
  });

  // The same key however often it is tried: a lost reply is given again.
  const once = <T>(path: string, key: string) =>
    insist(() => crew.post<T>(`${base}${path}`, {}, { "idempotency-key": `rush-${key}` }));
  let pressed = 0;
  const collected = new Set<number>();
  const pressing = ["A", "B", "C"].map(async (press) => {
    for (let n = 0; pressed < wanted; n++) {
      const pulled = await once<{ job: { job: string; number: number } } | "">(
        `/presses/${press}/pull`,
        `pull-${press}-${n}`,
      );
      if (pulled.status !== 200 || pulled.body === "") {
        await wait(50);
        continue;
      }
      const { job, number } = pulled.body.job;
      const done = await once(`/jobs/${job}/pressed`, `pressed-${job}`);
      if (done.status !== 200) throw new Error(`pressed ${job}: ${done.status}`);
      pressed += 1;
      if (!random.chance(0.25)) continue;
      const handed = await once(`/orders/${number}/collected`, `collected-${number}`);
      if (handed.status === 200) collected.add(number);
    }
  });

  const placed = (): number => customers.filter(({ order }) => order !== null).length;
  const until = async (share: number): Promise<void> => {
    while (placed() < wanted * share) await wait(20);
  };
  await until(0.3);
  await worker.kill();
  worker = await startProcess(port, data, gateway);
  await until(0.5);
  await relay.kill();
  relay = await serveProcess("./texts/relay.ts", [...relayArgs, String(seed + 1)]);
  await until(0.7);
  await worker.kill();
  worker = await startProcess(port, data, gateway);
  await Promise.all(ordering);
  await Promise.all(pressing);
  await insist(() => phones.post("/calm"));
  const settled = async (): Promise<boolean> => {
    await inbox.look();
    const said = inbox.entries.filter(({ is }) => is === "said").length;
    const delivered = inbox.entries.filter(({ is }) => is === "delivered").length;
    if (delivered < said) return false;
    if (!customers.every(({ phone, order }) => collected.has(order ?? 0) || inbox.of(phone).length >= 3))
      return false;
    // The gateway may have taken a text and lost the answer: the stall then hands it over again before it rests.
    for (const { order } of customers) {
      const { body } = await insist(() => crew.get<CrewOrderView>(`${base}/orders/${order}/whole`));
      if (body.told === "waiting") return false;
    }
    return true;
  };
  while (!(await settled())) await wait(200);
  over = true;
  await looking;
  return {
    customers,
    entries: inbox.entries,
    collected,
    base,
    crew,
    seconds: (performance.now() - began) / 1000,
    stop: async () => {
      await worker.kill();
      await relay.kill();
      await rm(data, { recursive: true, force: true });
    },
  };
}
