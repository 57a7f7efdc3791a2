/** A fair that is open for days, with one stall and stock for everybody. */
import { readFile } from "node:fs/promises";
import type { Client } from "../../../src/local/client.ts";

const HOUR = 3_600_000;

/** Makes the fair "rush" with the stall "tern"; gives the stall's address and its crew's key. */
export async function openFair(
  owner: Client,
  garments: number,
): Promise<{ readonly base: string; readonly key: string }> {
  const now = Date.now();
  const openings = [
    { opens: new Date(now - HOUR).toISOString(), closes: new Date(now + 400 * HOUR).toISOString() },
  ];
  const fair = { fair: "rush", name: "Rush", timeZone: "America/New_York", openings };
  const made = await owner.post<{ key: string }>("/v1/fairs", fair);
  const base = "/v1/fairs/rush/stalls/tern";
  const { body } = await owner.withKey(made.body.key).put<{ key: string }>(base, { name: "Tern & Tide" });
  const crew = owner.withKey(body.key);
  const file = await readFile(new URL("../../../examples/tern/menu.json", import.meta.url), "utf8");
  const menu = JSON.parse(file) as { readonly rules: object }; // our own example
  const rules = { ...menu.rules, readyTextSeconds: 0, payment: "not-tracked" };
  const answer = await crew.put(`${base}/menu`, { ...menu, rules });
  if (answer.status !== 200) throw new Error(`the menu was refused: ${JSON.stringify(answer.body)}`);
  const entries = [
    { sku: "tee.navy.L", counted: garments + 10 },
    { design: "longtail", counted: garments + 10 },
  ];
  await crew.post(`${base}/stock`, { entries });
  return { base, key: body.key };
}
