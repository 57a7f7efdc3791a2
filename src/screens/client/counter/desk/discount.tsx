/** @jsxImportSource preact */
/** Something off the price of the order on the counter, with the reason. */
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { discounting, isEnding } from "../acts.ts";
import type { State } from "../state.ts";

type Props = { readonly order: CrewOrderView; readonly state: State; readonly actions: Actions };

/** What is offered by a tap; any other amount is a matter for the API. */
const OFF = [
  ["10 % off", 100_000, "other"],
  ["20 % off", 200_000, "other"],
  ["Half price", 500_000, "sorry"],
  ["Free: gift", 1_000_000, "gift"],
  ["Free: crew", 1_000_000, "crew"],
] as const;

export function DiscountTaps({ order: { number, stage, discount }, state, actions: { send } }: Props) {
  if (isEnding(stage)) return null;
  const { busy } = state.taps;
  return (
    <details key={`off ${number}`}>
      <summary>Take something off the price</summary>
      <div class="row">
        {OFF.map(([words, part, reason]) => (
          <Tap key={words} busy={busy} onTap={() => send(discounting(number, part, reason))}>
            {words}
          </Tap>
        ))}
        {discount === undefined ? null : (
          <Tap busy={busy} onTap={() => send(discounting(number, null, "other"))}>
            {`Undo: ${moneyWords(discount.amount.amount, discount.amount.currency)} off`}
          </Tap>
        )}
      </div>
    </details>
  );
}
