/** A stall of the example fair that benches order at, with more stock than they can use up. */
import { randomUUID } from "node:crypto";
import type { Client } from "../../src/local/client.ts";
import { loadExample } from "../../src/local/example.ts";
import type { Shot } from "./main/load.ts";

export const SECRETS = {
  KEY_SECRET: "a secret for benches only, and for nothing else",
  OWNER_SECRET: "the-owner-of-the-bench-and-nobody-else",
  GATEWAY_SECRET: "unused",
};

export const LINE = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };

export type Place = { readonly base: string; readonly crew: Client; readonly key: string };

/** A new fair of that name. */
export async function openPlace(owner: Client, fair: string): Promise<Place> {
  const { stalls } = await loadExample(owner, Date.now(), fair);
  const key = stalls[0]?.key ?? "";
  const base = `/v1/fairs/${fair}/stalls/tern`;
  const crew = owner.withKey(key);
  const entries = [
    { sku: "tee.navy.L", counted: 90_000 },
    { design: "longtail", counted: 90_000 },
  ];
  await crew.post(`${base}/stock`, { entries });
  return { base, crew, key };
}

/** An order at its counter: web orders are refused when the line is too long to press before closing. */
export const orderAt = ({ base, key }: Place): Shot => ({
  method: "POST",
  path: `${base}/orders`,
  headers: {
    authorization: `Bearer ${key}`,
    "content-type": "application/json",
    "idempotency-key": randomUUID(),
  },
  body: JSON.stringify({ lines: [LINE] }),
});
