/** @jsxImportSource preact */
/** The drawer: what should be in it, its float, pay-outs, and the count at the end of a shift. */

import type { DrawerView } from "../../../../model/accounts/drawer.ts";
import type { Currency } from "../../../../model/basics/money.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { minorUnitsTyped, moneyWords } from "../../crew/words/money.ts";
import type { Actions } from "../actions.ts";
import { menuOf } from "../shown.ts";
import type { State } from "../state.ts";

type Props = { readonly state: State; readonly actions: Actions };

const TENDER_WORDS = { cash: "Cash", card: "Card", other: "Other" } as const;

const REASONS = [
  ["supplies", "Supplies"],
  ["change", "Change"],
  ["food", "Food"],
  ["fee", "Fee"],
  ["wages", "Wages"],
  ["bank", "To the bank"],
  ["other", "Other"],
] as const;

type AskProps = {
  readonly id: string;
  readonly label: string;
  readonly button: string;
  readonly currency: Currency;
  readonly done: (amount: number, form: FormData) => void;
  readonly children?: preact.ComponentChildren;
};

/** One amount that is asked for. */
function Ask({ id, label, button, currency, done, children }: AskProps) {
  return (
    <form
      class="row end"
      onSubmit={(event) => {
        event.preventDefault();
        const form = new FormData(event.currentTarget);
        const amount = minorUnitsTyped(String(form.get("amount") ?? ""), currency);
        if (amount === null) return;
        done(amount, form);
        event.currentTarget.reset();
      }}
    >
      <div>
        <label for={id}>{`${label} (${currency})`}</label>
        <input id={id} name="amount" inputMode="decimal" autocomplete="off" maxLength={12} required />
      </div>
      {children}
      <button type="submit">{button}</button>
    </form>
  );
}

function Sums({ drawer, currency }: { readonly drawer: DrawerView; readonly currency: Currency }) {
  const money = (amount: number): string => moneyWords(amount, currency);
  const rows: readonly (readonly [string, string])[] = [
    ["Float", money(drawer.float)],
    ...drawer.tenders.map(({ tender, in: came, out, tips }): readonly [string, string] => [
      `${TENDER_WORDS[tender]} in`,
      `${money(came)}${tips === 0 ? "" : `, of that tips ${money(tips)}`}${out === 0 ? "" : `; back ${money(out)}`}`,
    ]),
    ...drawer.paidOut.map(({ at, amount, reason }): readonly [string, string] => [
      `Paid out ${timeOfDay(at)}, ${reason}`,
      money(amount),
    ]),
    ...drawer.counts.map(({ at, counted, difference, handOver }): readonly [string, string] => [
      `${handOver ? "Handed over" : "Counted"} ${timeOfDay(at)}`,
      difference === 0
        ? `${money(counted)}, as it should be`
        : `${money(counted)}, ${money(Math.abs(difference))} ${difference > 0 ? "too much" : "missing"}`,
    ]),
    ...drawer.takers.map(({ name, tender, amount }): readonly [string, string] => [
      `${name}, ${tender}`,
      money(amount),
    ]),
    ...drawer.owed.map(({ number, amount }): readonly [string, string] => [
      `To give back on ${number}`,
      money(amount),
    ]),
    ...drawer.due.map(({ number, amount }): readonly [string, string] => [
      `Still due on ${number}`,
      money(amount),
    ]),
  ];
  return (
    <dl class="sums">
      {rows.flatMap(([what, sum]) => [<dt key={`${what} dt`}>{what}</dt>, <dd key={`${what} dd`}>{sum}</dd>])}
      <dt class="larger">Cash that should be there</dt>
      <dd class="larger">{money(drawer.expected)}</dd>
    </dl>
  );
}

export function Drawer({ state, actions: { drawer: act } }: Props) {
  const menu = menuOf(state);
  if (menu === null) return null;
  const { currency } = menu;
  const { drawer } = state;
  return (
    <details
      id="drawer"
      class="drawer"
      onToggle={({ currentTarget: { open } }) => {
        if (open) act(null);
      }}
    >
      <summary>The drawer</summary>
      <div class="stack">
        {drawer === undefined ? (
          <p role="status">Asking the stall. It needs a signal.</p>
        ) : drawer === null ? (
          <p>Type in what is in the drawer before the first sale. From then on it is counted with you.</p>
        ) : (
          <Sums drawer={drawer} currency={currency} />
        )}
        <Ask
          id="float"
          label="Float"
          button="Save float"
          currency={currency}
          done={(amount) => act({ type: "float-set", amount })}
        />
        {drawer === undefined || drawer === null ? null : (
          <>
            <Ask
              id="pay-out"
              label="Take out"
              button="Note it"
              currency={currency}
              done={(amount, form) => {
                const reason = REASONS.find(([value]) => value === form.get("reason"))?.[0] ?? "other";
                act({ type: "paid-out", amount, reason });
              }}
            >
              <div>
                <label for="pay-out-reason">For</label>
                <select id="pay-out-reason" name="reason">
                  {REASONS.map(([value, words]) => (
                    <option key={value} value={value}>
                      {words}
                    </option>
                  ))}
                </select>
              </div>
            </Ask>
            <Ask
              id="drawer-count"
              label="Cash counted"
              button="Save count"
              currency={currency}
              done={(counted, form) =>
                act({ type: "drawer-counted", counted, handOver: form.get("hand-over") === "on" })
              }
            >
              <label class="check">
                <input type="checkbox" name="hand-over" />
                <span>Hand it over to the next shift</span>
              </label>
            </Ask>
          </>
        )}
      </div>
    </details>
  );
}
