/** Leaks through a fair's gateway mapping: secrets to the public, or to a host of the writer's choice. */
import { afterEach, beforeAll, expect, it, vi } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import { GatewayMapping } from "../../src/model/fair/gateway.ts";
import { bindingsOf } from "../../src/texting/bindings.ts";
import { PLAIN } from "../../src/texting/mapping/mappings.ts";
import { numberOf } from "../../src/texting/mapping/own-number.ts";
import { sendText } from "../../src/texting/sending/gateway.ts";
import { bytesOf, encoded, hmac } from "../../src/texting/signing/signature.ts";
import { GATEWAY_SECRET } from "../http/secrets.ts";
import { BUNDLING, bundled, type InProcess } from "./in-process.ts";

let start: (bindings?: Readonly<Record<string, unknown>>) => InProcess;
beforeAll(async () => {
  start = await bundled();
}, BUNDLING);
afterEach(() => void vi.unstubAllGlobals());

const FAIR = {
  fair: "brackenfield",
  name: "Brackenfield",
  timeZone: "UTC",
  openings: [{ opens: "2027-06-12T14:00:00Z", closes: "2027-06-12T20:00:00Z" }],
};
const PATH = "/v1/fairs/brackenfield/gateway";
const to = (url: string) => ({ ...PLAIN, outbound: { ...PLAIN.outbound, url } });

async function organiserOf(worker: InProcess, fair = FAIR.fair): Promise<Client> {
  const { status, body } = await worker.owner.post<{ key: string }>("/v1/fairs", { ...FAIR, fair });
  expect(status).toBe(201);
  return worker.anyone.withKey(body.key);
}

it("a number that would come out as a secret is refused, and the answer does not hold it", async () => {
  const organiser = await organiserOf(start({ GATEWAY_URL: "https://one.example/out" }));
  const answer = await organiser.put<Problem>(PATH, {
    ...PLAIN,
    numbers: [{ number: "{binding:GATEWAY_SECRET}" }],
  });
  expect([answer.status, answer.body.errors?.[0]?.pointer]).toEqual([422, "#/numbers/0/number"]);
  expect(JSON.stringify(answer.body)).not.toContain(GATEWAY_SECRET);
});

it("a saved mapping whose number comes out as a secret has no number", () => {
  const bindings = bindingsOf({ GATEWAY_SECRET, GATEWAY_NUMBER: "+12125550199" });
  expect(numberOf("{binding:GATEWAY_SECRET}", bindings)).toBeNull();
  expect(numberOf("call {text}", bindings)).toBeNull();
  expect(numberOf("{binding:GATEWAY_NUMBER}", bindings)).toBe("+12125550199");
});

it("the host that a fair saved first stays, unless the owner lists others", async () => {
  const organiser = await organiserOf(start());
  expect((await organiser.put(PATH, to("https://one.example/a"))).status).toBe(200);
  const other = await organiser.put<Problem>(PATH, to("https://two.example/a"));
  expect([other.status, other.body.errors?.[0]?.pointer]).toEqual([422, "#/outbound/url"]);
  expect(other.body.errors?.[0]?.detail).toContain("GATEWAY_HOSTS");
  expect((await organiser.put(PATH, to("https://one.example/b"))).status).toBe(200);

  const listing = await organiserOf(start({ GATEWAY_HOSTS: "one.example, two.example" }));
  for (const [host, status] of [
    ["one", 200],
    ["two", 200],
    ["three", 422],
  ] as const)
    expect((await listing.put(PATH, to(`https://${host}.example/a`))).status).toBe(status);
});

it("a saved mapping sends nothing to a host that is not pinned", async () => {
  const asked = vi.fn(async () => new Response(null));
  vi.stubGlobal("fetch", asked);
  const bindings = bindingsOf({ GATEWAY_SECRET });
  const text = { id: "1", from: "+12125550199", to: "+12125550100", text: "hello" };
  const { outbound } = GatewayMapping.parse(to("https://one.example@two.example/out"));
  const sent = await sendText(outbound, text, { bindings, hosts: ["one.example"] });
  expect(sent).toMatchObject({ type: "refused", why: expect.stringContaining("GATEWAY_HOSTS") });
  expect(asked).not.toHaveBeenCalled();
  expect(await sendText(outbound, text, { bindings, hosts: ["two.example"] })).toEqual({ type: "sent" });
});

it("a fair names only the bindings that the owner lists", async () => {
  const hidden = {
    ...PLAIN,
    outbound: { ...PLAIN.outbound, headers: { key: "{binding:GATEWAY_HIDDEN}", id: "{id}" } },
  };
  const set = { GATEWAY_URL: "https://one.example/out", GATEWAY_HIDDEN: "a secret of another fair" };
  const organiser = await organiserOf(start(set));
  const answer = await organiser.put<Problem>(PATH, hidden);
  expect([answer.status, answer.body.errors?.[0]?.pointer]).toEqual([422, "#/outbound/headers/key"]);
  const listing = await organiserOf(start({ ...set, GATEWAY_BINDINGS: "GATEWAY_HIDDEN" }));
  expect((await listing.put(PATH, hidden)).status).toBe(200);
});

it("a saved mapping that signs a part only takes no text in, and says why", async () => {
  const worker = start({ GATEWAY_URL: "https://one.example/out" });
  // The front door caches a fair's gateway for some seconds, so this test uses its own fair.
  await organiserOf(worker, "partly");
  const partly = GatewayMapping.parse({
    ...PLAIN,
    verification: { ...PLAIN.verification, parts: [{ part: "field", name: "words" }] },
    inbound: { ...PLAIN.inbound, body: "form", id: "id", from: "from", to: "to", text: "words", sample: "" },
    receipts: undefined,
  });
  worker.fairs.get("partly")?.storage.kv.put("gateway", { version: 2, mapping: partly });
  const mac = encoded(await hmac(bytesOf(GATEWAY_SECRET), "SHA-256", bytesOf("menu")), "hex");
  const body = new URLSearchParams({
    id: "1",
    from: "+12125550100",
    to: "+12125550199",
    words: "menu",
  }).toString();
  const answer = await worker.anyone.post<Problem>("/v1/fairs/partly/texts", body, {
    "content-type": "application/x-www-form-urlencoded",
    "text-signature": `sha256=${mac}`,
  });
  expect([answer.status, answer.body.type]).toEqual([401, "/problems/partly-signed"]);
  expect(answer.body.detail).toContain("the field from");
});
