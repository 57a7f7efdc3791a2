/** @jsxImportSource preact */
/** Something off the price of the order on the counter, with the reason. */
import type { CrewOrderView, DiscountReason } from "../../../../model/orders/order.ts";
import { minorUnitsTyped, moneyWords } from "../../crew/words/money.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { discounting, isEnding } from "../acts.ts";
import type { State } from "../state.ts";

type Props = { readonly order: CrewOrderView; readonly state: State; readonly actions: Actions };

/** The discounts that take one tap. */
const OFF = [
  ["10 % off", 100_000, "other"],
  ["20 % off", 200_000, "other"],
  ["Half price", 500_000, "sorry"],
  ["Free: gift", 1_000_000, "gift"],
  ["Free: crew", 1_000_000, "crew"],
] as const;

export const REASONS: Readonly<Record<DiscountReason, string>> = {
  sorry: "something went wrong",
  damaged: "not quite perfect",
  many: "several at once",
  gift: "a gift",
  crew: "crew",
  other: "another reason",
};

const isReason = (value: string): value is DiscountReason => Object.hasOwn(REASONS, value);

/** A typed amount off, with its reason. */
function AnyAmount({ order: { number, total }, state, actions: { send } }: Props) {
  const { currency } = total;
  const id = `off-${number}`;
  return (
    <form
      class="row end"
      onSubmit={(event) => {
        event.preventDefault();
        const typed = new FormData(event.currentTarget);
        const off = minorUnitsTyped(String(typed.get("amount")), currency);
        const reason = String(typed.get("reason"));
        if (off === null || off === 0 || !isReason(reason)) return;
        event.currentTarget.reset();
        send(discounting(number, { by: { amount: off }, reason }, `${moneyWords(off, currency)} off`));
      }}
    >
      <div>
        <label for={id}>{`Or this much off (${currency})`}</label>
        <input id={id} name="amount" inputMode="decimal" autocomplete="off" maxLength={12} required />
      </div>
      <div>
        <label for={`${id}-reason`}>because of</label>
        <select id={`${id}-reason`} name="reason">
          {Object.entries(REASONS).map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </div>
      <button type="submit" disabled={state.taps.busy}>
        Take it off
      </button>
    </form>
  );
}

export function DiscountTaps(props: Props) {
  const { number, stage, discount } = props.order;
  const { send } = props.actions;
  if (isEnding(stage)) return null;
  const { busy } = props.state.taps;
  return (
    <details key={`off ${number}`}>
      <summary>Take something off the price</summary>
      <div class="stack">
        <div class="row">
          {OFF.map(([words, partsPerMillion, reason]) => (
            <Tap
              key={words}
              busy={busy}
              onTap={() => send(discounting(number, { by: { partsPerMillion }, reason }, words))}
            >
              {words}
            </Tap>
          ))}
          {discount === undefined ? null : (
            <Tap busy={busy} onTap={() => send(discounting(number, null, "at the full price again"))}>
              {`Undo: ${moneyWords(discount.amount.amount, discount.amount.currency)} off`}
            </Tap>
          )}
        </div>
        <AnyAmount {...props} />
      </div>
    </details>
  );
}
