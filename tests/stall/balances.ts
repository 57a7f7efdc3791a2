/** What balances at any moment of a stall's life: its garments, and its money to the minor unit. */
import type { Order } from "../../src/stall/state/shapes/order.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { readJournal, type Store } from "../../src/stall/storage/records.ts";

export type Balance = readonly [what: string, one: number, other: number];

/** Two sides of each account, which must be the same number. */
export function balances(state: StallState, store: Store): readonly Balance[] {
  const past = [...store.list({ prefix: "past:" })].map(([, order]) => order as Order); // rows of that prefix
  const orders = [...state.orders.values(), ...past];
  return [garments(state, store, orders), money(state, orders)];
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);

/** Every garment that was ever pressed here or brought is with its order, handed over, on the rack, or thrown away. */
function garments(state: StallState, store: Store, orders: readonly Order[]): Balance {
  let [more, thrown] = [0, 0];
  const rack = new Map<string, string>();
  /** What was thrown away as it came back: how many garments, by the garment. */
  const atOnce = new Map<string, number>();
  /** The orders whose end hung a garment there, by the garment; and how many of each order were thrown away since. */
  const ended = new Map<string, number>();
  const thrownOf = new Map<number, number>();
  for (const { events } of readJournal(store))
    for (const event of events) {
      if (event.type === "racked") {
        rack.set(event.key, event.item.from);
        const end = events.find((other) => other.type === "closed");
        if (end === undefined) ended.delete(event.key);
        else ended.set(event.key, end.number);
        if (["spoiled", "brought", "plan"].includes(event.item.from)) more += 1;
      }
      const isThrown = events.some((other) => other.type === "unracked" && other.as === "thrown");
      if (event.type === "undo-closed") {
        thrown -= thrownOf.get(event.number) ?? 0;
        thrownOf.delete(event.number);
      }
      if (event.type === "garment-refunded") atOnce.set(`${event.number}-${event.n}`, isThrown ? 1 : 0);
      if (event.type === "changed" && event.exchanged !== undefined)
        atOnce.set(`${event.number}-${event.exchanged.n}`, isThrown ? 1 : 0);
      // Its customer has it after all.
      if (event.type === "undo-garment-refunded") thrown -= atOnce.get(`${event.number}-${event.n}`) ?? 0;
      if (event.type === "changed" && event.unexchanged !== undefined)
        thrown -= atOnce.get(`${event.number}-${event.unexchanged}`) ?? 0;
      if (event.type !== "unracked" || event.as === "released") continue;
      if (event.as === "thrown") {
        thrown += 1;
        const order = ended.get(event.key);
        if (order !== undefined) thrownOf.set(order, (thrownOf.get(order) ?? 0) + 1);
      }
      // A try that was not spoiled after all: the garment is to be pressed again.
      if (event.as === "back" && rack.get(event.key) === "spoiled") more -= 1;
    }
  const kept = orders.filter(({ closed }) => closed === null || closed.as === "collected");
  const withOrders = kept.flatMap(({ jobs, lines }) =>
    jobs.filter(({ stage, line }) => stage === "pressed" && lines[line]?.own !== true),
  );
  const pressed = [...state.counts.keys()].map((key) =>
    key.startsWith("sku:") ? (state.counts.get(key)?.pressed ?? 0) : 0,
  );
  return [
    "pressed and brought garments",
    sum(pressed) + more,
    withOrders.length + [...state.rack.keys()].length + thrown,
  ];
}

/** What the days took and did not give back is what is paid for the orders that stand. */
function money(state: StallState, orders: readonly Order[]): Balance {
  const stand = orders.filter(({ closed }) => closed?.as !== "refunded" && closed?.as !== "exchanged");
  const taken = state.dayTotals
    .under()
    .flatMap(([, { takings }]) => Object.entries(takings))
    .filter(([tender]) => tender !== "not-noted")
    .map(([, { amount, givenBack }]) => amount - givenBack);
  return ["money taken", sum(taken), sum(stand.map(({ paid }) => paid?.amount ?? 0))];
}
