/** A stall that has moved: visitors of the old address are sent on, and the crew can undo it. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../../src/local/client.ts";
import type { MovedTo } from "../../../src/model/accounts/moved.ts";
import type { Problem } from "../../../src/model/basics/problem.ts";
import type { ChatReply } from "../../../src/model/orders/chat.ts";
import type { PlacedOrder } from "../../../src/model/orders/order.ts";
import { orderPageOf } from "../../../src/screens/client/closeout/moved.ts";
import { SIGNATURE_HEADER, sign } from "../../../src/texting/signing/signature.ts";
import { at, example, GATEWAY_SECRET, type Running, start } from "../running.ts";
import { openSink, type Sink } from "../sink.ts";

const LINES = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
const TO = "https://elsewhere.example/at/marsh-end/tern";
const NUMBER = "+12125550141";

let running: Running;
let sink: Sink;
let fair: string;
let crew: Client;
let base: string;
let order: PlacedOrder;
let token: string;
let ids = 0;

beforeAll(async () => {
  sink = await openSink(GATEWAY_SECRET);
  running = await start({ GATEWAY_URL: sink.url, GATEWAY_NUMBER: "+12125550199" });
  const loaded = await example(running);
  fair = loaded.fair;
  base = at(loaded);
  crew = running.anyone.withKey(loaded.stalls[0]?.key ?? "");
  order = (await crew.post<PlacedOrder>(`${base}/orders`, { lines: LINES, phone: NUMBER })).body;
  const hello = { id: "moved-test-message-000001", text: "menu" };
  token = (await running.anyone.post<ChatReply>(`${base}/chat`, hello)).body.customer;
  expect((await crew.put<MovedTo>(`${base}/moved`, { to: TO })).body).toEqual({ to: TO });
});
afterAll(async () => {
  await running.stop();
  await sink.stop();
});

async function text(words: string, from = NUMBER): Promise<number> {
  const body = JSON.stringify({ id: `moved-text-${String(++ids).padStart(8, "0")}`, from, text: words });
  const headers = { [SIGNATURE_HEADER]: await sign(GATEWAY_SECRET, body) };
  return (await running.anyone.post(`/v1/fairs/${fair}/texts`, body, headers)).status;
}

/** The texts that the gateway got for a number. */
const sentTo = (number: string): readonly string[] =>
  sink.texts.filter(({ to }) => to === number).map((sent) => sent.text);

const expectSentOn = ({ status, body }: { readonly status: number; readonly body: Problem }): void => {
  expect([status, body.type, body.movedTo]).toEqual([410, "/problems/moved", TO]);
  expect(body.detail).toContain(TO);
};

describe("at the old address of a stall that has moved", () => {
  it.each(["", "/board", "/poster"])(
    "the page %s says where the stall is, in the browser's language",
    async (page) => {
      const address = `${running.url}/at/${fair}/tern${page}`;
      for (const [language, words] of [
        ["en", "This stall has moved"],
        ["es", "Este puesto se ha mudado"],
      ] as const) {
        const answer = await fetch(address, { headers: { "Accept-Language": language } });
        expect(answer.status).toBe(410);
        const html = await answer.text();
        for (const part of [words, `href="${TO}"`]) expect(html).toContain(part);
      }
    },
  );

  it("every route of a customer names the new address", async () => {
    const customer = running.anyone.withKey(token);
    const message = { id: "moved-test-message-000002", text: "1 navy L" };
    expectSentOn(await running.anyone.get(`${base}/menu`));
    expectSentOn(await running.anyone.get(`${base}/board`));
    expectSentOn(await running.anyone.post(`${base}/orders`, { lines: LINES }));
    expectSentOn(await running.anyone.withKey(order.claim).get(`${base}/orders/${order.number}`));
    expectSentOn(await customer.get(`${base}/chat`));
    expectSentOn(await customer.post(`${base}/chat`, message));
  });

  it("the crew's commands are not taken, so that no garment is pressed in two places; its account can be read", async () => {
    expectSentOn(await crew.get(`${base}/queue`));
    expectSentOn(await crew.post(`${base}/presses/A/pull`));
    expectSentOn(await crew.post(`${base}/orders`, { lines: LINES }));
    expectSentOn(await crew.post(`${base}/pause`, { reason: "rain" }));
    expect((await crew.get(`${base}/closeout`)).status).toBe(200);
    expect((await crew.get(`${base}/everything`)).status).toBe(200);
    expect((await crew.get<MovedTo>(`${base}/moved`)).body).toEqual({ to: TO });
  });

  it("a text is answered with where to go, whatever it says, and STOP still ends texts", async () => {
    expect(await text("tern 1 navy L")).toBe(200);
    await expect.poll(() => sentTo(NUMBER)).toEqual([expect.stringContaining(TO)]);
    expect(await text("status")).toBe(200);
    await expect.poll(() => sentTo(NUMBER).length).toBe(2);
    expect(await text("STOP")).toBe(200);
    await expect.poll(() => sentTo(NUMBER).length).toBe(3);
    expect(sentTo(NUMBER)[2]).not.toContain(TO);
    const other = "+12125550142";
    expect(await text("menu")).toBe(200);
    expect(await text("tern menu", other)).toBe(200);
    await expect.poll(() => sentTo(other)).toEqual([expect.stringContaining(TO)]);
    expect(sentTo(NUMBER).length).toBe(3);
  });

  it("nothing but the address of a stall's page is taken as the new address, and only from the crew", async () => {
    for (const to of [
      "javascript:alert(1)",
      "https://elsewhere.example/",
      `${TO}#key=a`,
      `${TO}?a=b`,
      "https://a@b/at/c/d",
    ])
      expect((await crew.put(`${base}/moved`, { to })).status, to).toBe(400);
    for (const who of [running.anyone, running.anyone.withKey(token)])
      expect((await who.put(`${base}/moved`, { to: TO })).status).toBeGreaterThanOrEqual(401);
    expect((await crew.get<MovedTo>(`${base}/moved`)).body).toEqual({ to: TO });
  });

  it("undone, everything is as it was", async () => {
    expect((await crew.put<MovedTo>(`${base}/moved`, { to: null })).body).toEqual({ to: null });
    expect((await fetch(`${running.url}/at/${fair}/tern`)).status).toBe(200);
    expect((await running.anyone.get(`${base}/menu`)).status).toBe(200);
    const pulled = await crew.post<{ job: { job: string } }>(`${base}/presses/A/pull`);
    expect(pulled.body.job.job).toBe(`${order.number}-1`);
  });
});

describe("the link that a crew pastes", () => {
  it.each([
    ["https://elsewhere.example/at/marsh-end/tern", TO],
    [" https://elsewhere.example/crew/marsh-end/tern/closeout#key=crew.1.secret ", TO],
    ["https://elsewhere.example/at/marsh-end/tern/board?x=1", TO],
    ["https://elsewhere.example/fair/marsh-end", null],
    ["javascript:alert(1)", null],
    ["tern", null],
  ])("%s is read as %s", (link, page) => {
    expect(orderPageOf(link)).toBe(page);
  });
});
