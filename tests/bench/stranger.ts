/**
 * What strangers behind one address can do to a stall with the default rules: pranksters who order for a minute, plans
 * requested in its second half, and two hundred honest customers in an hour.
 */
import { randomUUID } from "node:crypto";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { Client } from "../../src/local/client.ts";
import { serve } from "../../src/local/serve.ts";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import type { StockView } from "../../src/model/orders/stock.ts";
import { exampleMenu } from "../stall/test-stall.ts";
import { type Bench, type Figure, median } from "./figure.ts";
import { openPlace, type Place, SECRETS } from "./place.ts";
import { crowdBehindOneAddress } from "./stranger/crowd.ts";
import { anyGarment, defaultMenu, PIECES, piecesCounted } from "./stranger/stall.ts";

const SECONDS = 60;
const CALM_SECONDS = 30;
const ORDERING = 4;
const TALKING = 8;
const BOARD_EVERY_MS = 50;
const LOOK_EVERY_MS = 500;
// Addresses for documentation (RFC 5737).
const PRANKSTER = { "cf-connecting-ip": "203.0.113.7" };
const ONLOOKER = { "cf-connecting-ip": "203.0.113.8" };
/** Said by number, as the menu lists them; each takes "x2" and the like. */
const SPOKEN = ["1 navy L", "2 sand M", "3 black XL", "4 black"];

/** The limits of a deployment, counted by the address that a request says it is from. */
async function limits(): Promise<Readonly<Record<string, string>>> {
  const text = await readFile(new URL("../../wrangler.toml", import.meta.url), "utf8");
  const found = [...text.matchAll(/^(LIMIT_\w+) = "(\d+)"/gm)];
  if (found.length === 0) throw new Error("wrangler.toml sets no limit");
  return Object.fromEntries(found.map(([, name = "", most = ""]) => [name, most]));
}

/** The answer; null if none came before the client gave up. */
const answered = <T>(sending: Promise<T>): Promise<T | null> =>
  sending.catch((fault: unknown) => {
    if (fault instanceof Error && fault.name === "TimeoutError") return null;
    throw fault;
  });

type Counted = { tried: number; placed: number; limited: number };

function count(counted: Counted, status: number, placed: boolean): void {
  counted.tried += 1;
  if (placed) counted.placed += 1;
  else if (status === 429) counted.limited += 1;
}

/** Orders without a key, one after the other, a piece of the menu each. */
async function orderAlways(anyone: Client, base: string, random: Random, until: number, counted: Counted) {
  const menu = exampleMenu();
  while (performance.now() < until) {
    const lines = [anyGarment(menu, random, 1 + random.below(6))];
    const status = (await answered(anyone.post(`${base}/orders`, { lines }, PRANKSTER)))?.status ?? 0;
    count(counted, status, status === 201);
  }
}

/** Begins conversations one after another, each as somebody new; every second one says yes to the confirmation. */
async function talkAlways(anyone: Client, base: string, random: Random, until: number, counted: Counted) {
  while (performance.now() < until) {
    const wish = `${random.chance(0.5) ? SPOKEN[0] : random.pick(SPOKEN)} x${1 + random.below(6)}`;
    const turn = (who: Client, text: string) =>
      answered(
        who.post<{ customer: string; order?: object }>(`${base}/chat`, { id: randomUUID(), text }, PRANKSTER),
      );
    const first = await turn(anyone, wish);
    count(counted, first?.status ?? 0, false);
    if (first?.status !== 200 || random.chance(0.5)) continue;
    const said = await turn(anyone.withKey(first.body.customer), "yes");
    count(counted, said?.status ?? 0, said?.body.order !== undefined);
  }
}

/** Asks for plans one after the other, as often as the deployment lets one planner; milliseconds of each. */
async function planAlways(owner: Client, from: number, until: number): Promise<readonly number[]> {
  const read = async (name: string): Promise<unknown> =>
    JSON.parse(await readFile(new URL(`../../examples/${name}.json`, import.meta.url), "utf8"));
  const requests = [
    ["/v1/plans", await read("plan")],
    ["/v1/sheets", await read("sheets")],
  ] as const;
  await sleep(from - performance.now());
  const took: number[] = [];
  for (let n = 0; performance.now() < until; n++) {
    const [path, request] = requests[n % 2] ?? requests[0];
    const before = performance.now();
    const answer = await answered(owner.post(path, request));
    if (answer === null || answer.status === 200) took.push(performance.now() - before);
    else if (answer.status === 429) {
      const wait = 1000 * Number(answer.headers.get("retry-after"));
      await sleep(Math.min(wait, Math.max(0, until - performance.now())));
    } else throw new Error(`${path}: ${answer.status}`);
  }
  return took;
}

type Look = { readonly at: number; readonly took: number };

