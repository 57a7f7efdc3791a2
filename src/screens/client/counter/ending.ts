/** Asks once more before an order ends any other way than in its customer's hands. */
import type { CrewOrderView } from "../../../model/orders/order.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId } from "../kit/dom.ts";
import type { Ending } from "./acts.ts";

type Other = Exclude<Ending, "collected">;

const YES: Readonly<Record<Other, string>> = {
  dropped: "Drop it",
  refunded: "Money is given back",
  exchanged: "It is exchanged",
  uncollected: "Never fetched",
};

function meaning({ total, paid }: CrewOrderView, as: Other): string {
  switch (as) {
    case "dropped":
      return "Nobody wants it any more. What is not pressed yet goes back to stock; what is pressed counts as decorated, unsold.";
    case "refunded": {
      const sum = paid?.amount ?? total;
      return `You give back ${moneyWords(sum.amount, sum.currency)}. What is not pressed yet goes back to stock.`;
    }
    case "exchanged":
      return "They bring it back for something else. Take the other garment as a new order after this.";
    case "uncollected":
      return "Nobody came for it. It counts as decorated, unsold.";
    default:
      return as satisfies never;
  }
}

/** Gives the question; `yes` is called where the crew means it. */
export function endQuestion(yes: (number: number, as: Other) => void) {
  const dialog = byId<HTMLDialogElement>("end");
  let asked: { readonly number: number; readonly as: Other } | null = null;
  byId("end-back").addEventListener("click", () => dialog.close());
  byId("end-yes").addEventListener("click", () => {
    dialog.close();
    if (asked !== null) yes(asked.number, asked.as);
  });
  return (order: CrewOrderView, as: Other): void => {
    asked = { number: order.number, as };
    byId("end-title").textContent = `Order ${order.number}: ${YES[as].toLowerCase()}?`;
    byId("end-meaning").textContent = meaning(order, as);
    byId("end-yes").textContent = YES[as];
    dialog.showModal();
  };
}
