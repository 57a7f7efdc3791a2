/** Taps as a tablet kept them under an earlier page: their routes and bodies still do what they did. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { CrewOrderView } from "../../src/model/orders/order.ts";
import type { JobView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let crew: Client;
let base: string;
const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
type Standing = { readonly job: string; readonly stage: string };

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

/** An order whose garment lies on press A. */
async function onPress(): Promise<{ readonly number: number; readonly job: string }> {
  const { number } = (await crew.post<{ number: number }>(`${base}/orders`, { lines: [LINE] })).body;
  const { job } = (await crew.post<{ job: JobView }>(`${base}/presses/A/pull`)).body.job;
  expect(job).toBe(`${number}-1`);
  return { number, job };
}

const tap = async <T>(path: string, body: object): Promise<T> => {
  const answer = await crew.post<T>(`${base}${path}`, body);
  expect(answer.status, path).toBe(200);
  return answer.body;
};

describe("an undo that an earlier page kept", () => {
  it("takes a pressed garment back with `undo` in the body, as the route of its own does", async () => {
    const { job } = await onPress();
    await tap(`/jobs/${job}/pressed`, { press: "A" });
    expect(await tap<Standing>(`/jobs/${job}/pressed`, { undo: true })).toMatchObject({
      job,
      stage: "waiting",
    });
    await crew.post(`${base}/presses/A/pull`);
    await tap(`/jobs/${job}/pressed`, { press: "A" });
    expect(await tap<Standing>(`/jobs/${job}/undo-pressed`, {})).toMatchObject({ job, stage: "waiting" });
    await crew.post(`${base}/presses/A/pull`);
    await tap(`/jobs/${job}/pressed`, { press: "A" });
  });

  it("takes a spoiled garment back by `not-spoiled`, as `undo-spoiled` does", async () => {
    const { job } = await onPress();
    for (const undo of ["not-spoiled", "undo-spoiled"]) {
      await tap(`/jobs/${job}/spoiled`, { lost: "both", reason: "crooked" });
      const { stage } = await tap<Standing>(`/jobs/${job}/${undo}`, {});
      expect(stage, undo).toBe("waiting");
      await crew.post(`${base}/presses/A/pull`);
    }
    await tap(`/jobs/${job}/pressed`, { press: "A" });
  });

  it("takes a payment and an ending back, and keeps an unpaid order by `kept`", async () => {
    const { number } = (await crew.post<{ number: number }>(`${base}/orders`, { lines: [LINE] })).body;
    const order = `/orders/${number}`;
    await tap(`${order}/paid`, { tender: "cash" });
    expect((await tap<CrewOrderView>(`${order}/paid`, { undo: true })).paid).toBeNull();
    await tap(`${order}/paid`, { tender: "cash" });
    expect((await tap<CrewOrderView>(`${order}/undo-paid`, {})).paid).toBeNull();
    await tap(`${order}/kept`, {});
    await tap(`${order}/kept-unpaid`, {});
    for (const undo of [`${order}/dropped`, `${order}/undo-dropped`]) {
      expect((await tap<CrewOrderView>(`${order}/dropped`, {})).stage).toBe("dropped");
      const open = await tap<CrewOrderView>(undo, undo.includes("undo-") ? {} : { undo: true });
      expect(open.stage, undo).not.toBe("dropped");
    }
  });
});
