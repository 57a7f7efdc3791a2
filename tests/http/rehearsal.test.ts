/** A rehearsal is a twin: nothing done at it reaches the stall, and only it can be wiped. */
import { beforeAll, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

const ORDER = { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }] };

let running: Running;
let base: string;
let crew: Client;
let organiser: Client;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
  organiser = running.anyone.withKey(fair.key);
});

const waiting = async (who: Client, stall: string): Promise<number> =>
  (await who.get<QueueView>(`${stall}/queue`)).body.counts.waiting;

it("goes its own way, and its wiping leaves the stall as it was", async () => {
  const order = await crew.post<PlacedOrder>(`${base}/orders`, ORDER);
  const begun = await crew.post<{ stall: string; key: string }>(`${base}/rehearsal`, {});
  expect(begun.status).toBe(200);
  const twin = base.replace(/[^/]+$/, begun.body.stall);
  const rehearsing = crew.withKey(begun.body.key);
  expect(await waiting(rehearsing, twin)).toBe(0);
  await rehearsing.post(`${twin}/orders`, ORDER);
  await rehearsing.post(`${twin}/orders`, ORDER);
  expect([await waiting(rehearsing, twin), await waiting(crew, base)]).toEqual([2, 1]);

  // Neither key opens the other.
  expect((await rehearsing.get(`${base}/queue`)).status).toBe(403);
  expect((await crew.get(`${twin}/queue`)).status).toBe(403);
  expect((await rehearsing.post(`${base}/wipe`, {})).status).toBe(403);
  expect((await crew.post(`${twin}/wipe`, {})).status).toBe(403);
  // A rehearsal of a rehearsal is refused.
  expect((await rehearsing.post<Problem>(`${twin}/rehearsal`, {})).body.type).toBe("/problems/rehearsal");

  const again = { "idempotency-key": '"wipe-the-rehearsal"' };
  expect((await rehearsing.post(`${twin}/wipe`, {}, again)).body).toEqual({ wiped: true });
  expect((await rehearsing.post(`${twin}/wipe`, {}, again)).body).toEqual({ wiped: true });
  expect((await rehearsing.get(`${twin}/queue`)).status).toBe(403);
  expect(await waiting(crew, base)).toBe(1);
  const { number, claim } = order.body;
  expect((await crew.withKey(claim).get(`${base}/orders/${number}`)).status).toBe(200);
});

it("is all that is ever wiped: a stall of the fair answers no, whoever asks", async () => {
  const before = await waiting(crew, base);
  const refused = await crew.post<Problem>(`${base}/wipe`, {});
  expect([refused.status, refused.body.type]).toEqual([409, "/problems/not-a-rehearsal"]);
  expect((await organiser.post(`${base}/wipe`, {})).status).toBe(403);
  expect((await running.anyone.post(`${base}/wipe`, {})).status).toBe(401);
  for (const path of [`${base}%7Erehearsal/wipe`, `${base}/../tern/wipe`, `${base}//wipe`])
    expect((await crew.post(path, {})).status).toBeGreaterThanOrEqual(400);
  expect(await waiting(crew, base)).toBe(before);
});

it("has an address that no stall of the fair can be given", async () => {
  const begun = await crew.post<{ stall: string; key: string }>(`${base}/rehearsal`, {});
  const { status } = await organiser.put(base.replace(/[^/]+$/, begun.body.stall), { name: "An impostor" });
  expect(status).toBe(400);
});
