import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import type { TriedGateway } from "../../src/model/fair/gateway.ts";
import type { SeenFair } from "../../src/model/fair/seen.ts";
import type { Throughput } from "../../src/model/fair/throughput.ts";
import type { CrewOrderView, PlacedOrder } from "../../src/model/orders/order.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { PLAIN } from "../../src/texting/mapping/mappings.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import { at, example, GATEWAY_SECRET, type Running, start } from "./running.ts";
import { openSink, type Sink } from "./sink.ts";

const NUMBER = "+12125550199";
let running: Running;
let sink: Sink;

beforeAll(async () => {
  sink = await openSink(GATEWAY_SECRET);
  running = await start({ GATEWAY_URL: sink.url, GATEWAY_NUMBER: NUMBER });
});
afterAll(async () => {
  await running.stop();
  await sink.stop();
});

let count = 0;
const nextId = (): string => `message-${++count}`;
const post = async (fair: LoadedFair, what: "texts" | "receipts", body: unknown) => {
  const said = JSON.stringify(body);
  return running.anyone.post<Problem>(`/v1/fairs/${fair.fair}/${what}`, said, {
    [SIGNATURE_HEADER]: await sign(GATEWAY_SECRET, said),
  });
};
const text = (fair: LoadedFair, from: string, words: string, id = nextId(), to = NUMBER) =>
  post(fair, "texts", { id, from, to, text: words });
const received = (to: string) => sink.texts.filter((out) => out.to === to);
/** Says something and gives the text that answers it. */
async function ask(fair: LoadedFair, from: string, words: string): Promise<string> {
  const before = received(from).length;
  expect((await text(fair, from, words)).status).toBe(200);
  await expect.poll(() => received(from).length, { timeout: 10_000 }).toBe(before + 1);
  return received(from)[before]?.text ?? "";
}
const organiser = (fair: LoadedFair): Client => running.anyone.withKey(fair.key);
const crew = (fair: LoadedFair, index = 0): Client => running.anyone.withKey(fair.stalls[index]?.key ?? "");
const setMapping = (fair: LoadedFair, mapping: unknown) =>
  organiser(fair).put<Problem>(`/v1/fairs/${fair.fair}/gateway`, mapping);
/** Presses until an order is ready, with its text due at once. */
async function press(fair: LoadedFair, number: number): Promise<void> {
  const base = at(fair);
  const { body: menu } = await crew(fair).get<{ rules: object }>(`${base}/menu/whole`);
  await crew(fair).put(`${base}/menu`, { ...menu, rules: { ...menu.rules, readyTextSeconds: 0 } });
  for (;;) {
    const pulled = await crew(fair).post<{ job: { job: string; number: number } }>(`${base}/presses/A/pull`);
    await crew(fair).post(`${base}/jobs/${pulled.body.job.job}/pressed`, {});
    if (pulled.body.job.number === number) return;
  }
}
const wholeOrder = async (fair: LoadedFair, number: number) =>
  (await crew(fair).get<CrewOrderView>(`${at(fair)}/orders/${number}/whole`)).body;
const toldOf = async (fair: LoadedFair, number: number) => (await wholeOrder(fair, number)).told;
const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

