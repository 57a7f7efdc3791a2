/**
 * What limits one stall, one fair and one deployment: a table worked out from what each act costs, as it is measured here,
 * and the size at which the design must change.
 */
import { randomUUID } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Client } from "../../src/local/client.ts";
import { serve } from "../../src/local/serve.ts";
import { SIGNATURE_HEADER, sign } from "../../src/texting/signing/signature.ts";
import type { Bench, Figure } from "./figure.ts";
import { LINE, openPlace, type Place, SECRETS } from "./place.ts";
import {
  type Cost,
  type Costs,
  dollars,
  fairPeak,
  type Load,
  most,
  PLATFORM,
  stallDay,
  stallPeak,
  times,
} from "./scale/sizes.ts";

const ROUNDS = 20;
const NUMBER = "+12125550199";
/** Longer than a stall waits before it reports. */
const REPORTED_MS = 6000;
/** The mean fair of a deployment; common practice, no source. */
const STALLS_OF_A_FAIR = 20;
const FAIRS = 10_000;
const DAYS_OF_A_WEEKEND = 2;

type Counts = {
  readonly requests: number;
  readonly stall: number;
  readonly fair: number;
  readonly alarms: number;
  readonly rows: number;
};

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });

async function wanted(answer: Promise<{ readonly status: number; readonly body: unknown }>, status = 200) {
  const { status: came, body } = await answer;
  if (came !== status && !(status === 200 && came === 201))
    throw new Error(`answered ${came}, not ${status}: ${JSON.stringify(body)}`);
  return body;
}

/** The mean cost of an act. */
async function costOf(
  anyone: Client,
  act: (n: number) => Promise<unknown>,
  { rounds = ROUNDS, settling = 0 } = {},
): Promise<Cost> {
  await anyone.get("/bench/counts");
  for (let n = 0; n < rounds; n++) await act(n);
  await pause(settling);
  const { requests, stall, fair, alarms, rows } = (await anyone.get<Counts>("/bench/counts")).body;
  return {
    requests: requests / rounds,
    calls: (stall + fair + alarms) / rounds,
    fairCalls: fair / rounds,
    rows: rows / rounds,
  };
}

async function costsAt(
  anyone: Client,
  owner: Client,
  { base, crew }: Place,
  organiser: Client,
): Promise<Costs> {
  const text = async (from: string, words: string): Promise<unknown> => {
    const body = JSON.stringify({ id: randomUUID(), from, to: NUMBER, text: words });
    return wanted(
      owner.withKey(null).post("/v1/fairs/scale/texts", body, {
        [SIGNATURE_HEADER]: await sign(SECRETS.GATEWAY_SECRET, body),
      }),
    );
  };
  const said = async (client: Client, words: string) =>
    (await wanted(client.post(`${base}/chat`, { id: randomUUID(), text: words }))) as {
      readonly customer?: string;
    }; // as the route documents
  let customer = anyone;
  const web = await costOf(anyone, async () => {
    const { customer: token } = await said(anyone, "1 navy L");
    if (token === undefined) throw new Error("no customer's token came");
    customer = anyone.withKey(token);
    await said(customer, "yes");
  });
  const byText = await costOf(
    anyone,
    async (n) => {
      const from = `+1212555${String(100 + n).padStart(4, "0")}`;
      await text(from, "tern 1 navy L");
      await text(from, "yes");
    },
    { settling: REPORTED_MS },
  );
  const counter = await costOf(anyone, () => wanted(crew.post(`${base}/orders`, { lines: [LINE] }), 201));
  const handOver = await costOf(anyone, async () => {
    const { job } = (await wanted(crew.post(`${base}/presses/A/pull`))) as {
      readonly job: { readonly job: { readonly job: string } | string };
    }; // as the route documents
    const name = typeof job.job === "string" ? job.job : job.job.job;
    await wanted(crew.post(`${base}/jobs/${name}/pressed`));
    await wanted(crew.post(`${base}/orders/${name.split("-")[0]}/paid`));
    await wanted(crew.post(`${base}/orders/${name.split("-")[0]}/collected`));
  });
  await pause(REPORTED_MS);
  const tag = (await crew.get(`${base}/queue`)).headers.get("etag") ?? "";
  const look = await costOf(anyone, () => wanted(crew.get(`${base}/queue`, { "if-none-match": tag }), 304));
  const ownLook = await costOf(anyone, () => wanted(customer.get(`${base}/chat?after=0`)));
  const pace = await costOf(anyone, () => wanted(organiser.get("/v1/fairs/scale/throughput")));
  // A stall of its own, with nothing else under way.
  const quiet = await openPlace(owner, "scale-report");
  await pause(REPORTED_MS);
  await wanted(quiet.crew.post(`${quiet.base}/orders`, { lines: [LINE] }), 201);
  const report = await costOf(anyone, () => pause(REPORTED_MS), { rounds: 1 });
  return { web, text: byText, counter, handOver, look, ownLook, report, pace };
}

