/** Malicious input: bombs, tricks with paths and headers, formulas, replays, pranks. */
import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import { seededRandom } from "../../src/maths/random.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { at, example } from "../http/running.ts";
import { GATEWAY_SECRET } from "../http/secrets.ts";
import { addressOf, bodySchema, type Document, instancesOf, type Route, routesOf } from "./document.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";

const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
let worker: InProcess;
let fair: LoadedFair;
let base: string;
let crew: Client;
let routes: readonly Route[];
let document: Document;

beforeAll(async () => {
  worker = (await bundled())();
  fair = await example(worker);
  base = at(fair);
  crew = worker.anyone.withKey(fair.stalls[0]?.key ?? "");
  ({ body: document } = await worker.anyone.get<Document>("/v1/openapi.json"));
  routes = routesOf(document);
}, BUNDLING);

const place = () => ({ fair: fair.fair, stall: fair.stalls[0]?.stall ?? "", number: 101 });
const clientFor = (route: Route): Client => {
  if (route.keys.includes("crew")) return crew;
  if (route.keys.includes("organiser")) return worker.anyone.withKey(fair.key);
  return route.keys.includes("owner") ? worker.owner : worker.anyone;
};

/** The same under the names of all fields that the documented bodies have at their top. */
const bodyOfAll = (value: unknown): string =>
  JSON.stringify(
    Object.fromEntries(
      [
        "entries",
        "lines",
        "reason",
        "offers",
        "openings",
        "name",
        "text",
        "id",
        "blanks",
        "designs",
        "journal",
      ].map((field) => [field, value]),
    ),
  );

describe("a bomb", () => {
  const bombs: readonly (readonly [name: string, body: string])[] = [
    ["30,000 lists in one another", "[".repeat(30_000) + "]".repeat(30_000)],
    ["10,000 objects in one another", `${'{"a":'.repeat(10_000)}1${"}".repeat(10_000)}`],
    ["a list of 30,000 zeros", `[${"0,".repeat(30_000)}0]`],
    ["a number of 60,000 digits", "9".repeat(60_000)],
    ["lengths that are no numbers", bodyOfAll({ toString: 1, length: { toString: 1, length: -1 } })],
    ["a prototype", '{"__proto__":{"isCrew":true},"constructor":{"prototype":{"isCrew":true}}}'],
  ];
  it("of any kind is refused by every route that takes a body, and changes nothing for the next", async () => {
    const instances = instancesOf(document, seededRandom(7));
    const wrong: string[] = [];
    for (const route of routes.filter((one) => bodySchema(one) !== null && !one.keys.includes("gateway"))) {
      const address = addressOf(route, place(), instances);
      for (const [name, body] of bombs) {
        const { status } = await clientFor(route).send(route.method, address, body);
        if (status !== 400 && status !== 422) wrong.push(`${route.method} ${route.path}: ${name}: ${status}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(({} as { isCrew?: boolean }).isCrew).toBeUndefined();
    expect((await worker.anyone.post(`${base}/orders`, { lines: [LINE] })).status).toBe(201);
  });
  it("of more than 64 KiB is refused, said or not said how long it is", async () => {
    const whole = "a".repeat(65 * 1024);
    const streamed = new ReadableStream({
      start(controller) {
        for (let n = 0; n < 65; n++) controller.enqueue(new TextEncoder().encode("a".repeat(1024)));
        controller.close();
      },
    });
    for (const body of [whole, streamed]) {
      const response = await worker.fetch(
        new Request(`http://stallpress.test${base}/chat`, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body,
          ...(typeof body === "string" ? {} : { duplex: "half" }),
        } as RequestInit),
      );
      expect(response.status).toBe(413);
    }
  });
});