describe("the mapping of a fair", () => {
  it("is plain until it is set, and refused whole with every mistake named", async () => {
    const fair = await example(running, "mapping");
    const before = await organiser(fair).get(`/v1/fairs/mapping/gateway`);
    expect(before.body).toEqual({ version: 1, mapping: PLAIN });
    const { status, body } = await setMapping(fair, {
      ...PLAIN,
      inbound: { ...PLAIN.inbound, from: "/sender" },
      outbound: {
        ...PLAIN.outbound,
        headers: { ...PLAIN.outbound.headers, by: "{who}", key: "{binding:GATEWAY_KEY}" },
      },
    });
    expect([status, body.type]).toEqual([422, "/problems/gateway"]);
    expect(body.errors?.map(({ pointer }) => pointer)).toEqual([
      "#/outbound/headers/by",
      "#/outbound/headers/key",
      "#/inbound/from",
    ]);
    expect((await organiser(fair).get(`/v1/fairs/mapping/gateway`)).body).toEqual(before.body);
    for (const key of [null, crew(fair), running.owner]) {
      const other = key ?? running.anyone;
      expect([401, 403]).toContain((await other.put(`/v1/fairs/mapping/gateway`, PLAIN)).status);
      expect([401, 403]).toContain((await other.get(`/v1/fairs/mapping/gateway`)).status);
    }
  });
  it("is tried with a text to the organiser's own number: five a day, if it has texted here and not said STOP", async () => {
    const fair = await example(running, "tried");
    const attempt = (to: string, key: string = nextId()) =>
      organiser(fair).post<TriedGateway & Problem>(
        "/v1/fairs/tried/gateway/tries",
        { to },
        { "idempotency-key": key },
      );
    const stranger = await attempt("+12125550171");
    expect([stranger.status, stranger.body.type]).toEqual([409, "/problems/text-first"]);
    expect(received("+12125550171")).toEqual([]);
    await ask(fair, "+12125550171", "menu");
    const before = received("+12125550171").length;
    const first = await attempt("+12125550171", "try-this-number-once");
    expect([first.status, first.body.accepted]).toEqual([200, true]);
    const again = await attempt("+12125550171", "try-this-number-once");
    expect(again.body).toEqual(first.body);
    const tries = received("+12125550171").slice(before);
    expect([new Set(tries.map(({ id }) => id)).size, tries[0]?.text]).toEqual([
      1,
      expect.stringContaining("texts go out by your gateway"),
    ]);
    await ask(fair, "+12125550172", "menu");
    expect((await text(fair, "+12125550172", "STOP")).status).toBe(200);
    const stopped = await attempt("+12125550172");
    expect([stopped.status, stopped.body.type]).toEqual([409, "/problems/not-texted"]);
    for (const _ of [2, 3, 4, 5]) expect((await attempt("+12125550171")).status).toBe(200);
    const sixth = await attempt("+12125550171");
    expect([sixth.status, sixth.body.type]).toEqual([429, "/problems/no-more-tries"]);
    expect([401, 403]).toContain(
      (await crew(fair).post("/v1/fairs/tried/gateway/tries", { to: NUMBER })).status,
    );
  });
  it("is what texts are read by and answered by: a form, with the reply in the answer", async () => {
    const fair = await example(running, "forms");
    const mapping = {
      ...PLAIN,
      verification: { by: "header", header: "x-relay-key", secret: "GATEWAY_SECRET" },
      inbound: {
        body: "form",
        id: "note",
        from: "by",
        text: "words",
        answer: {
          status: 200,
          contentType: "text/xml",
          body: "<say>{replies}</say>",
          reply: "<line>{text}</line>",
        },
        sample: "note=1&by=%2B12125550100&words=menu",
      },
    };
    expect((await setMapping(fair, mapping)).status).toBe(200);
    const form = (fields: Record<string, string>, key = GATEWAY_SECRET) =>
      running.anyone.post<string>("/v1/fairs/forms/texts", new URLSearchParams(fields).toString(), {
        "content-type": "application/x-www-form-urlencoded",
        "x-relay-key": key,
      });
    const fields = { note: "n-1", by: "(212) 555-0110", words: "tern 1 navy L" };
    const first = await form(fields);
    expect([first.status, first.headers.get("content-type")]).toEqual([200, "text/xml"]);
    expect(first.body).toMatch(/^<say><line>.*Longtail.*<\/line><\/say>$/s);
    expect((await form(fields)).body).toBe(first.body);
    expect((await form(fields, "another key")).status).toBe(401);
    expect((await form({ note: "n-2", by: "+12125550110" })).status).toBe(400);
    expect(received("+12125550110")).toEqual([]);
  });
});

