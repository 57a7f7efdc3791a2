import { readFile } from "node:fs/promises";
import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import { Closeout } from "../../src/model/accounts/closeout.ts";
import type { Learnt } from "../../src/model/accounts/learnt.ts";
import type { Lessons } from "../../src/model/accounts/lessons.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let crew: Client;
let base: string;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

const account = async (query = "") => (await crew.get<Closeout>(`${base}/closeout${query}`)).body;

describe("the close-out over HTTP", () => {
  it("counts what was sold, reads as its schema says, and keeps the costs with the day", async () => {
    const line = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 2 };
    const { number } = (await crew.post<PlacedOrder>(`${base}/orders`, { lines: [line] })).body;
    await crew.post(`${base}/orders/${number}/paid`, { tender: "card" });
    const { day } = await account();
    const costs = { blanks: [{ blank: "tee", cost: 410 }], fees: [{ name: "=SUM(A1)", amount: 24_000 }] };
    const saved = await crew.post(`${base}/closeout/costs`, { day, costs });
    expect([saved.status, saved.body]).toEqual([200, { day, closed: false }]);
    const now = Closeout.parse(await account());
    expect(now.sales.tenders).toMatchObject([{ tender: "card", payments: 1 }]);
    expect(now.money).toMatchObject({ sales: 4800, fees: 24_000, profit: 4800 - 24_000 });
    expect(now.costs?.blanks).toEqual([{ blank: "tee", cost: 410, worthPercent: 80 }]);
  });

  it("is a sheet for whoever asks for one, with a header row, and no cell begins a formula", async () => {
    const { body: menu } = await crew.get<{ offers: { name: string }[] }>(`${base}/menu/whole`);
    const offers = menu.offers.map((offer, index) => (index === 0 ? { ...offer, name: "=1+1" } : offer));
    await crew.put(`${base}/menu`, { ...menu, offers });
    const { status, headers, body } = await crew.get<string>(`${base}/closeout`, { accept: "text/csv" });
    expect(status).toBe(200);
    expect(headers.get("content-type")).toContain("text/csv");
    const { data, errors, meta } = Papa.parse<Record<string, string>>(body, {
      header: true,
      skipEmptyLines: true,
    });
    expect(errors).toEqual([]);
    expect(meta.fields).toEqual(["Day", "Part", "Item", "Figure", "Value", "Unit"]);
    expect(data.find(({ Item, Figure }) => Item === "card" && Figure === "payments")?.["Value"]).toBe("1");
    expect(data.some(({ Item }) => Item === "'=1+1")).toBe(true);
    // RFC 4180: every line ends with a carriage return and a line feed.
    expect(
      body
        .split("\n")
        .slice(0, -1)
        .every((row) => row.endsWith("\r")),
    ).toBe(true);
  });

  it("closes a day and opens it again, each once and on the journal's word", async () => {
    const { day } = await account();
    expect((await crew.post(`${base}/closeout/close`, { day })).body).toEqual({ day, closed: true });
    const twice = await crew.post<{ type: string; stage: string }>(`${base}/closeout/close`, { day });
    expect([twice.status, twice.body.type, twice.body.stage]).toEqual([
      409,
      "/problems/wrong-stage",
      "closed",
    ]);
    expect((await account(`?day=${day}`)).stage).toBe("closed");
    const reason = "the card slips were in the other box";
    expect((await crew.post(`${base}/closeout/reopen`, { day, reason })).body).toEqual({
      day,
      closed: false,
    });
    const again = await account(`?day=${day}`);
    expect([again.stage, again.reopenings[0]?.reason]).toEqual(["reopened", reason]);
  });

  it("adds up the people counted walking past, each count once", async () => {
    const headers = { "idempotency-key": '"a-count-of-passers-by"' };
    const people = { people: 40, seconds: 300 };
    const first = await crew.post(`${base}/passers-by`, people, headers);
    const repeated = await crew.post(`${base}/passers-by`, people, headers);
    expect([first.body, repeated.body]).toEqual([people, people]);
    expect((await crew.post(`${base}/passers-by`, people)).body).toEqual({ people: 80, seconds: 600 });
  });

  it("opens to the crew's key only", async () => {
    expect((await running.anyone.get(`${base}/closeout`)).status).toBe(401);
    expect((await running.owner.get(`${base}/closeout`)).status).toBe(403);
  });
});

describe("what the days taught", () => {
  it("is a list that a plan takes as it is, and that another stall takes in once", async () => {
    const { body: lessons } = await crew.get<Lessons[]>(`${base}/lessons`);
    expect(lessons).toHaveLength(1);
    expect(lessons[0]).toMatchObject({
      sizes: [{ blank: "tee", size: "L", asks: 2 }],
      offers: [{ offer: "longtail-tee", asks: 1 }],
    });
    const request = JSON.parse(await readFile(new URL("../../examples/plan.json", import.meta.url), "utf8"));
    const planned = await running.owner.post("/v1/plans", { ...request, scenarios: 100, lessons });
    expect(planned.status).toBe(200);
    const earlier = { id: "elsewhere/tern/2026-05-02", fair: "Elsewhere", day: "2026-05-02" };
    const taken = { ...earlier, sizes: [{ blank: "tee", size: "S", asks: 30 }] };
    for (const _ of [1, 2])
      expect((await crew.post(`${base}/lessons`, { lessons: [taken] })).body).toEqual({ taken: 1 });
    const { body: learnt } = await crew.get<Learnt>(`${base}/lessons/learnt`);
    expect(learnt.from.map(({ id }) => id)).toEqual([earlier.id, lessons[0]?.id]);
    expect(learnt.sizes[0]?.shares.map(({ id, asks }) => [id, asks])).toEqual([
      ["S", 30],
      ["L", 2],
    ]);
  });
});
