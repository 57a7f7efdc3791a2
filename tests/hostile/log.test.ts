/** The log: enough to find a request again, and nothing about any person. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { RefusalView } from "../../src/model/orders/refusal-counts.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { faultFacts } from "../../src/tracing/log.ts";
import { at, example } from "../http/running.ts";
import { GATEWAY_SECRET } from "../http/secrets.ts";
import { BUNDLING, bundled, type InProcess, logged } from "./in-process.ts";

const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
/** Must be in no line: a name, a number in any form, a message, a key. */
const NAME = "Wilhelmina";
const PHONE = "+12125550147";
const SAID = "my neighbour Ottoline wants it too";

let worker: InProcess;
let base: string;
let crew: Client;
let fair: Awaited<ReturnType<typeof example>>;

beforeAll(async () => {
  worker = (await bundled())();
  fair = await example(worker);
  base = at(fair);
  crew = worker.anyone.withKey(fair.stalls[0]?.key ?? "");
  logged();
}, BUNDLING);

const linesOf = (): readonly Record<string, unknown>[] => logged().map((line) => JSON.parse(line));

/** Makes the next transaction of the stall fail, as a full disk does, with an error that quotes what it was to write. */
function failOnce(): void {
  const stall = worker.stalls.get(`${fair.fair}/${fair.stalls[0]?.stall}`);
  if (stall === undefined) throw new Error("the stall has no object yet");
  const { storage } = stall;
  const { transactionSync } = storage;
  Object.assign(storage, {
    transactionSync: () => {
      Object.assign(storage, { transactionSync });
      throw new SyntaxError(`Unexpected token in ${NAME} ${PHONE} ${SAID}`);
    },
  });
}

