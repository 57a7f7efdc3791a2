/** Orders placed at a stall under faults: each acknowledged order must be there afterwards, once. */
import { Client } from "../../src/local/client.ts";
import { loadExample } from "../../src/local/example.ts";
import type { OrderView, PlacedOrder } from "../../src/model/orders/order.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { OWNER_SECRET } from "../http/secrets.ts";

const SKU = "tee.navy.L";
const LINES = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];

export class Orders {
  readonly base: string;
  /** The crew's orders are taken however long the line is. */
  readonly crew: Client;
  /** The crew's key of each stall of the fair. */
  readonly keys: ReadonlyMap<string, string>;
  readonly acknowledged = new Map<string, PlacedOrder>();
  /** Keys whose order was sent and never answered with one. */
  readonly unanswered = new Set<string>();
  readonly faults: string[] = [];
  #asked = 0;

  private constructor(base: string, crew: Client, keys: ReadonlyMap<string, string>) {
    this.base = base;
    this.crew = crew;
    this.keys = keys;
  }

  /** Opens the example fair and gives its first stall stock for any number of orders. */
  static async open(url: string): Promise<Orders> {
    const owner = new Client(url, OWNER_SECRET);
    const { fair, stalls } = await loadExample(owner, Date.now());
    const keys = new Map(stalls.map(({ stall, key }) => [stall, key]));
    const orders = new Orders(`/v1/fairs/${fair}/stalls/tern`, owner.withKey(keys.get("tern") ?? ""), keys);
    const entries = [
      { sku: SKU, counted: 90_000 },
      { design: "longtail", counted: 90_000 },
    ];
    await orders.crew.post(`${orders.base}/stock`, { entries });
    return orders;
  }

  /** Sends an order, a new one if no key is given; returns the answer's status, 0 if none came. */
  async place(key = `order-number-${this.#asked++}`): Promise<number> {
    this.unanswered.add(key);
    const answer = await this.crew
      .post<PlacedOrder>(`${this.base}/orders`, { lines: LINES }, { "idempotency-key": `"${key}"` })
      .catch(() => null);
    if (answer === null) return 0;
    const { status, body } = answer;
    if (status !== 201) return status;
    const before = this.acknowledged.get(key);
    if (before !== undefined && before.number !== body.number)
      this.faults.push(`${key}: was order ${before.number}, repeated it is ${body.number}`);
    this.acknowledged.set(key, body);
    this.unanswered.delete(key);
    return status;
  }

  /** Sends again the unanswered orders and some of the answered ones, as a device does that lost the answers. */
  async repeat(): Promise<void> {
    for (const key of [...this.unanswered, ...[...this.acknowledged.keys()].slice(-5)]) {
      const status = await this.place(key);
      if (status !== 201) this.faults.push(`${key}: sent again, answered ${status}`);
    }
  }

  /** Looks for every order, none of which was closed; returns the result in words. */
  async check(): Promise<string> {
    const { acknowledged } = this;
    let lost = 0;
    for (const { number, claim, word } of acknowledged.values()) {
      const { status, body } = await this.crew.withKey(claim).get<OrderView>(`${this.base}/orders/${number}`);
      if (status !== 200 || body.word !== word) lost += 1;
    }
    const numbers = new Set([...acknowledged.values()].map(({ number }) => number));
    const stock = (await this.crew.get<StockView>(`${this.base}/stock`)).body;
    const promised = stock.skus.find(({ sku }) => sku === SKU)?.promised ?? 0;
    // Every order has one garment, so promises beyond the acknowledged orders were made twice.
    const doubled = acknowledged.size - numbers.size + Math.max(0, promised - acknowledged.size);
    if (promised < acknowledged.size) this.faults.push(`only ${promised} garments are promised`);
    if (lost + doubled > 0) this.faults.push(`${lost} lost, ${doubled} doubled`);
    return `${acknowledged.size} orders acknowledged: lost ${lost}, doubled ${doubled}`;
  }
}

/** Prints the faults, and ends the process with an error if there are any. */
export function conclude(faults: readonly string[]): void {
  for (const fault of new Set(faults)) process.stdout.write(`FAULT: ${fault}\n`);
  if (faults.length > 0) process.exitCode = 1;
}