describe("unsigned texts", () => {
  it("are taken on a worker that only this computer can reach, and refused with the reason elsewhere", async () => {
    const open = { ...PLAIN, verification: { by: "none" } };
    const said = { id: nextId(), from: "+12125550112", to: NUMBER, text: "tern" };
    const fair = await example(running, "loopback");
    expect((await setMapping(fair, open)).status).toBe(200);
    expect((await running.anyone.post("/v1/fairs/loopback/texts", said)).status).toBe(200);
    await expect.poll(() => received("+12125550112")).toHaveLength(1);

    const reachable = await start({ GATEWAY_URL: sink.url, GATEWAY_NUMBER: NUMBER, LOOPBACK: "no" });
    try {
      const other = await example(reachable, "reachable");
      const organiserThere = reachable.anyone.withKey(other.key);
      const { status, body } = await organiserThere.put<Problem>("/v1/fairs/reachable/gateway", open);
      expect([status, body.errors?.[0]?.pointer]).toEqual([422, "#/verification/by"]);
      expect((await reachable.anyone.post("/v1/fairs/reachable/texts", said)).status).toBe(401);
    } finally {
      await reachable.stop();
    }
  });
});

describe("a bad signature", () => {
  it("is counted for the organiser and nothing more", async () => {
    const fair = await example(running, "seals");
    for (let n = 0; n < 3; n++) {
      const said = JSON.stringify({ id: nextId(), from: "+12125550111", to: NUMBER, text: "tern" });
      const headers = { [SIGNATURE_HEADER]: await sign("not the secret", said) };
      expect((await running.anyone.post("/v1/fairs/seals/texts", said, headers)).status).toBe(401);
    }
    const { body } = await organiser(fair).get<Throughput>("/v1/fairs/seals/throughput");
    expect(body.texts.badSignatures).toBe(3);
    expect(received("+12125550111")).toEqual([]);
  });
});

describe("one number for two stalls", () => {
  const phone = "+12125550120";
  it("asks which, takes a number, names the stall in every reply, and moves with STALLS", async () => {
    const fair = await example(running, "shared");
    const question = await ask(fair, phone, "hello");
    expect(question).toContain("1 Tern & Tide");
    expect(question).toContain("2 Gannet Goods");
    // The shortest waits, once the stalls have told the fair of them.
    const seen = async () => (await running.anyone.get<SeenFair>("/v1/fairs/shared/seen")).body;
    await expect.poll(async () => (await seen()).stalls.length, { timeout: 15_000 }).toBe(2);
    const waiting = (await seen()).stalls.map(([stall, , , lowest, highest, currency, , left]) => [
      ...[stall, lowest, highest, currency, left],
    ]);
    expect(waiting).toContainEqual(["tern", 1600, 2600, "USD", "plenty"]);
    expect(await ask(fair, phone, "2")).toContain("Gannet Goods");
    expect(await ask(fair, phone, "1")).toContain("Gannet Goods");
    expect(await ask(fair, phone, "STALLS")).toContain("1 Tern & Tide");
    expect(await ask(fair, phone, "1")).toContain("Tern & Tide");
    expect(await ask(fair, phone, "1 navy L")).toContain("Tern & Tide");
    expect(await ask(fair, phone, "gannet")).toContain("Gannet Goods");
    expect(await ask(fair, phone, "help")).toContain("Gannet Goods");
  });
  it("falls silent for every stall when one of them is told STOP, and speaks again after START", async () => {
    const fair = await example(running, "silence");
    const quiet = "+12125550121";
    await ask(fair, quiet, "tern 1 navy L");
    const placed = await ask(fair, quiet, "yes");
    const number = Number(/\b1\d\d\b/.exec(placed)?.[0]);
    await ask(fair, quiet, "gannet");
    expect(await ask(fair, quiet, "STOP")).toContain("Brackenfield");
    const heard = received(quiet).length;
    await press(fair, number);
    expect(await toldOf(fair, number)).toBe("opted-out");
    for (const words of ["tern", "menu", "STALLS", "gannet 1"]) await text(fair, quiet, words);
    await ask(fair, "+12125550122", "tern");
    expect(received(quiet)).toHaveLength(heard);
    await text(fair, quiet, "tern start");
    await expect.poll(() => received(quiet).length).toBe(heard + 1);
    expect(await ask(fair, quiet, "gannet")).toContain("Gannet Goods");
  });
  it("honours STOP from a number that never said which stall", async () => {
    const fair = await example(running, "stranger");
    const stranger = "+12125550123";
    expect(await ask(fair, stranger, "stop")).not.toContain("Which");
    await text(fair, stranger, "hello");
    await ask(fair, "+12125550124", "tern");
    expect(received(stranger)).toHaveLength(1);
  });
  it("a number of a stall's own needs no code and names nobody", async () => {
    const fair = await example(running, "own");
    const numbers = [{ number: NUMBER }, { number: "+12125550198", stall: "gannet" }];
    expect((await setMapping(fair, { ...PLAIN, numbers })).status).toBe(200);
    const own = "+12125550125";
    await text(fair, own, "menu", nextId(), "+12125550198");
    await expect.poll(() => received(own)).toHaveLength(1);
    expect(received(own)[0]).toMatchObject({ from: "+12125550198" });
    expect(received(own)[0]?.text).toContain("Gannet Goods");
    expect(await ask(fair, "+12125550126", "hello")).toContain("Tern & Tide");
  });
});

