/** @jsxImportSource preact */
/** Taking an order for someone without a phone: the garments to choose from, and the slip they go on. */

import type { Look } from "../../../../model/garment/look.ts";
import { spelt } from "../../kit/spelling.ts";
import { Choices } from "../../parts/choices.tsx";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { Payment } from "../payment.tsx";
import { forSale, withRack } from "../rack/on-rack.ts";
import { isTracked, leftOf, menuOf } from "../shown.ts";
import type { State } from "../state.ts";
import { type Pad as PadShown, padOf, withMore, withWishes } from "./pad.ts";
import { lineKey, sumsOf, totalOf, withLine, withoutLine } from "./slip.ts";
import { Wishes } from "./wishes.tsx";

type Props = { readonly state: State; readonly actions: Actions };

const NOTHING: PadShown = { offers: [], colours: [], sizes: [], line: null, free: 0, hanging: [] };

/** What is put on the slip if some of it hangs on the rack. */
const rackTaps = (wanted: number, hanging: number): string =>
  wanted <= hanging ? "Add from the rack" : `Add ${hanging} from the rack, ${wanted - hanging} to press`;

function Pad({ state, actions: { change } }: Props) {
  const { choice, taps } = state;
  const menu = leftOf(state);
  const pad = menu === null ? NOTHING : padOf(menu, choice, forSale(state));
  const offer = pad.offers.find(({ chosen }) => chosen)?.value;
  const looks: Readonly<Record<string, Look | undefined>> = menu?.looks ?? {};
  const choose = (part: Partial<typeof choice>): void =>
    change((before) => ({ ...before, padMissing: "", choice: { ...before.choice, ...part } }));
  const wishes = (menuOf(state)?.wishes ?? []).filter(({ offered }) => offered);
  const isPlain = (choice.wishes ?? []).length === 0 && (choice.note ?? "").trim() === "";
  const hanging = isPlain ? pad.hanging : [];
  const mainClass = pad.line === null && state.slip.lines.length > 0 ? undefined : "main";
  const add = (from: PadShown["hanging"]): void => {
    const { line } = pad;
    if (line === null)
      return change((before) => ({ ...before, padMissing: spelt("Choose what, colour and size.") }));
    const lines = withRack(withWishes(line, wishes, choice), from);
    change((before) => ({
      ...before,
      padMissing: "",
      slip: lines.reduce(withLine, before.slip),
      choice: { ...before.choice, size: null, quantity: 1, wishes: [], note: "" },
    }));
  };
  return (
    <div class="stack pad">
      <Choices
        id="offers"
        legend="What"
        options={pad.offers}
        choose={(value) => choose({ offer: value })}
        picture={(value) => <Garment look={looks[value]} named />}
      />
      <Choices
        id="colours"
        legend={spelt("Colour")}
        options={pad.colours}
        choose={(colour) => choose({ colour })}
        picture={(colour) => <Garment look={looks[offer ?? ""]} colour={colour} named />}
      />
      <Choices
        id="sizes"
        legend="Size (number left)"
        options={pad.sizes}
        choose={(size) => choose({ size })}
      />
      <Wishes
        wishes={wishes}
        currency={menu?.currency ?? "USD"}
        choice={choice}
        choose={(part) => choose(part)}
      />
      <div class="row add">
        <span id="quantity-label" class="strong">
          How many
        </span>
        <Tap id="fewer" label="One fewer" onTap={() => choose(withMore(choice, -1))}>
          −
        </Tap>
        <output id="quantity" aria-labelledby="quantity-label">
          {choice.quantity}
        </output>
        <Tap id="more" label="One more" onTap={() => choose(withMore(choice, 1))}>
          +
        </Tap>
        {hanging.length === 0 ? (
          <Tap id="add" class={mainClass} onTap={() => add([])}>
            Add to order
          </Tap>
        ) : (
          <Tap id="add" class="main" onTap={() => add(hanging)}>
            {rackTaps(choice.quantity, hanging.length)}
          </Tap>
        )}
        {hanging.length === 0 || pad.free === 0 ? null : (
          <Tap onTap={() => add([])}>{choice.quantity === 1 ? "Press a new one" : "Press new ones"}</Tap>
        )}
      </div>
      {taps.lost ? (
        <p role="status">
          No signal: these counts are what this tablet saw last, less what it took since. They may be out of
          date.
        </p>
      ) : null}
      <p role="alert">{state.padMissing}</p>
    </div>
  );
}

