/** The open orders as rows: one list at a time, or what fits what was typed. A poll moves no row. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { OpenOrder } from "../../../../model/orders/open-orders.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { byId, element, renew } from "../../kit/dom.ts";
import { isEnding, STAGE_WORDS } from "../acts.ts";
import { fits, garmentsIn, inPlace, isOn, LISTS, type List } from "./lists.ts";

export type Listed = {
  readonly orders: readonly OpenOrder[];
  readonly menu: Menu | null;
  /** How many older orders the stall left out. */
  readonly more: number;
};

const LIST_WORDS: Readonly<Record<List, string>> = {
  "to-fetch": "To fetch",
  "to-call-out": "To call out",
  "to-pay": "To pay",
  "not-here": "Not here yet",
  all: "All",
};

const NOTHING: Readonly<Record<List, string>> = {
  "to-fetch": "Nothing is ready.",
  "to-call-out": "Nobody has to be called out.",
  "to-pay": "Everything is paid.",
  "not-here": "No web order waits for its customer.",
  all: "No order is open.",
};

function moneyOf({ total, paid, giveBack }: OpenOrder): string {
  if (giveBack !== null) return `give back ${moneyWords(giveBack.amount, giveBack.currency)}`;
  return paid === null ? `${moneyWords(total.amount, total.currency)} to pay` : "paid";
}

/** How a row stands to the list it is on. */
type Standing = "listed" | "moved-on" | "closed";

function stageWords(order: OpenOrder, standing: Standing, callOut: boolean): string {
  const short = order.jobs.filter((job) => job.stage === "short").length;
  if (callOut) return "ready: call it out";
  if (standing === "closed" && !isEnding(order.stage)) return "no longer open";
  return short > 0 ? `${short} short` : STAGE_WORDS[order.stage];
}

/** What a row says; a change of any of it is drawn into the same button. */
function parts(order: OpenOrder, menu: Menu | null, tracked: boolean, standing: Standing): HTMLElement[] {
  const { number, name, phone } = order;
  const money = tracked && standing !== "closed" ? moneyOf(order) : null;
  const foot = [money, name, phone === null ? null : `…${phone}`].filter((part) => part !== null);
  const callOut = standing === "listed" && isOn("to-call-out", order, tracked);
  return [
    element("span", { class: "row-hole", "aria-hidden": "true" }),
    element("span", { class: "row-number" }, String(number)),
    element("span", { class: "row-what" }, ` ${garmentsIn(order, menu)} `),
    element(
      "span",
      { class: callOut ? "row-stage needs-you" : "row-stage" },
      stageWords(order, standing, callOut),
    ),
    element("span", { class: "row-foot" }, foot.map((part) => ` ${part}`).join(" ·")),
  ];
}

export function orderList(open: (number: number) => void) {
  let list: List = "to-fetch";
  let typed = "";
  let places: readonly number[] = [];
  let shown: Listed = { orders: [], menu: null, more: 0 };
  /** Rows are kept by number, with the last that was known of an order that has left. */
  const rows = new Map<number, { readonly node: HTMLButtonElement; order: OpenOrder; drawn: string }>();
  const find = byId<HTMLInputElement>("find");
  const tabs = LISTS.map((name) => {
    const tab = element("button", { type: "button", onclick: () => choose(name) });
    return { name, tab };
  });
  byId("lists").append(...tabs.map(({ tab }) => tab));

  const tracked = (): boolean => (shown.menu?.rules.payment ?? "not-tracked") !== "not-tracked";
  const isShown = (order: OpenOrder): boolean =>
    typed === "" ? isOn(list, order, tracked()) : fits(order, garmentsIn(order, shown.menu), typed);

  function choose(name: List): void {
    list = name;
    find.value = "";
    typed = "";
    settle();
  }

  /** Takes out what has left: only where somebody has just turned to another list, so that nothing moves under a thumb. */
  function settle(): void {
    places = [];
    draw();
  }

  function rowOf(order: OpenOrder) {
    const { number } = order;
    const node = element("button", { type: "button", class: "order-row", onclick: () => open(number) });
    const row = { node, order, drawn: "" };
    rows.set(number, row);
    return row;
  }

  function draw(): void {
    const { orders, menu, more } = shown;
    for (const { name, tab } of tabs) {
      const count = orders.filter((order) => isOn(name, order, tracked())).length;
      const words = `${LIST_WORDS[name]} ${count}`;
      if (tab.textContent !== words) tab.textContent = words;
      tab.setAttribute("aria-pressed", String(typed === "" && list === name));
      tab.hidden = name === "to-pay" && menu !== null && !tracked();
    }
    const open = new Map(orders.map((order) => [order.number, order]));
    places = inPlace(
      places,
      orders.filter(isShown).map(({ number }) => number),
    );
    const box = byId("open-orders");
    const wanted = places.flatMap((number) => {
      const now = open.get(number);
      const row = rows.get(number) ?? (now === undefined ? undefined : rowOf(now));
      if (row === undefined) return [];
      row.order = now ?? row.order;
      const standing = now === undefined ? "closed" : isShown(now) ? "listed" : "moved-on";
      row.node.classList.toggle("ready", standing === "listed" && row.order.stage === "ready");
      row.node.classList.toggle("gone", standing !== "listed");
      const said = parts(row.order, menu, tracked(), standing);
      const drawn = said.map(({ outerHTML }) => outerHTML).join("");
      if (drawn !== row.drawn) renew(row.node, said);
      row.drawn = drawn;
      return [row.node];
    });
    for (const number of rows.keys()) if (!places.includes(number)) rows.delete(number);
    for (const spare of [...box.children]) if (!wanted.some((node) => node === spare)) spare.remove();
    // A row that is in its place is not touched, or it would lose the focus.
    for (const [at, node] of wanted.entries())
      if (box.children[at] !== node) box.insertBefore(node, box.children[at] ?? null);
    byId("open-none").textContent =
      wanted.length > 0 ? "" : typed === "" ? NOTHING[list] : `No open order fits “${typed}”.`;
    byId("open-more").textContent =
      more === 0 ? "" : `${more} older orders are not listed: find them by number.`;
  }

  return {
    settle,
    show: (now: Listed): void => {
      shown = now;
      draw();
    },
    /** Lists what fits what is typed; nothing typed: the list as it was. */
    type: (text: string): void => {
      if (text.trim() === typed) return;
      typed = text.trim();
      settle();
    },
  };
}