describe("senders that cannot be answered", () => {
  it("are taken and left alone", async () => {
    const fair = await example(running, "machines");
    const mapping = { ...PLAIN, inbound: { ...PLAIN.inbound } };
    expect((await setMapping(fair, mapping)).status).toBe(200);
    for (const from of ["12345", "STALLNEWS", "+1", ""])
      expect([from, (await text(fair, from, "tern")).status]).toEqual([from, 200]);
    await ask(fair, "+12125550130", "tern");
    expect(sink.texts.filter(({ to }) => !to.startsWith("+1212555"))).toEqual([]);
  });
});

describe("a number that never wrote", () => {
  it("is sent nothing; the reply says what to text; the crew calls out until it has written", async () => {
    const fair = await example(running, "walk-ups");
    const phone = "+12125550131";
    const { status, body } = await crew(fair).post<PlacedOrder>(`${at(fair)}/orders`, {
      lines: [LINE],
      name: "Ann",
      phone: "(212) 555-0131",
    });
    const line = { text: `TERN ${body.number} ${body.word.toUpperCase()}`, to: NUMBER };
    expect([status, body.toBeTold]).toEqual([201, line]);
    expect(await toldOf(fair, body.number)).toBe("call-out");
    await press(fair, body.number);
    expect(await toldOf(fair, body.number)).toBe("call-out");
    expect(await ask(fair, phone, "tern status")).toContain(String(body.number));
    expect(received(phone)).toHaveLength(1);
    const third = await crew(fair).post<PlacedOrder>(`${at(fair)}/orders`, { lines: [LINE], phone });
    expect(third.body.toBeTold).toBeUndefined();
  });
  it("becomes an order's by the line the counter shows, and gets the crew's sentences from then on", async () => {
    const fair = await example(running, "lines");
    const phone = "+12125550137";
    const base = at(fair);
    const { body } = await crew(fair).post<PlacedOrder>(`${base}/orders`, { lines: [LINE] });
    const line = (await wholeOrder(fair, body.number)).toBeTold;
    expect(line).toEqual({ text: `TERN ${body.number} ${body.word.toUpperCase()}`, to: NUMBER });
    const say = (sentence: string) =>
      crew(fair).post<Problem & CrewOrderView>(`${base}/orders/${body.number}/texted`, { say: sentence });
    const early = await say("five-minutes");
    expect([early.status, early.body.type]).toEqual([409, "/problems/cannot-text"]);
    expect(await ask(fair, phone, line?.text ?? "")).toContain(String(body.number));
    const whole = await wholeOrder(fair, body.number);
    expect([whole.phone, whole.mayText, whole.toBeTold]).toEqual(["…0137", true, undefined]);
    const said = await say("come-back");
    expect([said.status, said.body.texted?.say]).toEqual([200, "come-back"]);
    await expect.poll(() => received(phone).length).toBe(2);
    expect(received(phone)[1]?.text).toContain(`order ${body.number}`);
    expect((await say("hello")).status).toBe(400);
  });
  it("typed on the web gets nothing, even if it writes here, until it has texted that order's code", async () => {
    const fair = await example(running, "typed");
    const [known, unknown] = ["+12125550132", "+12125550133"];
    await ask(fair, known, "tern menu");
    const order = async (phone: string) =>
      (await running.anyone.post<PlacedOrder>(`${at(fair)}/orders`, { lines: [LINE], phone })).body;
    const mine = await order(known);
    const other = await order(unknown);
    const codeOf = ({ number, word }: PlacedOrder) => `tern ${number} ${word}`.toUpperCase();
    // No oracle: both answers have the same parts, and the same line but for number and word.
    expect(mine.toBeTold).toEqual({ text: codeOf(mine), to: NUMBER });
    expect(other.toBeTold).toEqual({ text: codeOf(other), to: NUMBER });
    expect(Object.keys(mine)).toEqual(Object.keys(other));
    expect((await wholeOrder(fair, mine.number)).phone).toBeNull();
    await press(fair, mine.number);
    // Another number's right code, a wrong word and an order that is not there get one and the same answer.
    const wrong = await ask(fair, known, codeOf(other));
    const word = mine.word === "acorn" ? "almond" : "acorn";
    expect(await ask(fair, known, `tern ${mine.number} ${word}`)).toBe(wrong);
    expect(await ask(fair, known, "tern 987 acorn")).toBe(wrong);
    expect(received(known).some(({ text: said }) => said.includes(String(mine.number)))).toBe(false);
    expect(await ask(fair, known, codeOf(mine))).toContain(String(mine.number));
    expect((await wholeOrder(fair, mine.number)).phone).toBe("…0132");
    expect(received(unknown)).toEqual([]);
    await ask(fair, unknown, codeOf(other));
    await press(fair, other.number);
    await expect.poll(() => received(unknown).length).toBe(2);
    expect(received(unknown)[1]?.text).toContain(String(other.number));
  });
  it("and what is no number is refused", async () => {
    const fair = await example(running, "no-number");
    const { status, body } = await crew(fair).post<Problem>(`${at(fair)}/orders`, {
      lines: [LINE],
      phone: "555",
    });
    expect([status, body.errors?.[0]?.pointer]).toEqual([400, "#/phone"]);
  });
});

