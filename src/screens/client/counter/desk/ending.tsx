/** @jsxImportSource preact */
/** Asks once more before an order ends any other way than in its customer's hands. */
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { Dialog } from "../../parts/dialog.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Ending } from "../acts.ts";

export type Other = Exclude<Ending, "collected">;

/** The words of the button that asks, and of the button that confirms. */
export const ENDING_WORDS: Readonly<Record<Other, readonly [ask: string, yes: string]>> = {
  dropped: ["Drop it…", "Drop it"],
  refunded: ["Give money back…", "Money is given back"],
  exchanged: ["Exchange…", "It is exchanged"],
  uncollected: ["Not collected…", "Not collected"],
};

function meaning({ total, paid }: CrewOrderView, as: Other): string {
  switch (as) {
    case "dropped":
      return "The customer cancelled. Unpressed pieces go back to stock; finished garments count as unsold.";
    case "refunded": {
      const sum = paid?.amount ?? total;
      return `You give back ${moneyWords(sum.amount, sum.currency)}. Unpressed pieces go back to stock.`;
    }
    case "exchanged":
      return "They bring it back for something else. Take the other garment as a new order after this.";
    case "uncollected":
      return "Nobody came for it. Its garments count as unsold.";
    default:
      return as satisfies never;
  }
}

type Props = {
  readonly order: CrewOrderView;
  readonly as: Other;
  readonly yes: () => void;
  readonly back: () => void;
};

export function EndDialog({ order, as, yes, back }: Props) {
  const [, means] = ENDING_WORDS[as];
  return (
    <Dialog id="end" title={`Order ${order.number}: ${means.toLowerCase()}?`} closed={back}>
      <p>{meaning(order, as)}</p>
      <div class="row">
        <Tap class="main" onTap={yes}>
          {means}
        </Tap>
        <Tap onTap={back}>Back</Tap>
      </div>
    </Dialog>
  );
}
