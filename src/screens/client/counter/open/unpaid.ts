/** Orders that are about to be dropped because nobody has paid them, announced in time to do something about it. */
import type { QueueView, Tender } from "../../../../model/orders/order.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { byId, element } from "../../kit/dom.ts";
import type { Act } from "../acts.ts";

type Unpaid = QueueView["unpaid"][number];

const MINUTE = 60_000;
const ANNOUNCED = 2 * MINUTE;

/** The orders that are dropped within two minutes, with the minutes that are left; 0 where the time is over. */
export function aboutToDrop(
  queue: Partial<Pick<QueueView, "unpaid">>,
  acts: readonly Act[],
  now: number,
): readonly { readonly order: Unpaid; readonly minutes: number }[] {
  const settled = new Set(
    acts.flatMap((act) =>
      act.type === "order" && ["paid", "kept", "ended"].includes(act.change.type) ? [act.number] : [],
    ),
  );
  return (queue.unpaid ?? []).flatMap((order) => {
    const left = Date.parse(order.dropsAt) - now;
    if (left > ANNOUNCED || settled.has(order.number)) return [];
    return [{ order, minutes: Math.max(0, Math.ceil(left / MINUTE)) }];
  });
}

const words = (number: number, minutes: number): string =>
  minutes === 0 ? `${number} is being dropped: unpaid` : `${number} is dropped in ${minutes} min: unpaid`;

export type UnpaidWays = {
  readonly paid: (number: number, tender: Tender) => void;
  readonly keep: (number: number) => void;
};

let drawn = "";

export function showUnpaid(rows: ReturnType<typeof aboutToDrop>, { paid, keep }: UnpaidWays): void {
  const now = JSON.stringify(rows);
  if (now === drawn) return;
  drawn = now;
  byId("unpaid").hidden = rows.length === 0;
  const button = (text: string, onclick: () => void): HTMLElement =>
    element("button", { type: "button", onclick }, text);
  byId("unpaid-list").replaceChildren(
    ...rows.map(({ order: { number, total }, minutes }) =>
      element(
        "li",
        {},
        element("span", {}, `${words(number, minutes)}, ${moneyWords(total.amount, total.currency)}`),
        button("Paid: Cash", () => paid(number, "cash")),
        button("Paid: Card", () => paid(number, "card")),
        button("Keep", () => keep(number)),
      ),
    ),
  );
}