describe("a path or a header", () => {
  it.each([
    "/v1/fairs/brackenfield/stalls/tern/../../../../etc/passwd",
    "/v1/fairs/brackenfield/stalls/tern%2F..%2Fgannet/queue",
    "/v1/fairs/brackenfield/stalls/tern%00/menu",
    "/v1/fairs/brackenfield%2Ftern/stalls/x/menu",
    "/v1/fairs/BRACKENFIELD/stalls/tern/menu",
    "/v1//fairs/brackenfield/stalls/tern/queue",
    "/v1/fairs/brackenfield/stalls/health check/menu",
    "/v1/fairs/brackenfield/stalls/__proto__/menu",
    "/v1/fairs/constructor/stalls/toString/menu",
    `/v1/fairs/${"a".repeat(5000)}/stalls/tern/menu`,
  ])("%s finds nothing", async (path) => {
    const { status } = await worker.anyone.get<Problem>(path);
    expect([400, 401, 404]).toContain(status);
  });
  it("with a line break in it makes no header of its own", async () => {
    for (const path of ["/at/x%0d%0aset-cookie:a=b/tern", "/v1/x%0d%0aset-cookie:a=b"]) {
      const { headers, status } = await worker.anyone.get(path);
      expect([status, headers.get("set-cookie")]).toEqual([404, null]);
    }
  });
  it("of another method answers no data", async () => {
    for (const method of ["DELETE", "PATCH", "PUT"])
      expect((await crew.send(method, `${base}/queue`)).status).toBe(404);
  });
});

describe("a sheet", () => {
  it("of any route that gives one holds no cell that starts a formula, whatever things are called", async () => {
    const evil = ['=HYPERLINK("http://x")', "+1+1", "-1+1", "@SUM(A1)"];
    const { body: menu } = await crew.get<{ offers: { name: string }[]; blanks: { name: string }[] }>(
      `${base}/menu/whole`,
    );
    menu.offers.forEach((offer, index) => {
      offer.name = `${evil[index % evil.length]}${index}`;
    });
    const set = await crew.put(`${base}/menu`, menu);
    const organiser = worker.anyone.withKey(fair.key);
    for (const [index, { stall }] of fair.stalls.entries())
      await organiser.put(`/v1/fairs/${fair.fair}/stalls/${stall}`, { name: evil[index] });
    await worker.anyone.post(`${base}/orders`, { lines: [LINE], name: "=1+1" });
    const sheets = routes.filter(
      ({ method, operation }) =>
        method === "GET" && operation.responses["200"]?.content?.["text/csv"] !== undefined,
    );
    expect(sheets.length).toBeGreaterThan(0);
    const instances = instancesOf(document, seededRandom(8));
    for (const route of sheets) {
      const { body, status } = await clientFor(route).get<string>(addressOf(route, place(), instances), {
        accept: "text/csv",
      });
      expect([route.path, status]).toEqual([route.path, 200]);
      for (const row of Papa.parse<string[]>(body).data)
        for (const cell of row) if (!/^-?[\d.]+$/.test(cell)) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
    }
    expect([200, 422]).toContain(set.status);
  });
});

describe("a replay", () => {
  it("of a web hook orders nothing a second time, and altered it is not believed", async () => {
    const from = "+12125550123";
    const post = (body: string, signature: string) =>
      worker.anyone.post<Problem>(`/v1/fairs/${fair.fair}/texts`, body, { [SIGNATURE_HEADER]: signature });
    const say = async (id: string, text: string) => {
      const body = JSON.stringify({ id, from, to: "+12125550199", text });
      return [body, await sign(GATEWAY_SECRET, body)] as const;
    };
    await post(...(await say("replay-1", "tern 1 navy L")));
    const yes = await say("replay-2", "yes");
    const waiting = async () => (await crew.get<QueueView>(`${base}/queue`)).body.counts.waiting;
    const before = await waiting();
    for (let n = 0; n < 5; n++) expect((await post(...yes)).status).toBe(200);
    expect(await waiting()).toBe(before + 1);
    const [body, signature] = yes;
    expect((await post(body.replace("yes", "yes "), signature)).status).toBe(401);
    expect((await post(body.replace("replay-2", "replay-3"), signature)).status).toBe(401);
    expect(await waiting()).toBe(before + 1);
  });
});

