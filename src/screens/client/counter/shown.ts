/** What is seen of the counter's state: the stall's last word with every tap since put on top. Pure. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { OpenOrder } from "../../../model/orders/open-orders.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import { leftAfter, savedOrders } from "../crew/offline.ts";
import { moneyWords } from "../crew/words/money.ts";
import { ENDS_FROM, type Ending, isEnding, STAGE_WORDS } from "./acts.ts";
import { withTapsOn } from "./on-order.ts";
import { fits, garmentsIn, inPlace, isOn } from "./open/lists.ts";
import { asOrder } from "./saved.ts";
import type { State } from "./state.ts";

export const menuOf = ({ seen }: State): Menu | null => seen?.whole ?? null;

/** Whether the stall notes payments at all. */
export const isTracked = (menu: Menu | null): boolean =>
  (menu?.rules.payment ?? "not-tracked") !== "not-tracked";

/** The menu with what is left of it once the stall has every order of this tablet. */
export const leftOf = ({ seen, taps }: State): MenuView | null =>
  seen === null ? null : leftAfter(seen.menu, seen.whole, seen.stock ?? null, taps.acts);

/** An order that only this tablet knows; null if there is none of that number. */
export function savedOrder({ taps, seen }: State, number: number): CrewOrderView | null {
  const saved = savedOrders(taps.book).find(({ act }) => act.numbered?.number === number);
  return saved === undefined || seen === null ? null : asOrder(saved, seen.whole);
}

/** The open orders with what was tapped since, and those that only this tablet knows. */
export function ordersOf({ taps, seen, orders }: State): readonly OpenOrder[] {
  const only = savedOrders(taps.book).flatMap((saved) => (seen && asOrder(saved, seen.whole)) ?? []);
  const numbers = new Set(only.map(({ number }) => number));
  const others = orders.filter(({ number }) => !numbers.has(number));
  return [...others, ...only].map((order) => withTapsOn(order, taps.acts));
}

const isListed = ({ find, list }: State, menu: Menu | null, order: OpenOrder): boolean =>
  find.trim() === "" ? isOn(list, order, isTracked(menu)) : fits(order, garmentsIn(order, menu), find);

/** The state with every listed order in its row: who has one keeps it, new ones come at the end. */
export function withRows(state: State): State {
  const orders = ordersOf(state);
  const menu = menuOf(state);
  const known = new Map([...state.rows, ...orders].map((order) => [order.number, order]));
  const places = inPlace(
    state.rows.map(({ number }) => number),
    orders.filter((order) => isListed(state, menu, order)).map(({ number }) => number),
  );
  return { ...state, rows: places.flatMap((number) => known.get(number) ?? []) };
}

export type Row = {
  readonly order: OpenOrder;
  /** Whether it belongs to the list it is shown in. */
  readonly standing: "listed" | "moved-on" | "closed";
  readonly callOut: boolean;
  readonly stage: string;
  readonly money: string | null;
};

const shortOf = ({ jobs }: Pick<OpenOrder, "jobs">): number =>
  jobs.filter(({ stage }) => stage === "short").length;

function moneyOf({ total, paid, giveBack, due }: OpenOrder): string {
  if (due !== undefined) return `${moneyWords(due.amount, due.currency)} to pay`;
  if (giveBack !== null) return `give back ${moneyWords(giveBack.amount, giveBack.currency)}`;
  return paid === null ? `${moneyWords(total.amount, total.currency)} to pay` : "paid";
}

export function rowsOf(state: State): readonly Row[] {
  const menu = menuOf(state);
  const open = new Set(ordersOf(state).map(({ number }) => number));
  return state.rows.map((order) => {
    const standing = !open.has(order.number)
      ? "closed"
      : isListed(state, menu, order)
        ? "listed"
        : "moved-on";
    const callOut = standing === "listed" && isOn("to-call-out", order, isTracked(menu));
    const short = shortOf(order);
    const stage = callOut
      ? "call it out"
      : standing === "closed" && !isEnding(order.stage)
        ? "no longer open"
        : short > 0
          ? `${short} short`
          : STAGE_WORDS[order.stage];
    return {
      order,
      standing,
      callOut,
      stage,
      money: isTracked(menu) && standing !== "closed" ? moneyOf(order) : null,
    };
  });
}

/** The order on the counter with what was tapped since, and whether only this tablet knows it; null without one. */
export function onCounter(state: State): { readonly order: CrewOrderView; readonly isSaved: boolean } | null {
  if (state.order === null) return null;
  const { number } = state.order;
  return {
    order: withTapsOn(state.order, state.taps.acts),
    isSaved: savedOrders(state.taps.book).some(({ act }) => act.numbered?.number === number),
  };
}

/** What can be done with an order. */
export type Offered = {
  readonly claim: boolean;
  readonly pay: boolean;
  readonly handOver: boolean;
  /** How many of its garments are short, if the rest can go on without them; else 0. */
  readonly leaveOut: number;
  /** Says what the tap takes back. */
  readonly undo: string | null;
  readonly endings: readonly Exclude<Ending, "collected">[];
};

const ENDINGS = ["dropped", "refunded", "exchanged", "uncollected"] as const;

export function offeredFor(order: CrewOrderView, tracked: boolean): Offered {
  const { stage, paid, jobs, unclaimed } = order;
  const isOpen = !isEnding(stage);
  const owes = (tracked && paid === null) || order.due !== undefined;
  const short = shortOf(order);
  const nothingPaid = (tracked && paid === null) || (stage === "dropped" && paid === null);
  return {
    claim: unclaimed,
    pay: owes && isOpen,
    handOver: stage === "ready" && !owes,
    leaveOut: isOpen && short < jobs.length ? short : 0,
    undo: isEnding(stage) ? STAGE_WORDS[stage] : paid === null ? null : "paid",
    endings: ENDINGS.filter((as) => ENDS_FROM[as].includes(stage) && !(as === "refunded" && nothingPaid)),
  };
}
