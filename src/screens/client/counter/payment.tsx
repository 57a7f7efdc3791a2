/** @jsxImportSource preact */
/** Taking money: what was given, what goes back, and how it was paid. */
import type { CurrencyCode } from "../../../model/basics/minor-digits.ts";
import type { Tender } from "../../../model/orders/order.ts";
import { minorUnitsTyped, moneyWords } from "../crew/words/money.ts";
import { Tap } from "../parts/tap.tsx";
import { changeDue, roundSums, TENDERS } from "./cash.ts";

type Props = {
  /** Names its field. */
  readonly id: string;
  readonly amount: number;
  readonly currency: CurrencyCode;
  readonly given: string;
  readonly busy: boolean;
  readonly type: (given: string) => void;
  /** `given` is the cash handed over, if that is known. */
  readonly paid: (tender: Tender, given: number | null) => void;
};

export function Payment({ id, amount, currency, given, busy, type, paid }: Props) {
  return (
    <div class="stack">
      <div>
        <label for={id}>Cash given</label>
        <input
          id={id}
          inputMode="decimal"
          autocomplete="off"
          maxLength={24}
          value={given}
          onInput={({ currentTarget }) => type(currentTarget.value)}
        />
      </div>
      <fieldset class="notes" aria-label="Paid with a round sum">
        {roundSums(amount).map((sum) => (
          <Tap key={sum} busy={busy} onTap={() => paid("cash", sum)}>
            <b>{moneyWords(sum, currency)}</b>{" "}
            <span class="small">back {moneyWords(sum - amount, currency)}</span>
          </Tap>
        ))}
      </fieldset>
      <p class="larger" role="status">
        {changeDue(given, amount, currency)}
      </p>
      <div class="tenders">
        {TENDERS.map(([tender, label]) => (
          <Tap
            key={tender}
            class={tender === "cash" ? "main" : undefined}
            busy={busy}
            onTap={() => paid(tender, tender === "cash" ? minorUnitsTyped(given, currency) : null)}
          >
            Paid: {label}
          </Tap>
        ))}
      </div>
    </div>
  );
}
