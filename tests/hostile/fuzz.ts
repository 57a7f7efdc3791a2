/**
 * Random and mutated requests over every route of the document and texts over the conversation, from one seed: no
 * fault, no hang, nothing half-written.
 */
import { isDeepStrictEqual } from "node:util";
import { type LoadedFair, loadExample } from "../../src/local/example.ts";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { fold } from "../../src/stall/rules/replay.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { loadState, readJournal } from "../../src/stall/storage/records.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { GATEWAY_SECRET, OWNER_SECRET } from "../http/secrets.ts";
import { rowsOf } from "../stall/rows.ts";
import { addressOf, bodySchema, type Document, instancesOf, type Route, routesOf } from "./document.ts";
import { type InProcess, type Living, logged } from "./in-process.ts";
import { bodyFrom, saying } from "./mutations.ts";

export type Fuzzed = {
  readonly sent: number;
  /** Answers with 500, as the request that got it. */
  readonly faults: readonly string[];
  /** Requests that took longer than HANG_MILLISECONDS of the processor's time, however often they were sent again. */
  readonly hangs: readonly string[];
  /** Stalls whose memory, records and journal disagree. */
  readonly halfWritten: readonly string[];
  readonly byStatus: ReadonlyMap<number, number>;
  readonly slowestMilliseconds: number;
};

export const HANG_MILLISECONDS = 50;
const SHOWN = 400;
/** As much of a body as a line holds, and how long it is. */
const shown = (body: string): string => `${body.length} characters, ${body.slice(0, SHOWN)}`;

const AGREEMENT_EVERY = 10_000;
const CUSTOMERS = 40;

/** Whether memory, records and the folded journal agree. */
function agrees({ object, storage }: Living): boolean {
  const { state } = (
    object as unknown as { readonly transactions: { readonly unit: { readonly state: StallState } } }
  ).transactions.unit; // every stall has them
  const store = storage.kv;
  const memory = rowsOf(state);
  const [loaded, folded] = [loadState(store), fold(readJournal(store))];
  return (
    isDeepStrictEqual(rowsOf(loaded), memory) &&
    isDeepStrictEqual(rowsOf(folded), memory) &&
    loaded.version === state.version &&
    folded.version === state.version
  );
}

/** Names that the example stall knows, by their field. */
const KNOWN: Readonly<Record<string, readonly unknown[]>> = {
  offer: ["longtail-tee", "otter-tee", "kite-tee", "no-such-tee"],
  colour: ["navy", "sand", "black"],
  size: ["S", "M", "L", "XL", "one"],
  sku: ["tee.navy.L", "tee.sand.M", "tee.navy.S"],
  design: ["longtail", "otter", "kite"],
  lost: ["blank", "transfer", "both"],
  quantity: [1, 2, 3],
  undo: [false, true],
};

/** The same value with some of its fields as this stall knows them. */
function likely(value: unknown, random: Random): unknown {
  if (Array.isArray(value)) return value.map((item) => likely(item, random));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, field]) => {
      const known = KNOWN[name];
      return [name, known !== undefined && random.chance(0.8) ? random.pick(known) : likely(field, random)];
    }),
  );
}

type Sending = { readonly route: string; readonly request: () => Request };

/** Draws requests for one loaded worker. */
class Requests {
  readonly #routes: readonly Route[];
  readonly #document: Document;
  readonly #random: Random;
  #fair: LoadedFair;
  readonly #customers: string[] = [];
  readonly #instances;
  #count = 0;

  constructor(document: Document, fair: LoadedFair, random: Random) {
    this.#document = document;
    this.#routes = routesOf(document).filter(({ path }) => path !== "/v1/fairs/{fair}/texts");
    this.#fair = fair;
    this.#random = random;
    this.#instances = instancesOf(this.#document, random);
  }

  /** Notes the token of a customer who may speak again. */
  heard(token: string): void {
    if (this.#customers.length < CUSTOMERS) this.#customers.push(token);
    else this.#customers[this.#random.below(CUSTOMERS)] = token;
  }

  /** Goes on with a key that has taken the place of the fair's or of its first stall's. */
  renewed(path: string, key: string): void {
    const [first, ...others] = this.#fair.stalls;
    if (!path.includes("/stalls/")) this.#fair = { ...this.#fair, key };
    else if (first !== undefined) this.#fair = { ...this.#fair, stalls: [{ ...first, key }, ...others] };
  }

  async next(): Promise<Sending> {
    const chance = this.#random.next();
    if (chance < 0.2) return this.#chat();
    if (chance < 0.3) return this.#text();
    return this.#call(this.#random.pick(this.#routes));
  }

  get #stall(): string {
    return `/v1/fairs/${this.#fair.fair}/stalls/${this.#fair.stalls[0]?.stall}`;
  }