describe("a stall restored elsewhere", () => {
  it("never texts a number that said STOP, and knows the others by their conversations", async () => {
    const [before, after] = [await example(running, "left"), await example(running, "arrived")];
    const [quiet, talking] = ["+12125550134", "+12125550135"];
    await ask(before, quiet, "tern menu");
    await ask(before, quiet, "stop");
    await ask(before, talking, "tern 1 navy L");
    const number = Number(/\b1\d\d\b/.exec(await ask(before, talking, "yes"))?.[0]);
    const { body: file } = await crew(before).get(`${at(before)}/everything`);
    const { body: added } = await organiser(after).put<{ key: string }>("/v1/fairs/arrived/stalls/new", {
      name: "New",
    });
    const there = running.anyone.withKey(added.key);
    const base = "/v1/fairs/arrived/stalls/new";
    const put = await there.put(`${base}/everything`, file);
    expect(put.status, JSON.stringify(put.body)).toBe(200);
    expect(await ask(after, talking, "new status")).toContain(String(number));
    const sent = received(quiet).length;
    const { body: order } = await running.anyone.post<PlacedOrder>(`${base}/orders`, {
      lines: [LINE],
      phone: quiet,
    });
    // A number that said STOP gets no answer at the new place either; the other stalls of that fair obey it as well.
    for (const words of [order.toBeTold?.text ?? "", "new menu", "tern menu"])
      expect((await text(after, quiet, words)).status).toBe(200);
    await there.post(`${base}/orders`, { lines: [LINE], phone: quiet });
    await ask(after, talking, "new status");
    expect(received(quiet)).toHaveLength(sent);
    expect(await ask(after, quiet, "start")).not.toBe("");
  });
});

