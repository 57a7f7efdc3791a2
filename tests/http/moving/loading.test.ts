/** A whole stall loaded part by part, by the code of the close-out page: cut anywhere, repeated, broken off. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../../src/local/client.ts";
import type { Closeout } from "../../../src/model/accounts/closeout.ts";
import { StallPart, type WholeStall } from "../../../src/model/accounts/whole-stall.ts";
import type { PlacedOrder } from "../../../src/model/orders/order.ts";
import type { QueueView } from "../../../src/model/orders/queue.ts";
import { partsOf } from "../../../src/screens/client/closeout/saved-file.ts";
import { at, example, type Running, shared } from "../running.ts";

const EMOJI = "\u{1F9F5}";
let running: Running;
let crew: Client;
let base: string;
let organiser: Client;
let fairBase: string;
let saved: string;

beforeAll(async () => {
  running = await shared();
  const fair = await example(running);
  base = at(fair);
  fairBase = `/v1/fairs/${fair.fair}/stalls`;
  organiser = running.anyone.withKey(fair.key);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
  const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
  for (const [index, name] of [`${EMOJI}${EMOJI}`, `W"r\\en ${EMOJI}`, "Ben [{}]"].entries())
    await crew.post<PlacedOrder>(`${base}/orders`, { lines, name, phone: `+1212555012${index}` });
  await crew.post(`${base}/orders/101/paid`, { tender: "cash" });
  saved = JSON.stringify((await crew.get<WholeStall>(`${base}/everything`)).body);
});

async function newStall(name: string): Promise<{ readonly crew: Client; readonly base: string }> {
  const { body } = await organiser.put<{ key: string }>(`${fairBase}/${name}`, { name });
  return { crew: running.anyone.withKey(body.key), base: `${fairBase}/${name}` };
}

/** The text in pieces of this many bytes, so that letters of several bytes are cut. */
async function* cut(text: string, bytes: number): AsyncGenerator<string> {
  const [all, decoder] = [new TextEncoder().encode(text), new TextDecoder()];
  for (let from = 0; from < all.length; from += bytes)
    yield decoder.decode(all.subarray(from, from + bytes), { stream: true });
}

async function partsIn(text: string, bytes: number, partLength: number): Promise<StallPart[]> {
  const parts: StallPart[] = [];
  for await (const part of partsOf(cut(text, bytes), partLength)) parts.push(part);
  return parts;
}

describe("a saved stall in parts", () => {
  it.each([1, 2, 3, 5, 64])(
    "has every row once and in order when it is read %i bytes at a time",
    async (bytes) => {
      const whole = JSON.parse(saved) as WholeStall;
      const parts = await partsIn(saved, bytes, 700);
      expect(parts.length).toBeGreaterThan(5);
      const together = (list: keyof StallPart) =>
        parts.flatMap((part): readonly unknown[] => part[list] ?? []);
      expect(together("journal")).toEqual(whole.journal);
      expect(together("issued")).toEqual(whole.issued);
      for (const list of ["persons", "conversations", "texts", "orders"] as const)
        expect(together(list)).toEqual(whole.people[list]);
      expect(JSON.stringify(together("persons"))).toContain(EMOJI);
    },
  );

  it("has no part with more rows than a stall takes, however short the rows are", async () => {
    const short = Array.from({ length: 45_000 }, (_, n) => [String(n), { wish: "a star" }]);
    const whole = JSON.parse(saved) as WholeStall;
    const many = JSON.stringify({ ...whole, people: { ...whole.people, orders: short } });
    const parts = await partsIn(many, 60_000, 1_000_000);
    for (const part of parts) expect(StallPart.safeParse(part).success).toBe(true);
    expect(parts.flatMap(({ orders = [] }) => orders)).toEqual(short);
  });

  it("is no stall if it ends early", async () => {
    await expect(partsIn(saved.slice(0, -10), 64, 700)).rejects.toThrow(SyntaxError);
  });

  it("stays unseen until the last part has come, and is the same stall then", async () => {
    const next = await newStall("in-parts");
    const upload = `${next.base}/everything/upload-of-this-test`;
    const parts = await partsIn(saved, 7, 700);
    const put = (client: Client, at: number) =>
      client.put<{ parts: number }>(`${upload}/${at}`, parts[at] ?? {});
    for (const [index] of parts.entries()) {
      expect((await put(next.crew, index)).body).toEqual({ parts: index + 1 });
      // Sent once more it changes nothing.
      if (index % 3 === 0) expect((await put(next.crew, 0)).body).toEqual({ parts: index + 1 });
      expect((await put(next.crew, parts.length + 5)).status).toBe(409);
      expect((await next.crew.get(`${next.base}/menu/whole`)).body).toBeNull();
      expect((await next.crew.get(`${next.base}/orders/101/whole`)).status).toBe(409);
    }
    const taken = await next.crew.post(upload, { parts: parts.length });
    expect(taken.status, JSON.stringify(taken.body)).toBe(200);
    const readings = async (who: Client, where: string): Promise<readonly unknown[]> => [
      { ...(await who.get<Closeout>(`${where}/closeout`)).body, asOf: "", stall: "" },
      (await who.get(`${where}/stock`)).body,
      (await who.get(`${where}/orders/101/whole`)).body,
      (await who.get(`${where}/orders/102/whole`)).body,
      (await who.get<QueueView>(`${where}/queue`)).body.counts,
    ];
    expect(await readings(next.crew, next.base)).toEqual(await readings(crew, base));
    expect((await put(next.crew, 0)).status).toBe(409);
    const again = (await next.crew.get<WholeStall>(`${next.base}/everything`)).body;
    expect(again.people).toEqual((JSON.parse(saved) as WholeStall).people);
  });

  it("is refused with its fault if a part is missing, and can be begun again", async () => {
    const next = await newStall("begun-again");
    const parts = await partsIn(saved, 64, 700);
    const send = async (upload: string, sent: readonly StallPart[]) => {
      for (const [index, part] of sent.entries()) {
        const { status } = await next.crew.put(`${next.base}/everything/${upload}/${index}`, part);
        if (status !== 200) return status;
      }
      return 200;
    };
    const take = async (upload: string) =>
      (await next.crew.post(`${next.base}/everything/${upload}`, { parts: parts.length })).status;
    const withoutFirstEntries = parts.filter(({ journal }) => journal?.[0]?.sequence !== 1);
    expect(await send("first-upload", withoutFirstEntries)).toBe(400);
    expect(await take("first-upload")).toBe(409);
    expect((await next.crew.get(`${next.base}/menu/whole`)).body).toBeNull();
    expect(await send("second-upload", parts)).toBe(200);
    expect(await take("first-upload")).toBe(409);
    expect(await take("second-upload")).toBe(200);
  });
});
