/**
 * Whether the time of a refusal tells a stranger what exists. Each question is asked in turn about something that
 * exists and something that does not, and the median times are compared. 1 means that they cannot be distinguished.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "../../src/local/client.ts";
import { serve } from "../../src/local/serve.ts";
import { type Bench, type Figure, median } from "./figure.ts";
import { type Shot, shoot } from "./main/load.ts";
import { LINE, openPlace, SECRETS } from "./place.ts";

const ROUNDS = 1500;
const WARMING = 200;
/** A tenth of a millisecond here is far below what a network adds; the goal is a twentieth of the whole. */
const APART = 1.05;

type Pair = { readonly name: string; readonly there: Shot; readonly not: Shot; readonly status: number };

const get = (path: string, token: string): Shot => ({
  method: "GET",
  path,
  headers: { authorization: `Bearer ${token}` },
});
const newFair = (secret: string): Shot => ({
  method: "POST",
  path: "/v1/fairs",
  headers: { authorization: `Bearer ${secret}`, "content-type": "application/json" },
  body: "{}",
});

/** Another last character: of the right form, and wrong. */
const spoilt = (token: string): string => `${token.slice(0, -2)}${token.endsWith("A") ? "Q" : "A"}A`;

async function ratioOf(url: string, { name, there, not, status }: Pair): Promise<Figure> {
  const times: [number[], number[]] = [[], []];
  for (let round = -WARMING; round < ROUNDS; round++) {
    for (const side of round % 2 === 0 ? ([0, 1] as const) : ([1, 0] as const)) {
      const before = performance.now();
      const got = await shoot(url, side === 0 ? there : not);
      if (got !== status) throw new Error(`${name}: ${got} instead of ${status}`);
      if (round >= 0) times[side].push(performance.now() - before);
    }
  }
  const [known, unknown] = times.map(median);
  const ratio = (known ?? Number.NaN) / (unknown ?? Number.NaN);
  return { bench: "doors", name, figure: Math.max(ratio, 1 / ratio), goal: { atMost: APART }, unit: "ratio" };
}

async function measure(): Promise<readonly Figure[]> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-doors-"));
  const { url, stop } = await serve({ port: 0, host: "127.0.0.1", data, secrets: SECRETS });
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const { base, crew, key } = await openPlace(owner, "here");
    const other = await openPlace(owner, "elsewhere");
    const order = await crew.post<{ number: number; claim: string }>(`${base}/orders`, { lines: [LINE] });
    const { number, claim } = order.body;
    const nowhere = "/v1/fairs/gone/stalls/tern";
    const figures: Figure[] = [];
    for (const pair of [
      {
        name: "a crew key of elsewhere, at a stall there is and is not",
        there: get(`${base}/queue`, other.key),
        not: get(`${nowhere}/queue`, other.key),
        status: 403,
      },
      {
        name: "a crew key made up, for a stall there is and is not",
        there: get(`${base}/queue`, spoilt(key)),
        not: get(`${nowhere}/queue`, spoilt(key)),
        status: 403,
      },
      {
        name: "a claim made up, for an order there is and is not",
        there: get(`${base}/orders/${number}`, spoilt(claim)),
        not: get(`${base}/orders/999`, spoilt(claim).replace(`.${number}.`, ".999.")),
        status: 403,
      },
      {
        name: "an owner's secret, wrong from its last and its first character",
        there: newFair(`${SECRETS.OWNER_SECRET.slice(0, -1)}Z`),
        not: newFair(`Z${SECRETS.OWNER_SECRET.slice(1)}`),
        status: 403,
      },
      {
        name: "an organiser's key made up, for a fair there is and is not",
        there: get("/v1/fairs/here/throughput", spoilt(key.replace("crew", "organiser"))),
        not: get("/v1/fairs/gone/throughput", spoilt(key.replace("crew", "organiser"))),
        status: 403,
      },
    ])
      figures.push(await ratioOf(url, pair));
    return figures;
  } finally {
    await stop();
    await rm(data, { recursive: true, force: true });
  }
}

export const bench: Bench = { name: "doors", run: measure };
