import { beforeAll, describe, expect, it } from "vitest";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let fair: LoadedFair;
let other: LoadedFair;

beforeAll(async () => {
  running = await shared();
  fair = await example(running);
  other = await example(running);
});

/** A problem without its request's id. */
const said = (problem: Problem): Partial<Problem> => ({ ...problem, instance: undefined });
const crewKey = (loaded: LoadedFair, index = 0): string => loaded.stalls[index]?.key ?? "";

describe("every route that needs a key", () => {
  it("is 401 without one and 403 with any other, whether or not the stall exists", async () => {
    const stall = at(fair);
    const ghost = "/v1/fairs/brackenfield/stalls/ghost";
    const routes: readonly (readonly [method: string, path: string])[] = [
      ["GET", "/queue"],
      ["GET", "/stock"],
      ["GET", "/menu/whole"],
      ["POST", "/presses/A/pull"],
      ["GET", "/orders/101/whole"],
      ["GET", "/orders/101"],
    ];
    const wrong = [
      crewKey(other),
      crewKey(fair, 1),
      fair.key,
      `${crewKey(fair)}x`,
      "crew.1.",
      `crew.2.${crewKey(fair).split(".")[2]}`,
      "x",
    ];
    for (const [method, path] of routes) {
      const none = await running.anyone.send(method, stall + path);
      expect([path, none.status, none.headers.get("www-authenticate")]).toEqual([path, 401, "Bearer"]);
      for (const key of wrong) {
        const real = await running.anyone.withKey(key).send<Problem>(method, stall + path);
        const unknown = await running.anyone.withKey(key).send<Problem>(method, ghost + path);
        expect([path, key, real.status]).toEqual([path, key, 403]);
        expect([unknown.status, said(unknown.body)]).toEqual([real.status, said(real.body)]);
      }
    }
  });
  it("keeps the organiser's figures from crews and from other fairs", async () => {
    const path = `/v1/fairs/${fair.fair}/throughput`;
    expect((await running.anyone.get(path)).status).toBe(401);
    for (const key of [crewKey(fair), other.key])
      expect((await running.anyone.withKey(key).get(path)).status).toBe(403);
    expect((await running.anyone.withKey(fair.key).get(path)).status).toBe(200);
  });
  it("lets only the owner make a fair", async () => {
    const body = {
      fair: "mine",
      name: "Mine",
      timeZone: "Europe/London",
      openings: [{ opens: "2027-05-01T09:00:00Z", closes: "2027-05-01T17:00:00Z" }],
    };
    expect((await running.anyone.post("/v1/fairs", body)).status).toBe(401);
    expect((await running.anyone.withKey(fair.key).post("/v1/fairs", body)).status).toBe(403);
    expect((await running.owner.post("/v1/fairs", body)).status).toBe(201);
    expect((await running.owner.post("/v1/fairs", body)).status).toBe(409);
  });
});

describe("an order's claim", () => {
  it("opens that order and no other", async () => {
    const line = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
    const one = await running.anyone.post<{ number: number; claim: string }>(`${at(fair)}/orders`, {
      lines: [line],
    });
    const two = await running.anyone.post<{ number: number; claim: string }>(`${at(fair)}/orders`, {
      lines: [line],
    });
    const holder = running.anyone.withKey(one.body.claim);
    expect((await holder.get(`${at(fair)}/orders/${one.body.number}`)).status).toBe(200);
    expect((await holder.get(`${at(fair)}/orders/${two.body.number}`)).status).toBe(403);
    expect((await holder.get(`${at(fair)}/queue`)).status).toBe(403);
  });
});

describe("a new crew key", () => {
  it("ends the old one at once, or after the overlap that was asked for", async () => {
    const own = await example(running);
    const organiser = running.anyone.withKey(own.key);
    const old = running.anyone.withKey(crewKey(own));
    const repeat = { "idempotency-key": "rotate-this-once" };
    const second = await organiser.post<{ key: string }>(`${at(own)}/key`, { overlapMinutes: 5 }, repeat);
    const again = await organiser.post<{ key: string }>(`${at(own)}/key`, { overlapMinutes: 5 }, repeat);
    expect(again.body).toEqual(second.body);
    const fresh = running.anyone.withKey(second.body.key);
    expect([
      (await old.get(`${at(own)}/queue`)).status,
      (await fresh.get(`${at(own)}/queue`)).status,
    ]).toEqual([200, 200]);
    const third = await organiser.post<{ key: string }>(`${at(own)}/key`, {});
    expect([
      (await old.get(`${at(own)}/queue`)).status,
      (await fresh.get(`${at(own)}/queue`)).status,
    ]).toEqual([403, 403]);
    expect((await running.anyone.withKey(third.body.key).get(`${at(own)}/queue`)).status).toBe(200);
  });
});

