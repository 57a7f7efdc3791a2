/** A full store: a writer learns what to do, nothing is half-written, and nothing is done twice afterwards. */
import { beforeAll, expect, it, vi } from "vitest";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example } from "../http/running.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";

let worker: InProcess;
beforeAll(async () => {
  worker = (await bundled())();
}, BUNDLING);

it("says that its disk is full, and takes the same request when there is room", async () => {
  const fair = await example(worker, "brackenfield");
  const base = at(fair);
  const crew = worker.anyone.withKey(fair.stalls[0]?.key ?? "");
  const order = { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }] };
  const key = { "idempotency-key": '"an-order-on-a-full-disk"' };
  const { storage } = worker.stalls.get("brackenfield/tern") ?? {};
  if (storage === undefined) throw new Error("the stall is not there");
  const { put } = storage.kv;
  // As the platform says it, in the middle of writing.
  let writes = 0;
  const store = vi.spyOn(storage.kv, "put").mockImplementation((...row) => {
    if (++writes > 2) throw new Error("database or disk is full: SQLITE_FULL");
    put.apply(storage.kv, row);
  });
  const full = await crew.post<Problem>(`${base}/orders`, order, key);
  expect([full.status, full.body.type]).toEqual([507, "/problems/store-full"]);
  expect(full.body.detail).toContain("make room");
  store.mockRestore();
  expect((await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting).toBe(0);
  const taken = await crew.post<PlacedOrder>(`${base}/orders`, order, key);
  const again = await crew.post<PlacedOrder>(`${base}/orders`, order, key);
  expect([taken.status, again.body.number]).toEqual([201, taken.body.number]);
  expect((await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting).toBe(1);
});
