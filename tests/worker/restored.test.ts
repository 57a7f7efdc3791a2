/** A stall restored at another place, with another secret, is unchanged: STOP, tokens and claims came along. */

import { runDurableObjectAlarm } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import { app } from "../../src/http/app.ts";
import { Keys } from "../../src/http/doors/keys.ts";
import type { Env } from "../../src/http/requests/env.ts";
import { takeIn } from "../../src/http/routes/gateway/take-in.ts";
import type { StallId } from "../../src/model/basics/ids.ts";
import { GatewayMapping } from "../../src/model/fair/gateway.ts";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { PLAIN } from "../../src/texting/mapping/mappings.ts";
import { stopHash, stopKeyOf } from "../../src/texting/stop-hash.ts";
import { ids } from "../ids.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const OPENS = Date.parse("2027-06-12T14:00:00Z");
// Numbers reserved for fiction.
const STOPPED = "+12125550111" as PhoneNumber;
const WANTS = "+12125550112" as PhoneNumber;
const LINES = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
const ELSEWHERE = { ...env, KEY_SECRET: "the secret of quite another deployment" } as Env;
const GATEWAY = GatewayMapping.parse({
  ...PLAIN,
  numbers: [{ number: "+12125550199" }],
  outbound: { ...PLAIN.outbound, url: "https://gateway.invalid/out", signature: null },
});

