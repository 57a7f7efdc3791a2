import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { FloorView, JobView, QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let crew: Client;
let base: string;
const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
  for (let n = 0; n < 6; n++) await crew.post(`${base}/orders`, { lines: [LINE] });
});

describe("the shift's routes", () => {
  it("take a press out and back, and its job moves to another", async () => {
    const first = await crew.post<{ job: JobView }>(`${base}/presses/A/pull`);
    const down = await crew.post<FloorView>(`${base}/presses/A/down`, {});
    expect(down.status).toBe(200);
    expect(down.body.presses[0]).toMatchObject({ press: "A", job: null });
    expect(down.body.presses[0]?.downSince).not.toBeNull();
    const refused = await crew.post<Problem>(`${base}/presses/A/pull`);
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/press-down"]);
    const moved = await crew.post<{ job: JobView }>(`${base}/presses/B/pull`);
    expect(moved.body.job.job).toBe(first.body.job.job);
    const up = await crew.post<FloorView>(`${base}/presses/A/up`, {});
    expect(up.body.presses[0]?.downSince).toBeNull();
    expect((await crew.post<Problem>(`${base}/presses/Q/up`, {})).body.type).toBe("/problems/no-such-press");
  });
  it("reserve garments, hand out the very one, and give the rest back", async () => {
    const kept = await crew.post<FloorView>(`${base}/presses/A/reserve`, { on: true });
    const [one, two] = kept.body.presses[0]?.reserve ?? [];
    expect(kept.body.presses[0]).toMatchObject({ reserves: true, reserve: [one, two] });
    const { body } = await crew.get<QueueView>(`${base}/queue`);
    expect(body.presses[0]?.reserve.map(({ job, stage }) => [job, stage])).toEqual([
      [one, "reserved"],
      [two, "reserved"],
    ]);
    const pulled = await crew.post<{ job: JobView }>(`${base}/presses/A/pull`, { job: two });
    expect(pulled.body.job.job).toBe(two);
    await crew.post(`${base}/presses/A/reserve/asked-back`, {});
    const asked = await crew.get<QueueView>(`${base}/queue`);
    expect(asked.body.presses[0]?.askedBack).toContain(one);
    const given = await crew.post<FloorView>(`${base}/presses/A/reserve/returned`, { jobs: [one] });
    expect(given.body.presses[0]?.reserve).not.toContain(one);
    const back = await crew.post<FloorView>(`${base}/presses/A/reserve`, { on: false });
    expect(back.body.presses[0]?.reserve).toEqual([]);
    expect((await crew.post(`${base}/presses/A/reserve`, { on: 3 })).status).toBe(400);
  });
  it("fill the reserve when the press's own tablet asks for the queue, and not when another does", async () => {
    await crew.post<FloorView>(`${base}/presses/A/reserve`, { on: true });
    const had = (await crew.get<QueueView>(`${base}/queue?press=A`)).body.presses[0]?.reserve.length ?? 0;
    for (let n = 0; n < 4; n++) await crew.post(`${base}/orders`, { lines: [LINE] });
    expect((await crew.get<QueueView>(`${base}/queue`)).body.presses[0]?.reserve.length).toBe(had);
    const filled = await crew.get<QueueView>(`${base}/queue?press=A`);
    expect(filled.body.presses[0]?.reserve.length).toBeGreaterThan(had);
    // Nothing more to reserve: the same version.
    expect((await crew.get<QueueView>(`${base}/queue?press=A`)).body.version).toBe(filled.body.version);
    await crew.post<FloorView>(`${base}/presses/A/reserve`, { on: false });
  });
  it("say how many hands there are", async () => {
    expect((await crew.post<FloorView>(`${base}/hands`, { hands: 1 })).body.hands).toBe(1);
    expect((await crew.get<QueueView>(`${base}/queue`)).body.hands).toBe(1);
    expect((await crew.post<FloorView>(`${base}/hands`, { hands: null })).body.hands).toBeNull();
    expect((await crew.post(`${base}/hands`, { hands: 0 })).status).toBe(400);
  });
  it("take a piece off the menu with one call, and put it back", async () => {
    const off = await crew.post<FloorView>(`${base}/off-menu`, { sku: "tee.navy.L" });
    expect(off.body.offMenu).toEqual(["tee.navy.L"]);
    const refused = await crew.post<Problem>(`${base}/orders`, { lines: [LINE] });
    expect(refused.body.type).toBe("/problems/sold-out");
    const design = await crew.post<FloorView>(`${base}/off-menu`, { design: "otter" });
    expect(design.body.offMenu).toEqual(["tee.navy.L", "transfer:otter"]);
    for (const piece of [{ sku: "tee.navy.L" }, { design: "otter" }])
      await crew.post(`${base}/off-menu`, { ...piece, off: false });
    expect((await crew.get<QueueView>(`${base}/queue`)).body.offMenu).toEqual([]);
    expect((await crew.post<Problem>(`${base}/off-menu`, { design: "none" })).status).toBe(422);
  });
  it("keep intake open, and undo that", async () => {
    const open = await crew.post<FloorView>(`${base}/keep-open`, {});
    expect(open.body.intake).toMatchObject({ open: true, keptOpen: true });
    const undone = await crew.post<FloorView>(`${base}/keep-open`, { undo: true });
    expect(undone.body.intake.keptOpen).toBe(false);
  });
});
