/** The text gateway on a bad day: it loses, doubles, reorders, answers late or not at all; and its customers' phones. */
import { takeIn } from "../../../src/http/routes/gateway/take-in.ts";
import type { PhoneNumber } from "../../../src/model/orders/order.ts";
import { RuleBroken, same } from "./fault.ts";
import { Lost } from "./host.ts";
import { FAIR, type House } from "./house.ts";

export type Weather = {
  /** Shares of texts that never come, and that come again. */
  lost: number;
  doubled: number;
  /** Longest way of a text, in milliseconds. */
  way: number;
  /** Shares of sendings that fail or get no answer. */
  failing: number;
  unanswered: number;
};

const CALM: Weather = { lost: 0, doubled: 0, way: 200, failing: 0, unanswered: 0 };
const TRIES = 8;

type Sent = { readonly id: string; readonly to: string; readonly text: string };

/** Words for opting out, in the languages that customers write. */
const STOPS = /^(?:stop|alto|baja)$/i;
const STARTS = /^(?:start|alta)$/i;

export class Gateway {
  weather: Weather = { ...CALM };
  /** Set by a planned outage: everything is answered 503 until then. */
  downUntil = 0;
  /** Deliveries under way. */
  pending = 0;
  readonly #house: House;
  readonly #fail: (error: unknown) => void;
  /** Numbers that opted out, with the replies they may still get. */
  readonly #stopped = new Map<string, Set<string>>();
  readonly #answers = new Map<string, readonly string[]>();
  readonly #lanes = new Map<string, Promise<void>>();

  constructor(house: House, fail: (error: unknown) => void) {
    this.#house = house;
    this.#fail = fail;
  }

  calm(): void {
    this.weather = { ...CALM };
    this.downUntil = 0;
  }

  /** A customer sends a text. */
  say(id: string, phone: PhoneNumber, text: string): void {
    const { world } = this.#house;
    const { random } = world;
    const { lost, doubled, way } = this.weather;
    if (random.chance(lost)) return;
    const copies = random.chance(doubled) ? 2 + random.below(2) : 1;
    for (let copy = 0; copy < copies; copy++) {
      this.pending += 1;
      const delay = random.below(way) + (copy === 0 ? 0 : random.below(600_000));
      world.later(delay, () => this.#queue(phone, () => this.#deliver(id, phone, text)));
    }
  }

  /** One number's texts are handed over one after the other, in whatever order they come. */
  #queue(phone: string, work: () => Promise<void>): void {
    const before = this.#lanes.get(phone) ?? Promise.resolve();
    const next = before.then(work).catch(this.#fail);
    this.#lanes.set(phone, next);
  }

  async #deliver(id: string, phone: PhoneNumber, text: string): Promise<void> {
    const { world, path } = this.#house;
    try {
      for (let attempt = 1; ; attempt++) {
        // A number that writes START may be texted from the moment the text is accepted.
        if (STARTS.test(text)) this.#stopped.delete(phone);
        try {
          const answer = await takeIn(path, FAIR, false, { id, phone, to: null, text });
          world.note(`text ${id} ${JSON.stringify(answer)}`);
          if (answer === null || answer === "nobody" || !answer.ok) return;
          const { replies, optedOut } = answer.value;
          const first = this.#answers.get(id);
          if (first !== undefined) same("nothing twice", `text ${id}`, replies, first);
          this.#answers.set(id, replies);
          if (optedOut && first === undefined && STOPS.test(text))
            this.#stopped.set(phone, new Set([...(this.#stopped.get(phone) ?? []), ...replies]));
          return;
        } catch (error) {
          if (!(error instanceof Lost)) throw error;
          if (attempt >= TRIES) return;
          await world.sleep(1000 * attempt);
        }
      }
    } finally {
      this.pending -= 1;
    }
  }

  /** The gateway's answer to the stalls' requests. */
  readonly fetch = async (_: unknown, init?: { readonly body?: unknown }): Promise<Response> => {
    const { world } = this.#house;
    const { random } = world;
    const sent = JSON.parse(String(init?.body)) as Sent; // the mapping's own body
    world.note(`out ${sent.id}`);
    const allowed = this.#stopped.get(sent.to);
    if (allowed !== undefined && !allowed.has(sent.text))
      this.#fail(new RuleBroken("no text after opting out", `${sent.to} got ${sent.id}: ${sent.text}`));
    await world.sleep(20 + random.below(800));
    const { failing, unanswered } = this.weather;
    if (world.clock < this.downUntil) return answer(503, "20");
    if (random.chance(failing)) return answer(random.pick([500, 503, 400, 429]), random.pick([null, "3"]));
    if (random.chance(unanswered)) {
      await world.sleep(10_000);
      throw new Error("no answer within 10 seconds");
    }
    if (random.chance(0.5)) world.later(random.below(5000), () => this.#receipt(sent.id));
    return answer(200, null);
  };

  #receipt(id: string): void {
    const [, stall = "", row = ""] = id.split(".");
    const how = this.#house.world.random.chance(0.9) ? "delivered" : "failed";
    const cell = [...this.#house.stalls.values()].find(({ name }) => name === stall);
    cell
      ?.call((object) => object.receipt(row, how))
      .catch((error: unknown) => {
        if (!(error instanceof Lost)) this.#fail(error);
      });
  }
}

/** As much of a response as sending looks at. */
const answer = (status: number, retryAfter: string | null): Response =>
  ({
    ok: status < 300,
    status,
    body: null,
    headers: { get: () => retryAfter },
  }) as unknown as Response; // nothing else is read
