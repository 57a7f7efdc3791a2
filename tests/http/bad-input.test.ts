import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import { Problem } from "../../src/model/basics/problem.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let fair: LoadedFair;
let crew: Client;
let base: string;
const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
// Sixteen digits whose check digit holds, of an issuer range that ISO/IEC 7812 leaves to national use.
const CARD = "9000 0000 0000 0001";
const lines = (line: object) => ({ lines: [{ ...LINE, ...line }] });

beforeAll(async () => {
  running = await shared();
  fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

/** Every refusal is a whole problem that a person can act on. */
function expectProblem(
  { status, headers, body }: { status: number; headers: Headers; body: unknown },
  wanted: number,
): Problem {
  expect(status, JSON.stringify(body)).toBe(wanted);
  expect(headers.get("content-type")).toBe("application/problem+json");
  const problem = Problem.parse(body);
  expect(problem.status).toBe(wanted);
  expect(problem.type).toMatch(/^\/problems\/[a-z-]+$/);
  expect(problem.detail.length).toBeGreaterThan(10);
  // In our words, not in the schema library's.
  for (const said of [problem.detail, ...(problem.errors ?? []).map(({ detail }) => detail)])
    expect(said).not.toMatch(/Too (?:small|big)|Invalid |Unrecognized|expected \w+ to|received /);
  return problem;
}

describe("an order that cannot be read", () => {
  it.each([
    ["malformed JSON", '{"lines": [', 400],
    ["no JSON at all", "hello", 400],
    ["an empty body", "", 400],
    ["a list", "[]", 400],
    ["null", "null", 400],
    ["an unknown field", JSON.stringify({ lines: [LINE], tip: 5 }), 400],
    ["an unknown field in a line", JSON.stringify(lines({ gift: true })), 400],
    ["quantity 0", JSON.stringify(lines({ quantity: 0 })), 400],
    ["quantity -1", JSON.stringify(lines({ quantity: -1 })), 400],
    ["quantity 1.5", JSON.stringify(lines({ quantity: 1.5 })), 400],
    ["quantity 1e9", JSON.stringify(lines({ quantity: 1e9 })), 400],
    ["quantity in words", JSON.stringify(lines({ quantity: "two" })), 400],
    ["a line too many garments for the phone", JSON.stringify(lines({ quantity: 7 })), 422],
    ["an unknown offer", JSON.stringify(lines({ offer: "no-such-tee" })), 422],
    ["an unknown colour", JSON.stringify(lines({ colour: "plaid" })), 422],
    ["a size of another blank", JSON.stringify(lines({ size: "one" })), 422],
    ["control characters in the name", JSON.stringify({ lines: [LINE], name: "A\u0007B" }), 400],
    ["a name that turns the line round", JSON.stringify({ lines: [LINE], name: "ab\u202Edc" }), 400],
    ["a card number for a name", JSON.stringify({ lines: [LINE], name: `Ann ${CARD}` }), 400],
    ["a phone number that is none", JSON.stringify({ lines: [LINE], phone: "555" }), 400],
    ["a number of 16 digits", JSON.stringify({ lines: [LINE], phone: "+1234567890123456" }), 400],
    ["more than 64 KiB", JSON.stringify({ lines: [LINE], name: "a".repeat(70_000) }), 413],
    ["a prototype for a field", '{"lines":[],"__proto__":{"x":1}}', 400],
  ])("%s", async (_, body, status) => {
    const before = await crew.get<QueueView>(`${base}/queue`);
    const problem = expectProblem(
      await running.anyone.post(
        `${base}/orders`,
        body === "" ? undefined : body,
        body === "" ? { "content-type": "application/json" } : {},
      ),
      status,
    );
    if (problem.errors !== undefined) for (const { pointer } of problem.errors) expect(pointer).toMatch(/^#/);
    const after = await crew.get<QueueView>(`${base}/queue`);
    expect(after.body.counts).toEqual(before.body.counts);
  });
  it("points at the field", async () => {
    const problem = expectProblem(await running.anyone.post(`${base}/orders`, lines({ quantity: 1.5 })), 400);
    expect(problem.errors?.map(({ pointer }) => pointer)).toEqual(["#/lines/0/quantity"]);
  });
  it("needs a known content type", async () => {
    expectProblem(
      await running.anyone.post(`${base}/orders`, "<order/>", { "content-type": "application/xml" }),
      415,
    );
  });
  it("needs an Idempotency-Key", async () => {
    const response = await fetch(`${running.url}${base}/orders`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ lines: [LINE] }),
    });
    expect(response.status).toBe(400);
    expect(Problem.parse(await response.json()).type).toBe("/problems/idempotency-key-needed");
  });
});

