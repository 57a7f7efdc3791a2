import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import type { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import { Throughput } from "../../src/model/fair/throughput.ts";
import type { PlacedOrder } from "../../src/model/orders/order.ts";
import type { JobView } from "../../src/model/orders/queue.ts";
import { at, example, type Running, shared } from "./running.ts";

let running: Running;
let fair: LoadedFair;
let other: LoadedFair;
let organiser: Client;
let crew: Client;
const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

beforeAll(async () => {
  running = await shared();
  [fair, other] = [await example(running), await example(running)];
  organiser = running.anyone.withKey(fair.key);
  crew = running.anyone.withKey(fair.stalls[0]?.key ?? "");
});

const path = (query = ""): string => `/v1/fairs/${fair.fair}/throughput${query}`;
const pace = async (query = ""): Promise<Throughput> => (await organiser.get<Throughput>(path(query))).body;
const csv = async (query: string) => {
  const { body, headers } = await organiser.get<string>(path(query), { accept: "text/csv" });
  return {
    text: body,
    headers,
    ...Papa.parse<Record<string, string>>(body, { header: true, skipEmptyLines: true }),
  };
};

describe("the pace of a fair", () => {
  it("is what happened at its stalls, in all and by the quarter, takings only if they are shared", async () => {
    const { body: menu } = await crew.get<{ rules: object }>(`${at(fair)}/menu/whole`);
    const shared = { ...menu, rules: { ...menu.rules, shareTakings: true } };
    expect((await crew.put(`${at(fair)}/menu`, shared)).status).toBe(200);
    const { body: placed } = await running.anyone.post<PlacedOrder>(`${at(fair)}/orders`, { lines: [LINE] });
    const { body } = await crew.post<{ job: JobView }>(`${at(fair)}/presses/A/pull`);
    await crew.post(`${at(fair)}/jobs/${body.job.job}/pressed`);
    await crew.post(`${at(fair)}/orders/${placed.number}/paid`, { tender: "cash" });
    await running.anyone.post(`${at(fair)}/orders`, { lines: [LINE] });
    await crew.post(`${at(fair)}/orders/${placed.number}/collected`, {});
    await expect.poll(async () => (await pace()).stalls[0]?.takings?.amount).toBe(placed.total.amount);
    const now = await pace("?stall=tern");
    expect(Throughput.safeParse(now).error).toBeUndefined();
    const [tern, gannet] = now.stalls;
    expect(tern).toMatchObject({ placed: 2, garments: 2, asked: 2, pressed: 1, collected: 1, backlog: 1 });
    expect(tern?.takings).toEqual(placed.total);
    expect(Date.parse(tern?.crewAt ?? "")).toBeLessThanOrEqual(Date.parse(now.asOf));
    expect(tern?.buckets?.reduce((sum, quarter) => sum + quarter.pressed, 0)).toBe(1);
    expect(tern?.buckets?.at(-1)?.backlog).toBe(1);
    expect(gannet?.buckets).toBeUndefined();
    expect(gannet?.takings).toBeNull();
    expect(now.total).toMatchObject({ sharing: 1, takings: [placed.total] });
  });

  it("is of the span that is asked for", async () => {
    const { asOf } = await pace();
    const later = new Date(Date.parse(asOf) + 3_600_000).toISOString();
    for (const query of [
      "?span=now",
      "?span=today",
      "?span=all",
      `?day=${(await pace()).today}`,
      `?to=${later}`,
    ])
      expect([query, (await pace(query)).total.placed]).toEqual([query, 2]);
    expect((await pace(`?from=${later}`)).total).toMatchObject({ placed: 0, backlog: 1 });
    expect((await pace("?day=2001-01-01")).total.placed).toBe(0);
    for (const query of [
      "?span=yesterday",
      "?day=2027-02-30",
      "?from=noon",
      `?from=${later}&to=${asOf}`,
      "?spam=1",
    ]) {
      const { status, headers } = await organiser.get<Problem>(path(query));
      expect([query, status, headers.get("content-type")]).toEqual([query, 400, "application/problem+json"]);
    }
    expect((await organiser.get<Problem>(path("?stall=nobody"))).status).toBe(404);
  });

  it("is answered with 304 while nothing changed, each form by its own tag", async () => {
    // A report that was still under way changes it once more: an answer and its repeat are taken from a pace at rest.
    const atRest = async <T>(
      headers: Readonly<Record<string, string>>,
      condition: (tag: string) => string,
    ) => {
      let [first, again] = [
        await organiser.get<T>(path(), headers),
        await organiser.get<string>(path(), headers),
      ];
      await expect
        .poll(async () => {
          first = await organiser.get<T>(path(), headers);
          const tag = condition(first.headers.get("etag") ?? "");
          again = await organiser.get<string>(path(), { ...headers, "if-none-match": tag });
          return again.status;
        })
        .toBe(304);
      return { first, again, tag: first.headers.get("etag") ?? "" };
    };
    const { first, again, tag } = await atRest<Throughput>({}, (own) => `"other", W/${own}`);
    expect(tag).toMatch(/^"v[\d.]+"$/);
    expect([again.status, again.body, again.headers.get("etag")]).toEqual([304, "", tag]);
    expect(Date.parse(again.headers.get("date") ?? "")).toBeGreaterThan(Date.parse(first.body.asOf) - 1000);
    const asTable = { accept: "text/csv" };
    expect((await organiser.get<string>(path(), { ...asTable, "if-none-match": tag })).status).toBe(200);
    const { first: sheet, tag: sheetTag } = await atRest<string>(asTable, (own) => own);
    expect(sheet.status).toBe(200);
    expect((await organiser.get(path(), { "if-none-match": sheetTag })).status).toBe(200);
    expect(sheet.headers.get("vary")).toContain("Accept");
  });

  it("is a sheet where csv is wanted: a row a stall and one of all, or a row a quarter", async () => {
    const stalls = await csv("");
    expect(stalls.headers.get("content-type")).toContain("text/csv");
    expect(stalls.text.split("\r\n")).toHaveLength(1 + 2 + 1 + 1);
    expect(stalls.errors).toEqual([]);
    expect(stalls.data.map((row) => [row["Stall"], row["Garments pressed"]])).toEqual([
      ["tern", "1"],
      ["gannet", "0"],
      ["(all)", "1"],
    ]);
    expect(stalls.data[0]?.["Takings, where shared"]).toMatch(/^\d+\.\d\d$/);
    expect(stalls.data[1]?.["Takings, where shared"]).toBe("");
    const quarters = await csv("?per=quarter&span=all");
    const sum = (heading: string) => quarters.data.reduce((total, row) => total + Number(row[heading]), 0);
    const { total } = await pace("?span=all");
    expect([sum("Orders placed"), sum("Garments pressed"), sum("Garments asked for")]).toEqual([
      total.placed,
      total.pressed,
      total.asked,
    ]);
    expect((await csv("?stall=gannet")).data).toEqual([]);
  });

  it("cannot make a spreadsheet run what somebody called a stall", async () => {
    const name = '=HYPERLINK("//x.invalid","free")';
    await organiser.put(`/v1/fairs/${fair.fair}/stalls/gannet`, { name });
    const { text, data } = await csv("");
    expect(data[1]?.["Name"]).toBe(`'${name}`);
    expect(text).not.toMatch(/(?:^|[,\r\n])"?[=+@]/);
    await organiser.put(`/v1/fairs/${fair.fair}/stalls/gannet`, { name: "Gannet Goods" });
  });
});

describe("the pace of another fair", () => {
  it("is not shown, nor whether it changed", async () => {
    const own = await organiser.get<Throughput>(path());
    for (const tag of [own.headers.get("etag") ?? "", "*"]) {
      const theirs = await organiser.get<Problem>(`/v1/fairs/${other.fair}/throughput`, {
        "if-none-match": tag,
      });
      expect([theirs.status, theirs.headers.get("etag")]).toEqual([403, null]);
    }
  });
});