describe("a new organiser key", () => {
  it("comes from the owner alone, and ends the old one at once or after the overlap", async () => {
    const own = await example(running);
    const path = `/v1/fairs/${own.fair}/key`;
    const throughput = `/v1/fairs/${own.fair}/throughput`;
    const old = running.anyone.withKey(own.key);
    expect((await old.post(path, {})).status).toBe(403);
    const repeat = { "idempotency-key": "rekey-this-once" };
    const second = await running.owner.post<{ key: string }>(path, { overlapMinutes: 5 }, repeat);
    expect((await running.owner.post(path, { overlapMinutes: 5 }, repeat)).body).toEqual(second.body);
    const fresh = running.anyone.withKey(second.body.key);
    expect([(await old.get(throughput)).status, (await fresh.get(throughput)).status]).toEqual([200, 200]);
    const third = await running.owner.post<{ key: string }>(path, {});
    expect([(await old.get(throughput)).status, (await fresh.get(throughput)).status]).toEqual([403, 403]);
    expect((await running.anyone.withKey(third.body.key).get(throughput)).status).toBe(200);
    expect((await running.owner.post("/v1/fairs/no-such-fair/key", {})).status).toBe(404);
  });
});

describe("a key of the presses", () => {
  it("pulls, presses, spoils and counts, is refused the rest in words, and ends with the crew's key", async () => {
    const fair = await example(running);
    const organiser = running.anyone.withKey(fair.key);
    const base = at(fair);
    const stall = await organiser.put<{ key: string; pressKey: string }>(base, { name: "Tern & Tide" });
    const [crew, press] = [
      running.anyone.withKey(stall.body.key),
      running.anyone.withKey(stall.body.pressKey),
    ];
    const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
    const { number } = (await crew.post<{ number: number }>(`${base}/orders`, { lines })).body;
    await crew.post(`${base}/orders/${number}/paid`, { tender: "cash" });
    expect((await press.get(`${base}/queue?press=A`)).status).toBe(200);
    expect((await press.get(`${base}/menu/whole`)).status).toBe(200);
    expect((await press.post(`${base}/presses/A/pull`)).status).toBe(200);
    const spoiled = { lost: "transfer", reason: "crooked" };
    expect((await press.post(`${base}/jobs/${number}-1/spoiled`, spoiled)).status).toBe(200);
    await press.post(`${base}/presses/A/pull`);
    expect((await press.post(`${base}/jobs/${number}-1/pressed`, {})).status).toBe(200);
    const entries = [{ sku: "tee.navy.L", counted: 7 }];
    expect((await press.post(`${base}/stock`, { entries })).status).toBe(200);
    for (const [path, body] of [
      [`orders/${number}/refunded`, {}],
      [`orders/${number}/garments/refunded`, { jobs: [`${number}-1`] }],
      [`orders/${number}/discounted`, { off: { by: { amount: 100 }, reason: "gift" } }],
      [`orders/${number}/paid`, { undo: true }],
      ["closeout/close", { day: "2027-06-12" }],
      ["pause", {}],
    ] as const) {
      const refused = await press.post<{ type: string; detail: string }>(`${base}/${path}`, body);
      expect([path, refused.status, refused.body.type]).toEqual([path, 403, "/problems/press-only"]);
      expect(refused.body.detail).toContain("open the crew’s link");
    }
    const { body: menu } = await crew.get<object>(`${base}/menu/whole`);
    expect((await press.put(`${base}/menu`, menu)).status).toBe(403);
    expect((await crew.post(`${base}/orders/${number}/refunded`, {})).status).toBe(200);
    await organiser.post(`${base}/key`, {});
    expect((await press.get(`${base}/queue`)).status).toBe(403);
  });
});