  #chat(): Sending {
    const random = this.#random;
    const known = random.chance(0.9) && this.#customers.length > 0;
    const body = JSON.stringify({ id: `a-message-of-the-fuzz-${++this.#count}`, text: saying(random) });
    return this.#sending(
      "POST chat",
      `${this.#stall}/chat`,
      "POST",
      body,
      known ? random.pick(this.#customers) : null,
    );
  }

  async #text(): Promise<Sending> {
    const random = this.#random;
    const from = `+1212555010${random.below(10)}`;
    const text = { id: `text-${++this.#count}`, from, to: "+12125550199", text: saying(random) };
    const body = random.chance(0.9) ? JSON.stringify(text) : bodyFrom(text, random);
    const signature = await sign(GATEWAY_SECRET, body);
    return this.#sending("POST texts", `/v1/fairs/${this.#fair.fair}/texts`, "POST", body, null, {
      [SIGNATURE_HEADER]: signature,
    });
  }

  #keyFor(route: Route): string | null {
    const random = this.#random;
    if (route.keys.length === 0 || random.chance(0.03)) return null;
    switch (random.pick(route.keys)) {
      case "owner":
        return OWNER_SECRET;
      case "organiser":
        return this.#fair.key;
      case "crew":
        return this.#fair.stalls[0]?.key ?? null;
      case "customer":
        return this.#customers.length > 0 ? random.pick(this.#customers) : null;
      default:
        return null;
    }
  }

  #call(route: Route): Sending {
    const random = this.#random;
    const place = {
      fair: this.#fair.fair,
      stall: this.#fair.stalls[0]?.stall ?? "",
      number: 100 + random.below(60),
      job: `${100 + random.below(60)}-${1 + random.below(3)}`,
      press: random.pick(["A", "B", "C", "Z"]),
    };
    const schema = bodySchema(route);
    const body = schema === null ? null : bodyFrom(likely(this.#instances.of(schema), random), random);
    const address = addressOf(route, place, this.#instances);
    // Hours that are taken may be over, which would leave nothing to fuzz after them: they begin from an edition there is not.
    const never = route.path === "/v1/fairs/{fair}" ? { "if-match": '"f999"' } : {};
    const name = `${route.method} ${route.path}`;
    return this.#sending(name, address, route.method, body, this.#keyFor(route), never);
  }

  #sending(
    route: string,
    address: string,
    method: string,
    body: string | null,
    key: string | null,
    more: Readonly<Record<string, string>> = {},
  ): Sending {
    const sent = body ?? "{}";
    const request = (): Request =>
      new Request(`http://stallpress.test${address}`, {
        method,
        headers: {
          ...(key === null ? {} : { authorization: `Bearer ${key}` }),
          ...(method === "GET"
            ? {}
            : {
                "content-type": "application/json",
                "content-length": String(Buffer.byteLength(sent)),
                "idempotency-key": `fuzz-${++this.#count}-x`,
              }),
          ...more,
        },
        ...(method === "GET" ? {} : { body: sent }),
      });
    return { route, request };
  }
}

/** Answers one request, and how long that took. */
async function timed(worker: InProcess, request: Request) {
  const before = performance.now();
  const response = await worker.fetch(request);
  return { response, milliseconds: performance.now() - before };
}

/** The processor's time that one request takes, in milliseconds: what else the machine does is not counted. */
async function workOf(worker: InProcess, request: Request): Promise<number> {
  const before = process.cpuUsage();
  await worker.fetch(request);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Sends `bodies` requests from one seed; each worker lives for `AGREEMENT_EVERY` of them. */
export async function fuzz(start: () => InProcess, bodies: number, seed: number): Promise<Fuzzed> {
  const random = seededRandom(seed);
  const faults: string[] = [];
  const hangs: string[] = [];
  const halfWritten: string[] = [];
  const byStatus = new Map<number, number>();
  let slowestMilliseconds = 0;
  for (let sent = 0; sent < bodies; ) {
    const worker = start();
    const fair = await loadExample(worker.owner, Date.now());
    const { body: document } = await worker.anyone.get<Document>("/v1/openapi.json");
    const requests = new Requests(document, fair, random.fork());
    for (const end = Math.min(bodies, sent + AGREEMENT_EVERY); sent < end; sent++) {
      const sending = await requests.next();
      let { response, milliseconds } = await timed(worker, sending.request());
      const { status } = response;
      byStatus.set(status, (byStatus.get(status) ?? 0) + 1);
      if (status >= 500) {
        const request = sending.request();
        faults.push(
          `seed ${seed}: ${sending.route} ${(await request.text()).slice(0, 400)}: ${logged().slice(-3).join(" ")}`,
        );
      } else if (sending.route === "POST chat" && status === 200) {
        requests.heard(((await response.json()) as { customer: string }).customer);
      }
      if (sending.route.endsWith("/key") && status === 200)
        requests.renewed(sending.route, ((await response.json()) as { key: string }).key);
      // Another program or a garbage collection may slow any request; a slow request is slow again on repeat.
      for (let again = 0; again < 4 && milliseconds > HANG_MILLISECONDS; again++)
        milliseconds = Math.min(milliseconds, await workOf(worker, sending.request()));
      slowestMilliseconds = Math.max(slowestMilliseconds, milliseconds);
      if (milliseconds > HANG_MILLISECONDS)
        hangs.push(
          `seed ${seed}: ${sending.route} ${milliseconds.toFixed(0)} ms: ${shown(await sending.request().text())}`,
        );
    }
    for (const [name, living] of worker.stalls)
      if (name.includes("/") && !agrees(living))
        halfWritten.push(`seed ${seed}: ${name} after ${sent} requests`);
    logged();
  }
  return { sent: bodies, faults, hangs, halfWritten, byStatus, slowestMilliseconds };
}