describe("somebody else's garment", () => {
  it("is opened by no guess: a stranger has its number from the board and gets nothing for it", async () => {
    const mine = (
      await worker.anyone.post<{ number: number; claim: string; word: string }>(`${base}/orders`, {
        lines: [LINE],
      })
    ).body;
    const path = `${base}/orders/${mine.number}`;
    const { body: hello } = await worker.anyone.post<{ customer: string }>(`${base}/chat`, {
      id: "a-stranger-who-saw-the-board",
      text: "hello",
    });
    const stranger = worker.anyone.withKey(hello.customer);
    for (const guess of [
      worker.anyone,
      stranger,
      worker.anyone.withKey(mine.claim.replace(/^claim\.\d+/, "claim.100")),
    ])
      expect([401, 403]).toContain((await guess.get(path)).status);
    for (const text of [`status ${mine.number}`, `drop ${mine.number}`, `${mine.number} ${mine.word}`]) {
      const said = await stranger.post<unknown>(`${base}/chat`, {
        id: `asking-about-it-${text.replaceAll(" ", "-")}`,
        text,
      });
      expect(said.status).toBe(200);
      expect(JSON.stringify(said.body)).not.toContain(`"word":"${mine.word}"`);
      expect(JSON.stringify(said.body)).not.toContain(`"number":${mine.number}`);
    }
    expect(await worker.anyone.withKey(mine.claim).get(path)).toMatchObject({
      status: 200,
      body: { stage: "waiting" },
    });
    const board = JSON.stringify((await worker.anyone.get(`${base}/board`)).body);
    expect(board).toContain(String(mine.number));
    expect(board).not.toContain(mine.word);
  });
});

describe("pranks", () => {
  it("from a hundred web customers at once take no more than the stall's share of unpaid stock, and no crew's order", async () => {
    const lively = await example(worker);
    const stall = at(lively);
    const boss = worker.anyone.withKey(lively.stalls[0]?.key ?? "");
    const { body: menu } = await boss.get<{ rules: { webHoldPercent: number } }>(`${stall}/menu/whole`);
    menu.rules.webHoldPercent = 50;
    expect((await boss.put(`${stall}/menu`, menu)).status).toBe(200);
    // Without a token all of one address are one sender.
    const strangers = Array.from({ length: 5 }, () =>
      worker.anyone.post<Problem>(`${stall}/orders`, { lines: [LINE] }),
    );
    const keyless = (await Promise.all(strangers)).map(({ status }) => status);
    expect(keyless.toSorted()).toEqual([201, 201, 201, 422, 422]);
    const statuses = new Map<number, number>();
    const types = new Set<string>();
    for (let n = 0; n < 100; n++) {
      const { body: first } = await worker.anyone.post<{ customer: string }>(`${stall}/chat`, {
        id: `first-contact-of-prankster-${n}`,
        text: "menu",
      });
      const prankster = worker.anyone.withKey(first.customer);
      const { status, body } = await prankster.post<Problem>(`${stall}/orders`, { lines: [LINE] });
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      if (status !== 201) types.add(body.type);
    }
    expect([...types].every((type) => /web-share|sold-out|line-too-long/.test(type))).toBe(true);
    const { body: stock } = await boss.get<{ skus: { sku: string; onHand: number; promised: number }[] }>(
      `${stall}/stock`,
    );
    const piece = stock.skus.find(({ sku }) => sku === "tee.navy.L");
    expect(statuses.get(201)).toBeLessThan(100);
    expect(piece?.promised).toBeLessThan(piece?.onHand ?? 0);
    expect((await boss.post(`${stall}/orders`, { lines: [LINE] })).status).toBe(201);
  });
});