/** For slips written while there was no power. */
function Paper({ state: { slip }, actions: { change } }: Props) {
  const write = (part: Partial<typeof slip.paper>): void =>
    change((before) => ({
      ...before,
      slip: { ...before.slip, paper: { ...before.slip.paper, ...part } },
    }));
  return (
    <details open={slip.paper.open} onToggle={({ currentTarget: { open } }) => write({ open })}>
      <summary>Paper order</summary>
      <p>For slips written while there was no power: number them from 900 to 999 and write the time.</p>
      <div class="pair">
        <div>
          <label for="paper-number">Number on the slip</label>
          <input
            id="paper-number"
            inputMode="numeric"
            autocomplete="off"
            maxLength={3}
            value={slip.paper.number}
            onInput={({ currentTarget }) => write({ number: currentTarget.value })}
          />
        </div>
        <div>
          <label for="paper-time">Time on the slip</label>
          <input
            id="paper-time"
            type="time"
            value={slip.paper.time}
            onInput={({ currentTarget }) => write({ time: currentTarget.value })}
          />
        </div>
      </div>
    </details>
  );
}

function Slip({ state, actions }: Props) {
  const { slip, taps } = state;
  const { change, take } = actions;
  const menu = menuOf(state);
  const tracked = isTracked(menu);
  const write = (part: Partial<typeof slip>): void =>
    change((before) => ({ ...before, slip: { ...before.slip, ...part } }));
  return (
    <section class="stack slip" aria-labelledby="slip-title">
      <h2 id="slip-title">The slip</h2>
      <ol id="lines" class="ruled lines">
        {slip.lines.length === 0 ? <li key="none">Nothing on it yet.</li> : null}
        {slip.lines.map((line) => (
          <li key={lineKey(line)}>
            <span>{`${line.quantity} × ${line.name}`}</span>
            <Tap
              label={`Remove ${line.name}`}
              onTap={() => change((before) => ({ ...before, slip: withoutLine(before.slip, line) }))}
            >
              Remove
            </Tap>
          </li>
        ))}
      </ol>
      <dl id="sums" class="sums">
        {(menu === null || slip.lines.length === 0 ? [] : sumsOf(slip, menu)).map(([label, sum]) => [
          <dt key={label} class={label === "Total" ? "larger" : undefined}>
            {label}
          </dt>,
          <dd key={`${label} sum`} class={label === "Total" ? "larger" : undefined}>
            {sum}
          </dd>,
        ])}
      </dl>
      <div>
        <label for="name">Name or initials (optional)</label>
        <input
          id="name"
          autocomplete="off"
          maxLength={40}
          value={slip.name}
          onInput={({ currentTarget }) => write({ name: currentTarget.value })}
        />
      </div>
      <Paper state={state} actions={actions} />
      <p role="alert">{slip.missing}</p>
      {menu !== null && tracked && slip.lines.length > 0 ? (
        <Payment
          id="slip-given"
          amount={totalOf(slip, menu)}
          currency={menu.currency}
          typed={slip}
          busy={taps.busy}
          type={write}
          paid={take}
        />
      ) : null}
      <Tap id="place" class={tracked ? undefined : "main"} busy={taps.busy} onTap={() => take(null, null)}>
        {tracked ? "Place order, not paid yet" : "Place order"}
      </Tap>
    </section>
  );
}

export function Take({ state, actions }: Props) {
  return (
    <div class="stack split take" hidden={state.view !== "take"}>
      <Pad state={state} actions={actions} />
      <Slip state={state} actions={actions} />
    </div>
  );
}