describe("the log", () => {
  it("holds nothing of anybody, whatever is refused or breaks", async () => {
    const key = String(fair.stalls[0]?.key);
    await worker.anyone.post(`${base}/orders`, { lines: [LINE], name: NAME, phone: PHONE });
    await worker.anyone.post(`${base}/orders`, {
      lines: [LINE],
      name: `${NAME}\n`,
      phone: `${PHONE}9999999`,
    });
    await worker.anyone.post(`${base}/chat`, { id: "a-message-that-is-logged", text: SAID });
    await worker.anyone.post(`${base}/chat`, { id: "short", text: SAID });
    await worker.anyone.post(`${base}/chat`, `{"id":"${NAME}`, {});
    await worker.anyone.get(`/v1/fairs/${encodeURIComponent(PHONE)}/stalls/${NAME}/menu?said=${NAME}`);
    await worker.anyone.get(`/v1/${NAME}/${encodeURIComponent(SAID)}`);
    await worker.anyone.withKey(`${key}x`).get(`${base}/queue`);
    const text = JSON.stringify({ id: "m-1", from: PHONE, to: "+12125550199", text: SAID });
    await worker.anyone.post(`/v1/fairs/${fair.fair}/texts`, text, { [SIGNATURE_HEADER]: "sha256=00" });
    const signature = await sign(GATEWAY_SECRET, text);
    await worker.anyone.post(`/v1/fairs/${fair.fair}/texts`, text, { [SIGNATURE_HEADER]: signature });
    failOnce();
    const broken = await worker.anyone.post(`${base}/orders`, { lines: [LINE], name: NAME, phone: PHONE });
    expect(broken.status).toBe(500);
    const lines = logged();
    expect(lines.length).toBeGreaterThan(6);
    const all = lines.join("\n");
    for (const secret of [NAME, PHONE, "2125550147", "Ottoline", key, key.split(".")[2] ?? ""])
      expect(all).not.toContain(secret);
    for (const line of lines)
      expect(JSON.parse(line)).toMatchObject({ level: expect.any(String), request: expect.any(String) });
  });

  it("finds a request again from its answer, at the front door and in the object", async () => {
    logged();
    failOnce();
    const { headers, body, status } = await worker.anyone.post<Problem>(`${base}/orders`, { lines: [LINE] });
    const request = headers.get("x-request-id");
    expect(request).toMatch(/^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
    expect([status, body.instance]).toEqual([500, `urn:uuid:${request}`]);
    const lines = linesOf().filter((line) => line["request"] === request);
    expect(lines.map(({ what }) => what)).toEqual([
      "a call on an object failed",
      "a request failed",
      "refused",
    ]);
    expect(lines[0]).toMatchObject({ method: "place", error: "SyntaxError" });
    // The write that failed was whole: the same again, sent again, is taken.
    expect((await worker.anyone.post(`${base}/orders`, { lines: [LINE] })).status).toBe(201);
  });

  it("takes no request id from outside, and no line break gets into a line", async () => {
    logged();
    const forged = "forged-by-somebody";
    const { headers } = await worker.anyone.get(
      `/v1/fairs/x%0A%7B%22level%22%3A%22error%22%7D/stalls/a%0d%0ab/menu`,
      {
        "x-request-id": forged,
        "cf-ray": forged,
      },
    );
    expect(headers.get("x-request-id")).not.toBe(forged);
    const lines = logged();
    expect(lines).toHaveLength(1);
    expect(lines[0]).not.toMatch(/[\r\n]|forged|%0A/i);
  });

  it("keeps the message of our own errors only", () => {
    expect(faultFacts(new Error("the unit are gone"))).toMatchObject({
      error: "Error",
      message: "the unit are gone",
    });
    expect(JSON.stringify(faultFacts(new SyntaxError(`in "${NAME}"`)))).not.toContain(NAME);
    expect(JSON.stringify(faultFacts(new TypeError(`${NAME}\n    is no number`)))).not.toContain(NAME);
    expect(faultFacts(NAME)).toEqual({ error: "string" });
  });
});

describe("refusals", () => {
  it("are counted by reason for the crew, and counting does not grow with them", async () => {
    const count = async (type: string) => {
      const { body } = await crew.get<RefusalView>(`${base}/refusals`);
      return body.refusals.find((one) => one.type === `/problems/${type}`)?.count ?? 0;
    };
    const before = await count("no-such-offer");
    const stall = worker.stalls.get(`${fair.fair}/${fair.stalls[0]?.stall}`);
    const rows = () => [...(stall?.storage.kv.rows.keys() ?? [])].filter((key) => key.startsWith("refusals"));
    for (let n = 0; n < 25; n++)
      await worker.anyone.post(`${base}/orders`, { lines: [{ ...LINE, offer: `no-such-${n}` }] });
    expect(await count("no-such-offer")).toBe(before + 25);
    expect(rows()).toHaveLength(1);
    expect((await worker.anyone.get(`${base}/refusals`)).status).toBe(401);
  });

  it("at a stall that is not there leave no row", async () => {
    await worker.anyone.post("/v1/fairs/ghost/stalls/ghost/orders", { lines: [LINE] });
    expect(worker.stalls.get("ghost/ghost")?.storage.kv.rows.size).toBe(0);
  });
});

describe("a health check", () => {
  it("goes to the store of both kinds of object, and says when one does not answer", async () => {
    const first = await worker.anyone.get<{ ok: boolean; records: number }>("/v1/health");
    const second = await worker.anyone.get<{ ok: boolean; records: number }>("/v1/health");
    expect([first.body.ok, second.body.records - first.body.records]).toEqual([true, 1]);
    const [fairs, stalls] = [worker.fairs.get("health check"), worker.stalls.get("health check")];
    for (const living of [fairs, stalls]) {
      if (living === undefined) throw new Error("the check went to no object");
      const { put } = living.storage.kv;
      Object.assign(living.storage.kv, {
        put: () => {
          throw new Error("the disk is full");
        },
      });
      expect(await worker.anyone.get("/v1/health")).toMatchObject({ status: 503, body: { ok: false } });
      Object.assign(living.storage.kv, { put });
    }
    expect((await worker.anyone.get("/v1/health")).status).toBe(200);
  });
});
