/**
 * Ready orders as this tablet last saw them, so that they can be handed over without signal. Telephone numbers
 * are left out, and an order goes from here once it is neither ready nor on the counter.
 */
import type { CrewOrderView } from "../../../model/orders/order.ts";
import type { Api } from "../kit/api.ts";
import { kept } from "../kit/kept.ts";

type Orders = Readonly<Record<number, CrewOrderView>>;

export type KnownOrders = {
  readonly find: (number: number) => Promise<CrewOrderView | null>;
  readonly saw: (order: CrewOrderView) => void;
  /** Learns the ready ones that are not known, and forgets all that are not to be kept. */
  readonly learn: (ready: readonly number[], keep: readonly number[]) => Promise<void>;
};

/** Asked for at one look: a network that is slow must not be filled with them. */
const AT_ONCE = 5;

const without = (orders: Orders, stays: (number: number) => boolean): Orders =>
  Object.fromEntries(Object.entries(orders).filter(([number]) => stays(Number(number))));

export function knownOrders(api: Api, place: string): KnownOrders {
  const store = kept<Orders>(`orders ${place}`, {});
  const saw = (order: CrewOrderView): void => {
    void store.change((before) => ({ ...before, [order.number]: { ...order, phone: null } }));
  };
  return {
    saw,
    find: async (number) => (await store.read())[number] ?? null,
    learn: async (ready, keep) => {
      const stay = new Set([...ready, ...keep]);
      const known = await store.read();
      if (Object.keys(known).some((number) => !stay.has(Number(number))))
        await store.change((before) => without(before, (number) => stay.has(number)));
      const missing = ready.filter((number) => known[number] === undefined).slice(0, AT_ONCE);
      for (const number of missing) {
        const { status, body } = await api(`/orders/${number}/whole`);
        if (status !== 200) return;
        saw(body as CrewOrderView); // as the route documents
      }
    },
  };
}