function figuresOf(costs: Costs): readonly Figure[] {
  const figure = (name: string, value: number, unit: string, goal: Figure["goal"] = null): Figure => ({
    bench: "scale",
    name,
    figure: Math.abs(value) < 100 ? Math.round(value * 100) / 100 : Math.round(value),
    goal,
    unit,
  });
  const acts = Object.entries(costs).flatMap(([act, { requests, calls, rows }]) => [
    figure(`${act}: requests / calls of objects`, requests, `/ ${Math.round(calls * 100) / 100}`),
    figure(`${act}: rows written`, rows, "rows"),
  ]);
  const one = stallDay(costs);
  const sizes: readonly (readonly [string, Load])[] = [
    ["one stall, a day", one],
    ["a fair of 300 stalls, a day", times(one, 300)],
    ["a fair of 2,000 stalls, a day", times(one, 2000)],
    [
      `${FAIRS} fairs of ${STALLS_OF_A_FAIR} stalls, a weekend`,
      times(one, FAIRS * STALLS_OF_A_FAIR * DAYS_OF_A_WEEKEND),
    ],
  ];
  const loads = sizes.flatMap(([name, load]) => [
    figure(`${name}: requests`, load.requests, ""),
    figure(`${name}: calls of objects`, load.calls, ""),
    figure(`${name}: rows written`, load.rows, ""),
    figure(`${name}: text segments sent`, load.segments, ""),
    figure(`${name}: beyond the paid plan`, dollars(load), "$"),
  ]);
  const limit = { atMost: PLATFORM.callsASecond };
  return [
    ...acts,
    ...loads,
    figure(
      "a stall's object at its peak, 300 customers' pages open",
      stallPeak(costs, 300),
      "calls/s",
      limit,
    ),
    figure("a fair's object at its peak, 300 stalls", fairPeak(costs, 300), "calls/s", limit),
    figure("the same, 2,000 stalls", fairPeak(costs, 2000), "calls/s", limit),
    figure(
      "customers' pages open at once that one stall bears",
      most((pages) => stallPeak(costs, pages)),
      "pages",
    ),
    figure(
      "stalls that one fair bears",
      most((stalls) => fairPeak(costs, stalls)),
      "stalls",
    ),
  ];
}

async function measure(): Promise<readonly Figure[]> {
  const gateway = createServer((request, response) => {
    request.resume();
    request.once("end", () => response.writeHead(200).end());
  });
  await new Promise<void>((resolve) => gateway.listen(0, "127.0.0.1", resolve));
  const { port } = gateway.address() as AddressInfo; // it listens on a port
  const data = await mkdtemp(join(tmpdir(), "stallpress-bench-"));
  const { url, stop } = await serve({
    port: 0,
    host: "127.0.0.1",
    data,
    secrets: { ...SECRETS, GATEWAY_URL: `http://127.0.0.1:${port}/out`, GATEWAY_NUMBER: NUMBER },
    entry: { file: fileURLToPath(new URL("./scale/worker.ts", import.meta.url)), objects: {} },
  });
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const place = await openPlace(owner, "scale");
    const { body } = await owner.post<{ key: string }>("/v1/fairs/scale/key", { overlapMinutes: 0 });
    const costs = await costsAt(new Client(url), owner, place, owner.withKey(body.key));
    const stalls = most((count) => fairPeak(costs, count));
    const pages = most((count) => stallPeak(costs, count));
    if (!process.argv.includes("--json"))
      console.log(
        `The design must change beyond ${stalls} stalls at one fair, or ${pages} customers' pages open at one stall: the calls of one object
are then ${PLATFORM.callsASecond} a second. A fair would first report to one object for each hundred stalls, and those to the fair;
a stall's pages would read its menu and line from the edge's cache. A deployment has no object that all fairs share: only its bill grows.\n`,
      );
    return figuresOf(costs);
  } finally {
    await stop();
    gateway.close();
    await rm(data, { recursive: true, force: true });
  }
}

export const bench: Bench = { name: "scale", run: measure };
