/** Loads the example fair through the public API. */
import { readdir, readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import type { Client } from "./client.ts";

const examples = fileURLToPath(new URL("../../examples", import.meta.url));

export type LoadedStall = { readonly stall: string; readonly name: string; readonly key: string };
export type LoadedFair = {
  readonly fair: string;
  readonly key: string;
  readonly stalls: readonly LoadedStall[];
};

const STALLS = [
  { stall: "tern", name: "Tern & Tide" },
  { stall: "gannet", name: "Gannet Goods" },
] as const;

const HOUR = 3_600_000;

async function accepted<T>(
  what: string,
  sending: Promise<{ readonly status: number; readonly body: T }>,
): Promise<T> {
  const { status, body } = await sending;
  if (status >= 300) throw new Error(`${what}: the worker answered ${status}: ${JSON.stringify(body)}`);
  return body;
}

/**
 * Makes the example fair, its stalls, menus and stock. The fair is open from an hour ago until eleven hours
 * from now, so that the demo can be tried at any time of day. `key` repeats: the same again changes nothing.
 */
export async function loadExample(owner: Client, now: number, fair = "brackenfield"): Promise<LoadedFair> {
  const facts = JSON.parse(await readFile(`${examples}/fair.json`, "utf8")) as Record<string, unknown>; // our own file
  const hour = Math.floor(now / HOUR) * HOUR;
  const openings = [
    { opens: new Date(hour - HOUR).toISOString(), closes: new Date(hour + 11 * HOUR).toISOString() },
  ];
  const made = await accepted("fair", owner.post<{ key: string }>("/v1/fairs", { ...facts, fair, openings }));
  const organiser = owner.withKey(made.key);
  const stalls: LoadedStall[] = [];
  for (const { stall, name } of STALLS) {
    const base = `/v1/fairs/${fair}/stalls/${stall}`;
    const { key } = await accepted(stall, organiser.put<{ key: string }>(base, { name }));
    const crew = owner.withKey(key);
    await accepted(
      `${stall} menu`,
      crew.put(`${base}/menu`, JSON.parse(await readFile(`${examples}/${stall}/menu.json`, "utf8"))),
    );
    for (const file of await readdir(`${examples}/${stall}/pictures`)) {
      const design = file.replace(/\.webp$/, "");
      if (design === file) continue;
      await accepted(
        `${stall} picture`,
        crew.put(
          `${base}/designs/${design}/picture`,
          new Uint8Array(await readFile(`${examples}/${stall}/pictures/${file}`)),
          { "content-type": "image/webp" },
        ),
      );
    }
    const sheet = await readFile(`${examples}/${stall}/stock.csv`, "utf8");
    await accepted(`${stall} stock`, crew.post(`${base}/stock`, sheet, { "content-type": "text/csv" }));
    stalls.push({ stall, name, key });
  }
  return { fair, key: made.key, stalls };
}
