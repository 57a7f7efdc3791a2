/** What strangers on the web learn about unclaimed orders, and what their refusals leave behind. */
import { randomUUID } from "node:crypto";
import { beforeAll, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { ChatReply } from "../../src/model/orders/chat.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let crew: Client;
let base: string;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
  const { body: menu } = await crew.get<Menu>(`${base}/menu/whole`);
  const rules = { ...menu.rules, webHoldPercent: 20, unclaimedGarments: 6, claimMinutes: 15 };
  expect((await crew.put(`${base}/menu`, { ...menu, rules })).status).toBe(200);
  const counts = [
    { sku: "tee.navy.L", counted: 200 },
    { sku: "tee.navy.S", counted: 0 },
    { design: "longtail", counted: 200 },
  ];
  expect((await crew.post(`${base}/stock`, { entries: counts })).status).toBe(200);
});

/** Says some texts as somebody new; gives the last reply and who it was. */
async function newcomer(...texts: readonly string[]): Promise<ChatReply & { readonly as: Client }> {
  let as = running.anyone;
  let reply: ChatReply | null = null;
  for (const text of texts) {
    const { status, body } = await as.post<ChatReply>(`${base}/chat`, { id: randomUUID(), text });
    expect([text, status]).toEqual([text, 200]);
    as = running.anyone.withKey(body.customer);
    reply = body;
  }
  if (reply === null) throw new Error("nothing was said");
  return { ...reply, as };
}

it("a conversation says by when to come for an order outside the line, and not that it is in line", async () => {
  const first = await newcomer("6 navy L longtail tees", "yes");
  expect(first.order?.stage).toBe("waiting");
  expect(first.replies[0]?.text).toContain("in line");
  const second = await newcomer("1 navy L longtail tee", "yes");
  expect(second.order?.stage).toBe("to-claim");
  expect(second.replies[0]?.text).toContain("Come to the stall within 15 min to join the line");
  expect(second.replies[0]?.text).not.toMatch(/\d(st|nd|rd|th) in line/);
  const spanish = await newcomer("español", "1 navy L longtail tee", "sí");
  expect(spanish.order?.stage).toBe("to-claim");
  expect(spanish.replies[0]?.text).toContain("Ven al puesto en 15 min");
});

it("the same wish of a customer with a token is one ask, however often the whole order is refused", async () => {
  const version = async (): Promise<number> => (await crew.get<QueueView>(`${base}/queue`)).body.version;
  const { as } = await newcomer("menu");
  const before = await version();
  const body = { lines: [{ offer: "longtail-tee", colour: "navy", size: "S", quantity: 1 }] };
  for (let time = 0; time < 5; time++) expect((await as.post(`${base}/orders`, body)).status).toBe(409);
  expect(await version()).toBe(before + 1);
  // Without a token the sender is unknown: nothing is written.
  for (let time = 0; time < 5; time++)
    expect((await running.anyone.post(`${base}/orders`, body)).status).toBe(409);
  expect(await version()).toBe(before + 1);
});

it("orders without a token are one sender's an address; those of others there are not counted as its own", async () => {
  const body = { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }] };
  const statuses: number[] = [];
  for (let time = 0; time < 4; time++)
    statuses.push((await running.anyone.post(`${base}/orders`, body)).status);
  expect(statuses).toEqual([201, 201, 201, 422]);
});
