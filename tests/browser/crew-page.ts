/** A fair of its own with some orders in line, and the links of its crew pages. */
import type { Client } from "../../src/local/client.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { CrewOrderView, PlacedOrder } from "../../src/model/orders/order.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { at, example, type Running } from "../http/running.ts";

export type CrewStall = {
  readonly crew: Client;
  readonly organiser: Client;
  readonly base: string;
  /** Pickup numbers of the orders, as they were asked for. */
  readonly numbers: readonly number[];
  /** The link of a crew page with its key: "" is the press screen, "/counter" the counter. */
  readonly link: (page: "" | "/counter" | "/closeout" | "/passers-by") => string;
  readonly organiserKey: string;
  readonly queue: () => Promise<QueueView>;
};

type Wanted = { offer: string; colour: string; size: string; quantity: number };

export const NAVY_L: Wanted = { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 };
export const OTTER_M: Wanted = { offer: "otter-tee", colour: "sand", size: "M", quantity: 1 };
export const CAP: Wanted = { offer: "tern-cap", colour: "black", size: "one", quantity: 1 };

export async function crewStall(
  running: Running,
  orders: readonly (readonly Wanted[])[] = [],
): Promise<CrewStall> {
  const fair = await example(running);
  const base = at(fair);
  const key = fair.stalls[0]?.key ?? "";
  const crew = running.anyone.withKey(key);
  const numbers: number[] = [];
  for (const lines of orders)
    numbers.push((await crew.post<PlacedOrder>(`${base}/orders`, { lines })).body.number);
  const home = `${running.url}/crew/${fair.fair}/${fair.stalls[0]?.stall}`;
  return {
    crew,
    organiser: running.anyone.withKey(fair.key),
    base,
    numbers,
    link: (page) => `${home}${page}#key=${key}`,
    organiserKey: fair.key,
    queue: async () => (await crew.get<QueueView>(`${base}/queue`)).body,
  };
}

/** Sets the stall's rules; the rest of its menu stays. */
export async function setRules({ crew, base }: CrewStall, rules: Partial<Menu["rules"]>): Promise<void> {
  const { body: menu } = await crew.get<Menu>(`${base}/menu/whole`);
  const { status } = await crew.put(`${base}/menu`, { ...menu, rules: { ...menu.rules, ...rules } });
  if (status !== 200) throw new Error(`the rules were refused: ${status}`);
}

/** An order as the crew sees it. */
export const orderOf = async ({ crew, base }: CrewStall, number: number): Promise<CrewOrderView> =>
  (await crew.get<CrewOrderView>(`${base}/orders/${number}/whole`)).body;