/** Looks at the board at a steady pace, however long the answers take. */
async function watchBoard(anyone: Client, base: string, until: number): Promise<readonly Look[]> {
  const looks: Promise<Look>[] = [];
  const look = async (at: number): Promise<Look> => {
    const answer = await answered(anyone.get(`${base}/board`, ONLOOKER));
    if (answer !== null && answer.status !== 200) throw new Error(`board: ${answer.status}`);
    return { at, took: performance.now() - at };
  };
  for (let next = performance.now(); next < until; next += BOARD_EVERY_MS) {
    await sleep(Math.max(0, next - performance.now()));
    looks.push(look(performance.now()));
  }
  return Promise.all(looks);
}

/** The most that was ever held of one piece, in percent of all there was, and the most garments ever in line. */
async function watchStall({ crew, base }: Place, until: number) {
  let share = 0;
  let inLine = 0;
  for (;;) {
    const last = performance.now() >= until;
    const stock = (await answered(crew.get<StockView>(`${base}/stock`)))?.body;
    for (const { promised } of [...(stock?.skus ?? []), ...(stock?.transfers ?? [])])
      share = Math.max(share, (100 * promised) / PIECES);
    const counts = (await answered(crew.get<QueueView>(`${base}/queue`)))?.body.counts;
    if (counts !== undefined) inLine = Math.max(inLine, counts.waiting + counts.pressing + counts.ready);
    if (last) return { share, inLine };
    await sleep(LOOK_EVERY_MS);
  }
}

const p95 = (looks: readonly Look[]): number => {
  const sorted = looks.map(({ took }) => took).sort((one, other) => one - other);
  return sorted[Math.ceil(0.95 * sorted.length) - 1] ?? Number.NaN;
};

const figure = (name: string, value: number, goal: Figure["goal"], unit: string): Figure => ({
  bench: "stranger",
  name,
  figure: value,
  goal,
  unit,
});

async function pranks(): Promise<readonly Figure[]> {
  const data = await mkdtemp(join(tmpdir(), "stallpress-stranger-"));
  const secrets = { ...SECRETS, ...(await limits()) };
  const { url, stop } = await serve({ port: 0, host: "127.0.0.1", data, secrets });
  try {
    const owner = new Client(url, SECRETS.OWNER_SECRET);
    const place = await openPlace(owner, "pranks");
    const { base, crew } = place;
    const menu = defaultMenu();
    const set = await crew.put(`${base}/menu`, menu);
    const stocked = await crew.post(`${base}/stock`, { entries: piecesCounted(menu) });
    if (set.status >= 300 || stocked.status >= 300) throw new Error("the stall could not be set up");

    const anyone = new Client(url);
    const random = seededRandom(20270612);
    const ordered: Counted = { tried: 0, placed: 0, limited: 0 };
    const talked: Counted = { tried: 0, placed: 0, limited: 0 };
    const calmUntil = performance.now() + 1000 * CALM_SECONDS;
    const until = performance.now() + 1000 * SECONDS;
    const lanes = (most: number, lane: () => Promise<void>) => Array.from({ length: most }, lane);
    const [plans, looks, { share, inLine }] = await Promise.all([
      planAlways(owner, calmUntil, until),
      watchBoard(anyone, base, until),
      watchStall(place, until),
      ...lanes(ORDERING, () => orderAlways(anyone, base, random.fork(), until, ordered)),
      ...lanes(TALKING, () => talkAlways(anyone, base, random.fork(), until, talked)),
    ]);
    const calm = looks.filter(({ at }) => at < calmUntil);
    const planning = looks.filter(({ at }) => at >= calmUntil);
    return [
      figure("one address, a minute: of the piece it holds most of", share, { atMost: 20 }, "%"),
      figure("garments it has in line", inLine, { atMost: 6 }, "garments"),
      figure("orders without a key: sent", ordered.tried, null, "requests"),
      figure("of them placed", ordered.placed, null, "orders"),
      figure("of them held back by the limit", ordered.limited, null, "requests"),
      figure("messages of conversations: sent", talked.tried, null, "requests"),
      figure("of them an order", talked.placed, null, "orders"),
      figure("of them held back by the limit", talked.limited, null, "requests"),
      figure("the board meanwhile, p95", p95(calm), { atMost: 100 }, "ms"),
      figure("the same while plans are asked for, p95", p95(planning), { atMost: 100 }, "ms"),
      figure("the same, median", median(planning.map(({ took }) => took)), null, "ms"),
      figure("plans asked for one after the other", plans.length, null, "plans"),
      figure("one of them, median", median(plans), null, "ms"),
    ];
  } finally {
    await stop();
    await rm(data, { recursive: true, force: true });
  }
}

function honest(): readonly Figure[] {
  const { customers, atOnce, toClaim, toCounter, lost } = crowdBehindOneAddress(200);
  return [
    figure(`${customers} honest customers behind one address: in line at once`, atOnce, null, "customers"),
    figure("had to walk up before they were in line", toClaim, null, "customers"),
    figure("were sent to the counter to order", toCounter, null, "customers"),
    figure("lost: did not get all they wanted", lost, { atMost: 0 }, "customers"),
  ];
}

export const bench: Bench = { name: "stranger", run: async () => [...honest(), ...(await pranks())] };
