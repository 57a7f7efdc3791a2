/** The orders that this tablet keeps until the stall has answered, each with its number, and those it has by now. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import type { SavedOrder } from "../crew/offline.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";

const instantOf = ({ at }: SavedOrder): string => new Date(at).toISOString();

/** A kept order as the counter shows it before the stall knows it; null without a number. */
export function asOrder(saved: SavedOrder, menu: Menu): CrewOrderView | null {
  const { numbered, taken } = saved.act;
  if (numbered === undefined || taken === undefined) return null;
  const money = (amount: number) => ({ amount, currency: menu.currency });
  const placedAt = instantOf(saved);
  const lines = taken.lines.map(({ name, ...line }) => {
    const offer = menu.offers.find(({ id }) => id === line.offer);
    return { ...line, name: offer?.name ?? name, blank: offer?.blank ?? "", design: offer?.design ?? "" };
  });
  const count = taken.lines.reduce((sum, { quantity }) => sum + quantity, 0);
  const jobs = Array.from({ length: count }, (_, n) => ({
    job: `${numbered.number}-${n + 1}`,
    stage: "waiting",
  }));
  const { tender } = taken;
  return {
    ...numbered,
    stage: "waiting",
    place: 0,
    quoteMinutes: 0,
    lines,
    jobs,
    total: money(taken.total),
    tax: money(taken.tax),
    placedAt,
    dueBy: null,
    paid: tender === null ? null : { tender, amount: money(taken.total), at: placedAt },
    paidTo: taken.by,
    takenBy: "counter",
    unclaimed: false,
    name: taken.name,
    phone: null,
    dropsAt: null,
    giveBack: null,
    gaveBack: null,
    told: "call-out",
  } as unknown as CrewOrderView; // its ids are the menu's own
}

export type Saved = {
  readonly orders: readonly SavedOrder[];
  readonly confirmed: readonly number[];
  readonly lost: boolean;
};

const ordersWords = (count: number): string => (count === 1 ? "1 order" : `${count} orders`);

function headline({ orders, confirmed, lost }: Saved): string {
  if (orders.length === 0) return confirmed.length === 0 ? "" : `Sent: ${ordersWords(confirmed.length)}`;
  const saved = `${ordersWords(orders.length)} saved on this tablet`;
  return lost ? `No signal · ${saved}` : `Sending · ${saved}`;
}

/** Draws both lists; `open` is given the number of a saved order. */
export function savedPanel(menu: () => Menu | null, open: (number: number) => void, seen: () => void) {
  let drawn = "";
  byId("saved-seen").addEventListener("click", seen);

  const row = ({ act, at }: SavedOrder): HTMLElement => {
    const { numbered, taken, paper } = act;
    const currency = menu()?.currency;
    const sum = taken === undefined || currency === undefined ? [] : [moneyWords(taken.total, currency)];
    const what = (taken?.lines ?? []).map(({ quantity, name }) => `${quantity} × ${name}`);
    const paid = taken?.tender == null ? [] : [`paid, ${taken.tender}`];
    const facts = [...what, [...sum, ...paid].join(" "), timeOfDay(new Date(at).toISOString())];
    const number = numbered?.number ?? paper;
    return element(
      "li",
      {},
      numbered === undefined
        ? element("span", { class: "saved-number" }, number === null ? "No number yet" : String(number))
        : element(
            "button",
            { type: "button", onclick: () => open(numbered.number) },
            `${numbered.number} ${numbered.word}`,
          ),
      element("span", {}, facts.filter((fact) => fact !== "").join(" · ")),
    );
  };

  return {
    show: (now: Saved): void => {
      // Left alone while nothing changed, so that a focused button stays focused.
      const next = JSON.stringify(now);
      if (next === drawn) return;
      drawn = next;
      const { orders, confirmed } = now;
      byId("saved").hidden = orders.length + confirmed.length === 0;
      byId("saved-title").textContent = headline(now);
      byId("saved-orders").replaceChildren(...orders.map(row));
      byId("saved-sent").textContent =
        confirmed.length === 0 ? "" : `At the stall by now: ${confirmed.join(", ")}.`;
      byId("saved-seen").hidden = confirmed.length === 0;
    },
  };
}