describe("limits", () => {
  it("of a day end the texts of every stall, the press screen says whom to call, and the account adds up", async () => {
    const fair = await example(running, "capped");
    const price = { perThousandSegments: 1000, currency: "USD" };
    // A cap this small is granted one text at a time, so nothing is left over when it is lowered to the used amount.
    const cap = (segmentsPerDay: number) =>
      setMapping(fair, { ...PLAIN, price, limits: { segmentsPerDay, segmentsPerSender: 100 } });
    expect((await cap(40)).status).toBe(200);
    const phone = "+12125550140";
    await ask(fair, phone, "tern 1 navy L");
    const number = Number(/\b1\d\d\b/.exec(await ask(fair, phone, "yes"))?.[0]);
    expect((await cap(1)).status).toBe(200);
    await press(fair, number);
    await expect.poll(() => toldOf(fair, number)).toBe("failed");
    const { body: queue } = await crew(fair).get<QueueView>(`${at(fair)}/queue`);
    expect(queue.notTold).toEqual([number]);
    const account = async () =>
      (await organiser(fair).get<Throughput>("/v1/fairs/capped/throughput")).body.texts;
    await expect.poll(async () => (await account()).segments, { timeout: 15_000 }).toBeGreaterThan(1);
    const { segments, segmentsToday, mostToday, cost } = await account();
    expect([segmentsToday, mostToday]).toEqual([segments, 1]);
    // 1,000 cents a thousand segments is a cent each.
    expect(cost).toEqual({ amount: segments, currency: "USD" });
    await crew(fair).post(`${at(fair)}/orders/${number}/paid`, {});
    await crew(fair).post(`${at(fair)}/orders/${number}/collected`, {});
    expect((await crew(fair).get<QueueView>(`${at(fair)}/queue`)).body.notTold).toEqual([]);
  });
  it("of one number end its texts and nobody else's", async () => {
    const fair = await example(running, "chatty");
    const limits = { segmentsPerDay: 500, segmentsPerSender: 4 };
    expect((await setMapping(fair, { ...PLAIN, limits })).status).toBe(200);
    const phone = "+12125550141";
    for (let n = 0; n < 8; n++) await text(fair, phone, "tern help");
    await ask(fair, "+12125550142", "tern help");
    expect(received(phone).length).toBeGreaterThan(0);
    expect(received(phone).length).toBeLessThanOrEqual(4);
  });
  it("of countries: a number elsewhere is heard and not answered", async () => {
    const fair = await example(running, "abroad");
    expect((await setMapping(fair, { ...PLAIN, prefixes: ["+44"] })).status).toBe(200);
    expect((await text(fair, "+12125550143", "tern")).status).toBe(200);
    await ask(fair, "+447700900001", "tern");
    expect(received("+12125550143")).toEqual([]);
  });
});

describe("a delivery receipt", () => {
  it("says that the ready text arrived, or puts the order among those to call out", async () => {
    const fair = await example(running, "receipts");
    const phone = "+12125550150";
    await ask(fair, phone, "tern 1 navy L");
    const number = Number(/\b1\d\d\b/.exec(await ask(fair, phone, "yes"))?.[0]);
    await press(fair, number);
    await expect.poll(() => received(phone).length).toBe(3);
    const { id } = received(phone)[2] ?? { id: "" };
    expect(id).toMatch(/^receipts\.tern\./);
    const receipt = (status: string, of = id) => post(fair, "receipts", { id: of, status });
    expect((await receipt("delivered")).status).toBe(200);
    expect(await toldOf(fair, number)).toBe("delivered");
    expect((await receipt("failed")).status).toBe(200);
    expect(await toldOf(fair, number)).toBe("failed");
    expect((await crew(fair).get<QueueView>(`${at(fair)}/queue`)).body.notTold).toEqual([number]);
    for (const other of [
      "nonsense",
      "receipts.nobody.101-ready-1",
      "elsewhere.tern.101-ready-1",
      "receipts.tern.x",
    ])
      expect((await receipt("failed", other)).status).toBe(200);
    const said = JSON.stringify({ id, status: "delivered" });
    const forged = await running.anyone.post("/v1/fairs/receipts/receipts", said, {
      [SIGNATURE_HEADER]: "sha256=00",
    });
    expect(forged.status).toBe(401);
  });
});

describe("the example mapping", () => {
  it("names what this deployment lacks", async () => {
    const fair = await example(running, "lacking");
    const mapping = JSON.parse(readFileSync(new URL("../../examples/gateway.json", import.meta.url), "utf8"));
    const { status, body } = await setMapping(fair, mapping);
    expect(status).toBe(422);
    expect(body.errors?.map(({ detail }) => detail)).toEqual([
      expect.stringContaining("GATEWAY_USER is missing"),
      expect.stringContaining("GATEWAY_PASSWORD is missing"),
    ]);
  });
});
