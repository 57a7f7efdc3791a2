import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../../src/local/client.ts";
import type { Closeout } from "../../../src/model/accounts/closeout.ts";
import type { Lessons } from "../../../src/model/accounts/lessons.ts";
import { CarriedStall, WholeStall } from "../../../src/model/accounts/whole-stall.ts";
import type { PlacedOrder } from "../../../src/model/orders/order.ts";
import type { QueueView } from "../../../src/model/orders/queue.ts";
import type { StockView } from "../../../src/model/orders/stock.ts";
import { at, example, type Running, shared } from "../running.ts";

let running: Running;
let crew: Client;
let base: string;
let organiser: Client;
let fairBase: string;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  fairBase = `/v1/fairs/${fair.fair}/stalls`;
  organiser = running.anyone.withKey(fair.key);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
  const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
  await crew.post<PlacedOrder>(`${base}/orders`, { lines, name: "Wren \u{1F9F5}", phone: "+12125550123" });
  const second = (await crew.post<PlacedOrder>(`${base}/orders`, { lines })).body.number;
  await crew.post(`${base}/orders/${second}/paid`, { tender: "cash" });
  const press = async (): Promise<void> => {
    const pulled = await crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`);
    await crew.post(`${base}/jobs/${pulled.body.job.job}/pressed`);
  };
  await press();
  const third = (await crew.post<PlacedOrder>(`${base}/orders`, { lines })).body.number;
  await press();
  await press();
  await crew.post(`${base}/orders/${third}/dropped`, {});
});

/** An empty stall of the same fair, and its crew. */
async function newStall(name: string): Promise<{ readonly crew: Client; readonly base: string }> {
  const { body } = await organiser.put<{ key: string }>(`${fairBase}/${name}`, { name });
  return { crew: running.anyone.withKey(body.key), base: `${fairBase}/${name}` };
}

describe("a stall that goes to another fair", () => {
  it("takes its menu, what is on hand and what it learnt along, and never a customer", async () => {
    const carried = CarriedStall.parse((await crew.get(`${base}/carry`)).body);
    const text = JSON.stringify(carried);
    for (const somebody of ["Wren", "5550123", "word"]) expect(text).not.toContain(somebody);
    const next = await newStall("next");
    expect((await next.crew.post(`${next.base}/carry`, carried)).status).toBe(200);
    const [stock, before] = await Promise.all([
      next.crew.get<StockView>(`${next.base}/stock`),
      crew.get<StockView>(`${base}/stock`),
    ]);
    const hand = ({ skus, transfers }: StockView) => [...skus, ...transfers].map(({ onHand }) => onHand);
    expect(hand(stock.body)).toEqual(hand(before.body));
    expect(stock.body.skus.every(({ promised }) => promised === 0)).toBe(true);
    const hangs = ({ rack = [] }: StockView) => rack.map(({ offer, size, why }) => [offer, size, why]);
    expect(hangs(before.body)).toEqual([["longtail-tee", "L", "dropped"]]);
    expect(hangs(stock.body)).toEqual([["longtail-tee", "L", "brought"]]);
    const { body: lessons } = await next.crew.get<Lessons[]>(`${next.base}/lessons`);
    expect(lessons).toEqual(carried.lessons);
    const queue = await next.crew.get<QueueView>(`${next.base}/queue`);
    expect(queue.body.counts).toEqual({ toPay: 0, toClaim: 0, waiting: 0, short: 0, pressing: 0, ready: 0 });
    const again = await next.crew.post(`${next.base}/carry`, carried);
    expect(again.status).toBe(409);
  });

  it("is taken in whole or not at all", async () => {
    const carried = CarriedStall.parse((await crew.get(`${base}/carry`)).body);
    const stock = [...carried.stock, { sku: "tee.plaid.L", counted: 3 }];
    const next = await newStall("half");
    expect((await next.crew.post(`${next.base}/carry`, { ...carried, stock })).status).toBe(422);
    expect((await next.crew.get(`${next.base}/menu/whole`)).body).toBeNull();
    expect((await next.crew.post(`${next.base}/carry`, carried)).status).toBe(200);
  });
});

describe("a stall as one file", () => {
  it("is the same stall in an empty one: orders, names, stock, account", async () => {
    const { body } = await crew.get<WholeStall>(`${base}/everything`);
    expect(WholeStall.safeParse(body).success).toBe(true);
    const next = await newStall("copy");
    const put = await next.crew.put(`${next.base}/everything`, body);
    expect(put.status, JSON.stringify(put.body)).toBe(200);
    type Readings = readonly unknown[];
    const readings = async (who: Client, where: string): Promise<Readings> => {
      const account = (await who.get<Closeout>(`${where}/closeout`)).body;
      return [
        { ...account, asOf: "", stall: "" },
        (await who.get(`${where}/stock`)).body,
        (await who.get(`${where}/menu/whole`)).body,
        (await who.get(`${where}/orders/101/whole`)).body,
        (await who.get(`${where}/orders/102/whole`)).body,
        (await who.get<QueueView>(`${where}/queue`)).body.counts,
      ];
    };
    expect(await readings(next.crew, next.base)).toEqual(await readings(crew, base));
    // The stall goes on there, and the file cannot be loaded twice.
    const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
    const fourth = await next.crew.post<PlacedOrder>(`${next.base}/orders`, { lines });
    expect(fourth.body.number).toBe(104);
    expect((await next.crew.put(`${next.base}/everything`, body)).status).toBe(409);
  });

  it("is refused with its fault, and the stall stays empty", async () => {
    const { body } = await crew.get<WholeStall>(`${base}/everything`);
    const next = await newStall("broken");
    const journal = body.journal.filter(({ sequence }) => sequence !== 3);
    const put = await next.crew.put<{ detail: string }>(`${next.base}/everything`, { ...body, journal });
    expect([put.status, put.body.detail]).toEqual([400, expect.stringContaining("entry 3")]);
    expect((await next.crew.get(`${next.base}/menu/whole`)).body).toBeNull();
  });
});
