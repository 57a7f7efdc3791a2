/**
 * The stall's open orders as this tablet last saw them, so that each can be found, paid and handed over without signal.
 * The ends of telephone numbers are shown, and never kept.
 */
import type { OpenOrder, OpenOrders } from "../../../../model/orders/open-orders.ts";
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import type { Api } from "../../kit/api.ts";
import { kept } from "../../kit/kept.ts";
import { isEnding } from "../acts.ts";

/** An earlier version of the page kept ready orders by their numbers. */
type Stored = readonly OpenOrder[] | Readonly<Record<string, OpenOrder>>;

/** Milliseconds between two looks: a long list must not fill a slow network. */
const WHILE_SHOWN = 4000;
const ELSE = 15_000;

export type Known = {
  readonly all: () => readonly OpenOrder[];
  /** The order as this tablet last saw it, or null. Its place and its wait are not known then. */
  readonly find: (number: number) => CrewOrderView | null;
  /** Stores the stall's answer about one order. */
  readonly saw: (order: CrewOrderView) => void;
  /** Asks for the list if the stall has changed since and it is time; says whether it is another one now. */
  readonly look: (version: number, isShown: boolean) => Promise<boolean>;
  /** Reads the kept list, unless the stall was faster. */
  readonly restore: () => Promise<void>;
  /** The number of older orders that the list leaves out. */
  readonly more: () => number;
};

export function knownOrders(api: Api, place: string): Known {
  const store = kept<Stored>(`orders ${place}`, []);
  let orders: readonly OpenOrder[] = [];
  let more = 0;
  let version: number | null = null;
  let askedAt = 0;

  const keep = (): void =>
    void store.change(() => orders.map((order): OpenOrder => ({ ...order, phone: null })));

  return {
    all: () => orders,
    more: () => more,
    find: (number) => {
      const found = orders.find((order) => order.number === number);
      return found === undefined ? null : { ...found, place: 0, quoteMinutes: 0 };
    },
    saw: (order) => {
      const others = orders.filter(({ number }) => number !== order.number);
      const isThere = others.length < orders.length;
      if (isEnding(order.stage)) orders = others;
      else if (isThere) orders = orders.map((other) => (other.number === order.number ? order : other));
      else orders = [...orders, order];
      keep();
    },
    look: async (now, isShown) => {
      if (now === version || Date.now() - askedAt < (isShown ? WHILE_SHOWN : ELSE)) return false;
      askedAt = Date.now();
      const { status, body } = await api("/open-orders");
      if (status !== 200) return false;
      const list = body as OpenOrders; // as the route documents
      ({ orders, more, version } = list);
      keep();
      return true;
    },
    restore: async () => {
      const found = await store.read();
      if (version === null) orders = Object.values(found);
    },
  };
}
