/** How soon the organiser's word is on the screens of every stall of a fair. */
import { readFile } from "node:fs/promises";
import type { Client } from "../../../src/local/client.ts";
import type { QueueView } from "../../../src/model/orders/queue.ts";

const AT_ONCE = 20;
/** A press and a counter ask their stall this often (client/press, client/counter). */
const SCREEN_MS = 2000;
/** Longer is not on the screen at all. */
const LATEST_MS = 60_000;
const SHARE = 0.95;

type Crew = { readonly client: Client; readonly base: string };

/** A fair with real stalls, each with a menu. */
async function fairOf(owner: Client, fair: string, stalls: number) {
  const now = Date.now();
  const openings = [
    { opens: new Date(now - 3_600_000).toISOString(), closes: new Date(now + 8 * 3_600_000).toISOString() },
  ];
  const request = { fair, name: "A large fair", timeZone: "America/New_York", openings };
  const { body } = await owner.post<{ key: string }>("/v1/fairs", request);
  const organiser = owner.withKey(body.key);
  const menu = JSON.parse(
    await readFile(new URL("../../../examples/tern/menu.json", import.meta.url), "utf8"),
  ) as object; // our own file
  const crews: Crew[] = [];
  for (let first = 0; first < stalls; first += AT_ONCE)
    crews.push(
      ...(await Promise.all(
        Array.from({ length: Math.min(AT_ONCE, stalls - first) }, async (_, n) => {
          const base = `/v1/fairs/${fair}/stalls/stall-${first + n}`;
          const added = await organiser.put<{ key: string }>(base, { name: `Stall ${first + n}` });
          const client = owner.withKey(added.body.key);
          const { status } = await client.put(`${base}/menu`, menu);
          if (status !== 200) throw new Error(`no menu for ${base}: ${status}`);
          return { client, base };
        }),
      )),
    );
  return { organiser, crews };
}

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });

/** Seconds from a tap of the organiser until its word is on the screens of 95 % of the stalls. */
async function seconds(
  crews: readonly Crew[],
  tap: () => Promise<{ readonly status: number }>,
  isThere: (queue: QueueView) => boolean,
): Promise<number> {
  let tapped = Number.POSITIVE_INFINITY;
  const screen = async ({ client, base }: Crew, n: number): Promise<number> => {
    // The screens' clocks are spread, as tablets that were opened one after the other.
    await pause((n * SCREEN_MS) / crews.length);
    let tag: string | null = null;
    for (;;) {
      const have: Record<string, string> = tag === null ? {} : { "if-none-match": tag };
      const { status, body, headers } = await client.get<QueueView>(`${base}/queue`, have);
      tag = headers.get("etag") ?? tag;
      const now = performance.now();
      if ((status === 200 && isThere(body)) || now - tapped > LATEST_MS) return now - tapped;
      await pause(SCREEN_MS);
    }
  };
  const screens = crews.map(screen);
  await pause(SCREEN_MS * 2);
  tapped = performance.now();
  const { status } = await tap();
  if (status >= 300) throw new Error(`the organiser was refused: ${status}`);
  const taken = (await Promise.all(screens)).sort((one, other) => one - other);
  return (taken[Math.ceil(taken.length * SHARE) - 1] ?? Number.NaN) / 1000;
}

/** Seconds for an announcement, and for a stop of all orders. */
export async function reach(owner: Client, stalls: number): Promise<readonly [number, number]> {
  const { organiser, crews } = await fairOf(owner, "reach", stalls);
  const fair = "/v1/fairs/reach";
  const announced = await seconds(
    crews,
    () => organiser.post(`${fair}/announcements`, { text: "Rain from four." }),
    ({ announcements = [] }) => announcements.length > 0,
  );
  const stopped = await seconds(
    crews,
    () => organiser.put(`${fair}/order-stop`, { stop: { reason: "Storm", pressing: false } }),
    (queue) => JSON.stringify(queue).includes("Storm"),
  );
  return [announced, stopped];
}
