/** @jsxImportSource preact */
/** Taking money: what was given, what goes back, and how it was paid. */
import type { CurrencyCode } from "../../../model/basics/minor-digits.ts";
import { minorUnitsTyped, moneyWords } from "../crew/words/money.ts";
import { Tap } from "../parts/tap.tsx";
import { changeDue, inParts, type Paying, payingBy, roundSums, TENDERS } from "./cash.ts";

/** As typed. */
export type Typed = { readonly given: string; readonly tip: string };

type Props = {
  /** Names its field. */
  readonly id: string;
  readonly amount: number;
  readonly currency: CurrencyCode;
  readonly typed: Typed;
  readonly busy: boolean;
  readonly type: (part: Partial<Typed>) => void;
  /** `given` is the cash handed over, if that is known. */
  readonly paid: (how: Paying, given: number | null) => void;
};

/** What else can be done with the cash that was typed: some of it, or more than is due. */
function CashTaps({ amount, currency, typed, busy, paid }: Omit<Props, "id" | "type">) {
  const cash = minorUnitsTyped(typed.given, currency);
  const tip = minorUnitsTyped(typed.tip, currency) ?? 0;
  const over = cash === null ? 0 : cash - amount - tip;
  if (cash === null || cash === 0 || over === 0) return null;
  if (cash < amount)
    return (
      <div class="row">
        {TENDERS.filter(([tender]) => tender !== "cash").map(([tender, label]) => (
          <Tap key={tender} busy={busy} onTap={() => paid(inParts(cash, amount, tender, tip), null)}>
            {`Rest by ${label.toLowerCase()}: ${moneyWords(amount - cash + tip, currency)}`}
          </Tap>
        ))}
      </div>
    );
  if (over < 0 || tip > 0) return null;
  return (
    <div class="row">
      <Tap busy={busy} onTap={() => paid(payingBy("cash", over), null)}>
        {`Keep the change: tip ${moneyWords(over, currency)}`}
      </Tap>
    </div>
  );
}

export function Payment(props: Props) {
  const { id, amount, currency, typed, busy, type, paid } = props;
  const tip = minorUnitsTyped(typed.tip, currency) ?? 0;
  const all = amount + tip;
  return (
    <div class="stack">
      <div>
        <label for={id}>Cash given</label>
        <input
          id={id}
          inputMode="decimal"
          autocomplete="off"
          maxLength={24}
          value={typed.given}
          onInput={({ currentTarget }) => type({ given: currentTarget.value })}
        />
      </div>
      <fieldset class="notes" aria-label="Paid with a round sum">
        {roundSums(all).map((sum) => (
          <Tap key={sum} busy={busy} onTap={() => paid(payingBy("cash", tip), sum)}>
            <b>{moneyWords(sum, currency)}</b>{" "}
            <span class="small">back {moneyWords(sum - all, currency)}</span>
          </Tap>
        ))}
      </fieldset>
      <p class="larger" role="status">
        {changeDue(typed.given, all, currency)}
      </p>
      <CashTaps {...props} />
      <div class="tenders">
        {TENDERS.map(([tender, label]) => (
          <Tap
            key={tender}
            class={tender === "cash" ? "main" : undefined}
            busy={busy}
            onTap={() =>
              paid(payingBy(tender, tip), tender === "cash" ? minorUnitsTyped(typed.given, currency) : null)
            }
          >
            Paid: {label}
          </Tap>
        ))}
      </div>
      <details open={typed.tip !== ""}>
        <summary>Add a tip</summary>
        <div>
          <label for={`${id}-tip`}>{`Tip (${currency})`}</label>
          <input
            id={`${id}-tip`}
            inputMode="decimal"
            autocomplete="off"
            maxLength={12}
            value={typed.tip}
            onInput={({ currentTarget }) => type({ tip: currentTarget.value })}
          />
        </div>
        <p role="status">{tip === 0 ? "" : `With the tip: ${moneyWords(all, currency)}`}</p>
      </details>
    </div>
  );
}