let sent: string[] = [];
let writes = 0;
beforeEach(() => {
  sent = [];
  vi.useFakeTimers({ toFake: ["Date"] });
  vi.setSystemTime(OPENS + HOUR);
  vi.spyOn(console, "info").mockReturnValue();
  vi.spyOn(globalThis, "fetch").mockImplementation(async (_, init) => {
    sent.push(String(init?.body));
    return new Response(null, { status: 200 });
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

/** A fair with one stall at a deployment, open for ten hours from an instant. */
async function placeAt(deployment: Env, fair: string, opens: number) {
  const base = `/v1/fairs/${fair}/stalls/tern`;
  const call = async <T>(method: string, path: string, key: string | null, body?: unknown) => {
    const headers = new Headers({ "idempotency-key": `write-${++writes}-of-this-test` });
    if (key !== null) headers.set("authorization", `Bearer ${key}`);
    if (body !== undefined) headers.set("content-type", "application/json");
    const text = body === undefined ? undefined : JSON.stringify(body);
    if (text !== undefined) headers.set("content-length", String(new TextEncoder().encode(text).length));
    const init: RequestInit = { method, headers, ...(text === undefined ? {} : { body: text }) };
    const response = await app.request(`https://place.invalid${path}`, init, deployment);
    const answer = await response.text();
    return { status: response.status, body: (answer === "" ? null : JSON.parse(answer)) as T };
  };
  const openings = (at: number) => [
    { opens: new Date(at).toISOString(), closes: new Date(at + 10 * HOUR).toISOString() },
  ];
  const made = { fair, name: fair, timeZone: "UTC", openings: openings(opens) };
  const organiser = (await call<{ key: string }>("POST", "/v1/fairs", deployment.OWNER_SECRET ?? "", made))
    .body.key;
  const { key } = (await call<{ key: string }>("PUT", base, organiser, { name: "Tern" })).body;
  const [fairObject, stall] = [env.FAIR.getByName(fair), env.STALL.getByName(`${fair}/tern`)];
  await fairObject.setGateway(1, GATEWAY);
  await fairObject.tellStalls();
  const keys = new Keys(deployment.KEY_SECRET ?? "");
  const path = {
    fair: fairObject,
    stall: (name: StallId) => env.STALL.getByName(`${fair}/${name}`),
    opaqueId: (of: string) => keys.opaqueId(of),
    stopHash: async (phone: PhoneNumber) => stopHash(await keys.opaqueId(stopKeyOf(fair)), phone),
  };
  return {
    call,
    base,
    crew: key,
    organiser,
    openings,
    path: `/v1/fairs/${fair}`,
    text: (phone: PhoneNumber, text: string) =>
      takeIn(path, ids.fair(fair), false, { id: `text-${++writes}`, phone, to: null, text }),
    setUp: async () => {
      await call("PUT", `${base}/menu`, key, exampleMenu);
      const entries = [
        { sku: "tee.navy.L", counted: 20 },
        { design: "longtail", counted: 20 },
      ];
      expect((await call("POST", `${base}/stock`, key, { entries })).status).toBe(200);
    },
    ring: async () => {
      for (let times = 0; times < 8; times++) {
        await runDurableObjectAlarm(stall);
        await runDurableObjectAlarm(fairObject);
      }
    },
  };
}
type Place = Awaited<ReturnType<typeof placeAt>>;

/** A web order with a number, which then texts the order's code. */
async function orderWith(place: Place, phone: PhoneNumber): Promise<void> {
  const placed = await place.call<{ toBeTold: { text: string } }>("POST", `${place.base}/orders`, null, {
    lines: LINES,
    phone,
  });
  expect(placed.status).toBe(201);
  expect(await place.text(phone, placed.body.toBeTold.text)).toMatchObject({ ok: true });
  await place.ring();
}

const textsTo = (phone: PhoneNumber): number => sent.filter((body) => body.includes(phone)).length;

it("takes the tokens and claims that customers have, and no others", async () => {
  const here = await placeAt(ELSEWHERE, "before-tokens", OPENS);
  await here.setUp();
  type Chat = { customer: string; order?: { number: number; claim: string } };
  const chat = (place: Place, key: string | null, text: string) =>
    place.call<Chat>("POST", `${place.base}/chat`, key, {
      id: `chat-message-${++writes}-is-long-enough`,
      text,
    });
  const { customer: token } = (await chat(here, null, "1 navy L")).body;
  const placed = (await chat(here, token, "yes")).body.order;
  if (placed === undefined) throw new Error("no order");
  const saved = await here.call("GET", `${here.base}/everything`, here.crew);

  const there = await placeAt(env, "after-tokens", OPENS);
  expect((await there.call("PUT", `${there.base}/everything`, there.crew, saved.body)).status).toBe(200);
  const order = `${there.base}/orders/${placed.number}`;
  expect((await there.call("GET", order, placed.claim)).body).toMatchObject({ number: placed.number });
  const history = await there.call<{ messages: unknown[] }>("GET", `${there.base}/chat`, token);
  expect(history.body.messages.length).toBeGreaterThan(2);
  const next = await chat(there, token, "status");
  expect(next.body.order?.number).toBe(placed.number);
  // The token of this place comes with the answer, and both go along to the next one.
  expect(next.body.customer).not.toBe(token);
  const other = (text: string): string => (text.endsWith("A") ? "B" : "A");
  for (const [key, path] of [
    [`${placed.claim.slice(0, -1)}${other(placed.claim)}`, order],
    [`${token.slice(0, -1)}${other(token)}`, `${there.base}/chat`],
  ] as const)
    expect((await there.call("GET", path, key)).status).toBe(403);
  const again = await there.call("GET", `${there.base}/everything`, there.crew);
  const third = await placeAt(ELSEWHERE, "third-tokens", OPENS);
  expect((await third.call("PUT", `${third.base}/everything`, third.crew, again.body)).status).toBe(200);
  for (const key of [token, next.body.customer])
    expect((await third.call("GET", `${third.base}/chat`, key)).status).toBe(200);
});

it("texts no number that said STOP before it was saved, nor one that was erased by then, until it says START", async () => {
  const here = await placeAt(ELSEWHERE, "before-stop", OPENS);
  await here.setUp();
  for (const said of ["1 navy L", "yes", "STOP"]) await here.text(STOPPED, said);
  await here.ring();
  const live = await here.call("GET", `${here.base}/everything`, here.crew);
  for (const day of [28, 30]) {
    vi.setSystemTime(OPENS + 10 * HOUR + day * DAY + 1000);
    await here.ring();
  }
  const erased = await here.call("GET", `${here.base}/everything`, here.crew);
  expect(JSON.stringify(live.body)).toContain(STOPPED);
  expect(JSON.stringify(erased.body)).not.toContain(STOPPED);

  for (const [fair, file] of [
    ["after-stop", live],
    ["after-erasing", erased],
  ] as const) {
    const opens = OPENS + 40 * DAY;
    vi.setSystemTime(opens + HOUR);
    const there = await placeAt(env, fair, opens);
    expect((await there.call("PUT", `${there.base}/everything`, there.crew, file.body)).status).toBe(200);
    // Its people are erased there as well, and the fair is held again.
    for (const day of [28, 30]) {
      vi.setSystemTime(opens + 10 * HOUR + day * DAY + 1000);
      await there.ring();
    }
    const again = opens + 60 * DAY;
    vi.setSystemTime(again + HOUR);
    const hours = { name: fair, openings: there.openings(again) };
    expect((await there.call("PUT", there.path, there.organiser, hours)).status).toBe(200);
    sent = [];
    await orderWith(there, STOPPED);
    expect([fair, textsTo(STOPPED)]).toEqual([fair, 0]);
    await orderWith(there, WANTS);
    expect(textsTo(WANTS)).toBeGreaterThan(0);
    await there.text(STOPPED, "START");
    await there.ring();
    expect(textsTo(STOPPED)).toBeGreaterThan(0);
  }
}, 60_000);