describe("a chat message", () => {
  it.each([
    ["of 10 kB", { id: "m".repeat(22), text: "a".repeat(10_000) }, 400],
    ["without an id", { text: "menu" }, 400],
    ["with a guessable id", { id: "1", text: "menu" }, 400],
  ])("%s is refused", async (_, body, status) => {
    expectProblem(await running.anyone.post(`${base}/chat`, body), status);
  });
  it("of control characters alone gets an answer", async () => {
    const { status } = await running.anyone.post(`${base}/chat`, {
      id: "controlcharacters00001",
      text: "\u0000\u0007\u001b",
    });
    expect(status).toBe(200);
  });
});

describe("what is not there", () => {
  it.each([
    ["GET", "/v1/fairs/brackenfield/stalls/nobody/menu", 404],
    ["GET", "/v1/fairs/nowhere/stalls/tern/board", 404],
    ["GET", "/v1/fairs/Bad%20Name/stalls/tern/menu", 400],
    ["GET", "/v1/nothing", 404],
    ["GET", "/v1/fairs/brackenfield/stalls/tern/orders/99999", 401],
  ])("%s %s", async (method, path, status) => {
    expectProblem(await running.anyone.send(method, path), status);
  });
  it("leaves no trace of a stall that was asked for", async () => {
    // The same answer again, and still no menu: nothing was made by asking.
    for (const path of ["menu", "board"])
      expectProblem(await running.anyone.get(`/v1/fairs/ghost/stalls/ghost/${path}`), 404);
    expectProblem(await running.anyone.post("/v1/fairs/ghost/stalls/ghost/orders", { lines: [LINE] }), 404);
  });
});

describe("the wrong stage", () => {
  it("names the stage and what is needed", async () => {
    const { body } = await running.anyone.post<{ number: number }>(`${base}/orders`, { lines: [LINE] });
    const early = expectProblem(await crew.post(`${base}/jobs/${body.number}-1/pressed`, {}), 409);
    expect([early.type, early.stage]).toEqual(["/problems/wrong-stage", "waiting"]);
    expectProblem(await crew.post(`${base}/orders/${body.number}/collected`, {}), 409);
    expectProblem(await crew.post(`${base}/jobs/${body.number}-2/pressed`, {}), 404);
    expectProblem(await crew.post(`${base}/presses/Z/pull`), 404);
  });
});

describe("a menu that contradicts itself", () => {
  it("is refused with every fault and its pointer, and nothing is saved", async () => {
    const { body: whole } = await crew.get<Record<string, unknown>>(`${base}/menu/whole`);
    const menu = structuredClone(whole) as {
      offers: Record<string, unknown>[];
      presses: { platen: string }[];
    };
    menu.offers[0] = { ...menu.offers[0], design: "nothing" };
    menu.offers[1] = { ...menu.offers[1], price: 24.5 };
    const shape = expectProblem(await crew.put(`${base}/menu`, menu), 400);
    expect(shape.errors?.map(({ pointer }) => pointer)).toEqual(["#/offers/1/price"]);
    menu.offers[1] = { ...menu.offers[1], price: 2450, name: "Otter tee" };
    menu.offers.push({ ...menu.offers[4], id: "otter-tote-again", name: "Second tote" });
    menu.presses = menu.presses.filter(({ platen }) => platen !== "cap");
    const sense = expectProblem(await crew.put(`${base}/menu`, menu), 422);
    expect(sense.errors?.map(({ pointer }) => pointer).sort()).toEqual([
      "#/blanks/1/platen",
      "#/offers",
      "#/offers/0/design",
      "#/offers/2/name",
      "#/offers/6",
    ]);
    expect((await crew.get(`${base}/menu/whole`)).body).toEqual(whole);
  });
});

describe("a stock sheet", () => {
  it("is taken whole or, with every fault named, not at all", async () => {
    const before = (await crew.get(`${base}/stock`)).body;
    const entries = [
      { sku: "tee.navy.L", delivered: 5 },
      { sku: "tee.plaid.L", counted: 5 },
      { design: "kite", corrected: -5000 },
    ];
    const problem = expectProblem(await crew.post(`${base}/stock`, { entries }), 422);
    expect(problem.errors?.map(({ pointer }) => pointer)).toEqual(["#/entries/1", "#/entries/2"]);
    const sheet = expectProblem(
      await crew.post(`${base}/stock`, "piece,counted\r\ntee.navy.L,many\r\n", {
        "content-type": "text/csv",
      }),
      400,
    );
    expect(sheet.errors?.[0]?.pointer).toBe("#/1/counted");
    expectProblem(
      await crew.post(`${base}/stock`, "size,number\r\nL,4\r\n", { "content-type": "text/csv" }),
      400,
    );
    expect((await crew.get(`${base}/stock`)).body).toEqual(before);
  });
});
