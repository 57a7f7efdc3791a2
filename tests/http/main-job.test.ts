import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import type { ChatReply } from "../../src/model/orders/chat.ts";
import type { CrewOrderView, PlacedOrder } from "../../src/model/orders/order.ts";
import type { JobView, QueueView } from "../../src/model/orders/queue.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let fair: LoadedFair;
let crew: Client;
let base: string;
const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

beforeAll(async () => {
  running = await shared();
  fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

describe("one order from the web to the hand-over", () => {
  it("is placed, pulled, pressed, paid, collected, and counted by the fair", async () => {
    const placed = await running.anyone.post<PlacedOrder>(`${base}/orders`, { lines: [LINE] });
    expect(placed.status).toBe(201);
    const { number, claim, word, total, tax } = placed.body;
    expect(placed.body).toMatchObject({ place: 1, stage: "waiting" });
    // 24.00 at 7.25 % is 1.74 of tax: rounded as checks of tests/checks/sales-tax.test.ts have it.
    expect([total.amount, tax.amount]).toEqual([2574, 174]);

    const own = await running.anyone.withKey(claim).get<PlacedOrder>(`${base}/orders/${number}`);
    expect(own.body).toMatchObject({ number, word, stage: "waiting" });

    const pulled = await crew.post<{ job: JobView }>(`${base}/presses/A/pull`);
    expect(pulled.body.job).toMatchObject({ number, design: "longtail", size: "L", stage: "pressing" });
    expect((await crew.post(`${base}/presses/B/pull`)).status).toBe(204);

    const pressed = await crew.post(`${base}/jobs/${number}-1/pressed`, {});
    expect(pressed.body).toMatchObject({ stage: "pressed", orderStage: "ready" });

    const early = await crew.post<Problem>(`${base}/orders/${number}/collected`, {});
    expect([early.status, early.body.type]).toEqual([409, "/problems/not-paid"]);
    await crew.post(`${base}/orders/${number}/paid`, { tender: "card" });
    const wrong = await crew.post<Problem>(`${base}/orders/${number}/collected`, { word: "not-it" });
    expect(wrong.body.type).toBe("/problems/wrong-word");
    const collected = await crew.post<CrewOrderView>(`${base}/orders/${number}/collected`, { word });
    expect(collected.body.stage).toBe("collected");
    const undone = await crew.post<CrewOrderView>(`${base}/orders/${number}/collected`, { undo: true });
    expect(undone.body.stage).toBe("ready");
    await crew.post(`${base}/orders/${number}/collected`, { word });

    const organiser = running.anyone.withKey(fair.key);
    await expect
      .poll(async () => (await organiser.get<Throughput>(`/v1/fairs/${fair.fair}/throughput`)).body.total, {
        timeout: 15_000,
        interval: 200,
      })
      .toMatchObject({ placed: 1, pressed: 1, collected: 1, backlog: 0, asked: 1, promised: 1, kept: 1 });
  });

  it("answers 304 while nothing changed and a whole queue after a change", async () => {
    const first = await crew.get<QueueView>(`${base}/queue`);
    const tag = first.headers.get("etag") ?? "";
    expect(tag).toBe(`"v${first.body.version}"`);
    expect((await crew.get(`${base}/queue`, { "if-none-match": tag })).status).toBe(304);
    await running.anyone.post(`${base}/orders`, { lines: [LINE] });
    const second = await crew.get<QueueView>(`${base}/queue`, { "if-none-match": tag });
    expect(second.status).toBe(200);
    expect(second.body.counts.waiting).toBe(first.body.counts.waiting + 1);
  });

  it("gives a repeated write its first answer and refuses the key for another body", async () => {
    const headers = { "idempotency-key": '"the same key twice"' };
    const one = await crew.post<PlacedOrder>(`${base}/orders`, { lines: [LINE] }, headers);
    const before = await crew.get<StockView>(`${base}/stock`);
    const two = await crew.post<PlacedOrder>(`${base}/orders`, { lines: [LINE] }, headers);
    expect([two.status, two.body]).toEqual([one.status, one.body]);
    expect((await crew.get<StockView>(`${base}/stock`)).body).toEqual(before.body);
    const other = await crew.post<Problem>(`${base}/orders`, { lines: [{ ...LINE, quantity: 2 }] }, headers);
    expect([other.status, other.body.type]).toEqual([422, "/problems/key-reused"]);
  });
});

describe("one tap", () => {
  it("stops web orders and takes them again, while the counter goes on", async () => {
    await crew.post(`${base}/web-orders`, { open: false });
    const refused = await running.anyone.post<Problem>(`${base}/orders`, { lines: [LINE] });
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/web-off"]);
    expect((await crew.post(`${base}/orders`, { lines: [LINE] })).status).toBe(201);
    expect((await crew.get<QueueView>(`${base}/queue`)).body.webOrders).toBe(false);
    await crew.post(`${base}/web-orders`, { open: true });
    expect((await running.anyone.post(`${base}/orders`, { lines: [LINE] })).status).toBe(201);
  });
});

describe("a rush", () => {
  it("sells exactly what there is to 200 customers at once", async () => {
    const own = await example(running);
    const rush = at(own);
    const keeper = running.anyone.withKey(own.stalls[0]?.key ?? "");
    const entries = [
      { sku: "tee.navy.L", counted: 50 },
      { sku: "tee.sand.L", counted: 7 },
      { design: "longtail", counted: 200 },
    ];
    expect((await keeper.post(`${rush}/stock`, { entries })).status).toBe(200);
    const answers = await Promise.all(
      Array.from({ length: 200 }, async (_, n) => {
        const { body } = await running.anyone.post<ChatReply>(`${rush}/chat`, {
          id: `first-contact-of-customer-${n}`,
          text: "menu",
        });
        const customer = running.anyone.withKey(body.customer);
        return customer.post<PlacedOrder & Problem>(`${rush}/orders`, { lines: [LINE] });
      }),
    );
    const placed = answers.filter(({ status }) => status === 201);
    const refused = answers.filter(({ status }) => status === 409);
    expect([placed.length, refused.length]).toEqual([50, 150]);
    expect(new Set(placed.map(({ body }) => body.number)).size).toBe(50);
    for (const { body } of refused) {
      expect(body.type).toBe("/problems/sold-out");
      expect(body.left).toContainEqual({ offer: "longtail-tee", colour: "sand", size: "L", free: 7 });
    }
    const stock = await keeper.get<StockView>(`${rush}/stock`);
    expect(stock.body.skus.find(({ sku }) => sku === "tee.navy.L")).toMatchObject({
      onHand: 50,
      promised: 50,
      free: 0,
    });
  });
});
