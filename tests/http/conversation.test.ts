import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { ChatHistory, ChatReply, PeopleKept } from "../../src/model/orders/chat.ts";
import type { CrewOrderView } from "../../src/model/orders/order.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { at, example, GATEWAY_SECRET, type Running, start } from "./running.ts";
import { openSink, type Sink } from "./sink.ts";

let running: Running;
let sink: Sink;
let fair: LoadedFair;
let crew: Client;
let base: string;

beforeAll(async () => {
  sink = await openSink(GATEWAY_SECRET);
  running = await start({ GATEWAY_URL: sink.url, GATEWAY_NUMBER: "+12125550199" });
  fair = await example(running);
  base = at(fair);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});
afterAll(async () => {
  await running.stop();
  await sink.stop();
});

let messages = 0;
const nextId = (): string => `test-message-${String(++messages).padStart(12, "0")}`;

/** Says something on the web; gives the reply. */
async function say(customer: Client, text: string, id = nextId()): Promise<ChatReply> {
  const { status, body } = await customer.post<ChatReply>(`${base}/chat`, { id, text });
  expect([text, status]).toEqual([text, 200]);
  return body;
}

describe("on the web", () => {
  it("one short message a step ends in an order with number, word, place and wait", async () => {
    const hello = await say(running.anyone, "menu");
    expect(hello.replies[0]?.text).toContain("1 Longtail tee");
    const customer = running.anyone.withKey(hello.customer);
    for (const text of ["1", "1", "3"]) expect((await say(customer, text)).order).toBeUndefined();
    await say(customer, "1");
    const placed = await say(customer, "yes");
    expect(placed.order).toMatchObject({ number: 101, place: 1, stage: "waiting" });
    const reply = placed.replies[0]?.text ?? "";
    for (const part of ["101", placed.order?.word ?? "?"]) expect(reply).toContain(part);
    expect((await say(customer, "status")).replies[0]?.text).toContain("101");
  });

  it("the same message twice is the same customer, the same reply, and one effect", async () => {
    const id = nextId();
    const one = await say(running.anyone, "1 navy L", id);
    const before = await crew.get<StockView>(`${base}/stock`);
    expect(await say(running.anyone, "1 navy L", id)).toEqual(one);
    expect((await crew.get(`${base}/stock`)).body).toEqual(before.body);
    const other = await running.anyone.post<Problem>(`${base}/chat`, { id, text: "2 sand M" });
    expect([other.status, other.body.type]).toEqual([422, "/problems/key-reused"]);
  });

  it("is erased at once by whoever holds its token; the order stays, with nobody's name", async () => {
    const kept = await running.anyone.get<PeopleKept>(`${base}/people-kept`);
    expect([kept.body.eraseAfterDays, kept.body.erasedAt === null]).toEqual([30, false]);
    const hello = await say(running.anyone, "1 navy L");
    const customer = running.anyone.withKey(hello.customer);
    const number = (await say(customer, "yes")).order?.number ?? 0;
    expect((await running.anyone.post(`${base}/chat/erased`, {})).status).toBe(401);
    expect((await customer.post(`${base}/chat/erased`, {})).body).toEqual({ erased: true });
    const after = await customer.get<ChatHistory>(`${base}/chat?after=0`);
    expect([after.body.messages, after.body.order]).toEqual([[], undefined]);
    expect((await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`)).body.stage).toBe("waiting");
    const page = await running.anyone.get<string>(`/at/${fair.fair}/tern/your-data`);
    expect([page.status, String(page.body).includes("ERASE ME")]).toEqual([200, true]);
  });

  it("reads on from where the page was", async () => {
    const hello = await say(running.anyone, "menu");
    const customer = running.anyone.withKey(hello.customer);
    const first = await customer.get<ChatHistory>(`${base}/chat?after=0`);
    expect(first.body.messages.map(({ from }) => from)).toEqual(["customer", "stall"]);
    await say(customer, "1");
    const second = await customer.get<ChatHistory>(`${base}/chat?after=${first.body.last}`);
    expect(second.body.messages[0]?.text).toBe("1");
    expect((await running.anyone.get(`${base}/chat?after=0`)).status).toBe(401);
  });
});

describe("by text", () => {
  const phone = "+12125550101";
  const text = async (words: string, id = nextId(), from = phone) => {
    const body = JSON.stringify({ id, from, to: "+12125550199", text: words });
    const headers = { [SIGNATURE_HEADER]: await sign(GATEWAY_SECRET, body) };
    return running.anyone.post(`/v1/fairs/${fair.fair}/texts`, body, headers);
  };
  const received = (to = phone) => sink.texts.filter((out) => out.to === to).map((out) => out.text);

  it("the stall's word picks it, one text orders, yes confirms, and the phone is told when it is ready", async () => {
    expect((await text("tern 1 navy L")).status).toBe(200);
    await expect.poll(() => received()).toHaveLength(1);
    const id = nextId();
    await text("yes", id);
    await text("yes", id);
    await expect.poll(() => received()).toHaveLength(2);
    const number = Number(/\b1\d\d\b/.exec(received()[1] ?? "")?.[0]);
    const { body } = await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`);
    expect([body.takenBy, body.phone, body.told]).toEqual(["text", "…0101", "nothing"]);
    expect((await crew.get(`${base}/orders/${number}/phone`)).body).toEqual({ phone });

    const { body: menu } = await crew.get<{ rules: Record<string, unknown> }>(`${base}/menu/whole`);
    await crew.put(`${base}/menu`, { ...menu, rules: { ...menu.rules, readyTextSeconds: 0 } });
    for (;;) {
      const pulled = await crew.post<{ job: { job: string; number: number } }>(`${base}/presses/A/pull`);
      await crew.post(`${base}/jobs/${pulled.body.job.job}/pressed`, {});
      if (pulled.body.job.number === number) break;
    }
    await expect.poll(() => received()).toHaveLength(3);
    expect(received()[2]).toContain(String(number));
    await expect
      .poll(async () => (await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`)).body.told)
      .toBe("sent");
  });

  it("a sender who names no stall is asked which", async () => {
    await text("hello", nextId(), "+12125550102");
    await expect.poll(() => received("+12125550102")).toHaveLength(1);
    expect(received("+12125550102")[0]).toContain("2 ");
  });

  it("a wrong signature is refused and nothing is taken in", async () => {
    const body = JSON.stringify({ id: nextId(), from: phone, to: "+12125550199", text: "menu" });
    for (const signature of ["", "sha256=", `sha256=${"0".repeat(64)}`, await sign("another secret", body)]) {
      const { status } = await running.anyone.post(`/v1/fairs/${fair.fair}/texts`, body, {
        [SIGNATURE_HEADER]: signature,
      });
      expect(status).toBe(401);
    }
  });

  it("ERASE ME forgets the number and what was said, and STOP outlives it", async () => {
    const shy = "+12125550105";
    await text("tern 1 navy M", nextId(), shy);
    await text("yes", nextId(), shy);
    await expect.poll(() => received(shy)).toHaveLength(2);
    const number = Number(/\b1\d\d\b/.exec(received(shy)[1] ?? "")?.[0]);
    await text("erase me", nextId(), shy);
    await expect.poll(() => received(shy)).toHaveLength(3);
    expect(received(shy)[2]).toContain("erased your number");
    const { body } = await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`);
    expect([body.stage, body.phone, body.told]).toEqual(["waiting", null, "call-out"]);
    const { body: whole } = await crew.get<object>(`${base}/everything`);
    expect(JSON.stringify(whole)).not.toContain(shy);
    await text("stop", nextId(), shy);
    await expect.poll(() => received(shy)).toHaveLength(4);
    await text("erase me", nextId(), shy);
    await text("menu", nextId(), shy);
    await text("menu", nextId(), "+12125550106");
    await expect.poll(() => received("+12125550106").length).toBeGreaterThan(0);
    expect(received(shy)).toHaveLength(4);
  });

  it("STOP is honoured: no text after it, and the crew sees it", async () => {
    const quiet = "+12125550103";
    await text("tern 1 navy M", nextId(), quiet);
    await text("yes", nextId(), quiet);
    await expect.poll(() => received(quiet)).toHaveLength(2);
    const number = Number(/\b1\d\d\b/.exec(received(quiet)[1] ?? "")?.[0]);
    await text("STOP", nextId(), quiet);
    await expect.poll(() => received(quiet)).toHaveLength(3);
    for (;;) {
      const pulled = await crew.post<{ job: { job: string; number: number } }>(`${base}/presses/B/pull`);
      await crew.post(`${base}/jobs/${pulled.body.job.job}/pressed`, {});
      if (pulled.body.job.number === number) break;
    }
    const { body } = await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`);
    expect([body.stage, body.told]).toEqual(["ready", "opted-out"]);
    // A later text to somebody else has gone out, and this phone still has only its three.
    await text("menu", nextId(), "+12125550104");
    await expect.poll(() => received("+12125550104").length).toBeGreaterThan(0);
    expect(received(quiet)).toHaveLength(3);
  });
});
