/** The orders that this tablet keeps until the stall has answered, as the counter shows them before. Pure. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import type { SavedOrder } from "../crew/offline.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { moneyWords } from "../crew/words/money.ts";
import { tendersIn } from "./cash.ts";
import { paidAs } from "./on-order.ts";

const instantOf = ({ at }: SavedOrder): string => new Date(at).toISOString();

/** A kept order as the counter shows it before the stall knows it; null without a number. */
export function asOrder(saved: SavedOrder, menu: Menu): CrewOrderView | null {
  const { numbered, taken } = saved.act;
  if (numbered === undefined || taken === undefined) return null;
  const money = (amount: number) => ({ amount, currency: menu.currency });
  const placedAt = instantOf(saved);
  const lines = taken.lines.map(({ name, ...line }) => {
    const offer = menu.offers.find(({ id }) => id === line.offer);
    const second = line.asSecond === undefined ? {} : { second: true };
    const made = { name: offer?.name ?? name, blank: offer?.blank ?? "", design: offer?.design ?? "" };
    return { ...line, ...made, ...second };
  });
  const pressed = taken.lines.flatMap(({ rack, quantity }) =>
    Array.from({ length: quantity }, () => rack !== undefined),
  );
  const jobs = pressed.map((isPressed, n) => ({
    job: `${numbered.number}-${n + 1}`,
    stage: isPressed ? "pressed" : "waiting",
  }));
  const { tender } = taken;
  const payment =
    tender === null ? { paid: null } : paidAs({ ...taken, tender }, placedAt, money(taken.total));
  return {
    ...numbered,
    stage: pressed.every((isPressed) => isPressed) ? "ready" : "waiting",
    place: 0,
    quoteMinutes: 0,
    lines,
    jobs,
    total: money(taken.total),
    tax: money(taken.tax),
    placedAt,
    dueBy: null,
    ...payment,
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

const ordersWords = (count: number): string => (count === 1 ? "1 order" : `${count} orders`);

/** "No signal · 2 orders saved on this tablet"; `sent` is the number that reached the stall since somebody looked. */
export function savedHeadline(kept: number, sent: number, lost: boolean): string {
  if (kept === 0) return sent === 0 ? "" : `Sent: ${ordersWords(sent)}`;
  return `${lost ? "No signal" : "Sending"} · ${ordersWords(kept)} saved on this tablet`;
}

/** A kept order in one line: its garments, its sum, how it was paid, when. */
export function savedFacts(saved: SavedOrder, menu: Menu | null): string {
  const { taken } = saved.act;
  const sum = taken === undefined || menu === null ? [] : [moneyWords(taken.total, menu.currency)];
  const what = (taken?.lines ?? []).map(({ quantity, name }) => `${quantity} × ${name}`);
  const paid = taken?.tender == null ? [] : [`paid, ${tendersIn({ ...taken, tender: taken.tender })}`];
  const facts = [...what, [...sum, ...paid].join(" "), timeOfDay(instantOf(saved))];
  return facts.filter((fact) => fact !== "").join(" · ");
}
