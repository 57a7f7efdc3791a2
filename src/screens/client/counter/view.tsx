/** @jsxImportSource preact */
/** The counter as its state is: what has to be known first, the field that finds any order, then the slip or the orders. */
import { savedOrders } from "../crew/offline.ts";
import { moneyWords } from "../crew/words/money.ts";
import { restWords } from "../crew/words/texts-rest.ts";
import { Tap } from "../parts/tap.tsx";
import type { Actions } from "./actions.ts";
import { keeping } from "./acts.ts";
import { TENDERS } from "./cash.ts";
import { Order } from "./desk/order.tsx";
import { Drawer } from "./drawer/drawer.tsx";
import { OpenList } from "./open/list.tsx";
import { aboutToDrop, dropWords } from "./open/unpaid.ts";
import { savedFacts, savedHeadline } from "./saved.ts";
import { menuOf } from "./shown.ts";
import { finding, type State } from "./state.ts";
import { Take } from "./take/take.tsx";

type Props = { readonly state: State; readonly actions: Actions };

function Closed({ seen }: State) {
  if (seen === null || (seen.menu.open && !seen.menu.paused)) return null;
  return (
    <p class="notice" role="status">
      {seen.menu.paused ? "Paused" : "Closed"}: no orders by text or on the web. The counter can still take
      them.
    </p>
  );
}

/** Orders that are dropped in a moment because nobody has paid. */
function Unpaid({ state, actions: { pay, send } }: Props) {
  const { seen, taps, now } = state;
  const rows = seen === null || now === null ? [] : aboutToDrop(seen.queue, taps.acts, now);
  if (rows.length === 0) return null;
  return (
    <section class="notice" role="alert">
      <ul id="unpaid-list" class="ruled lines">
        {rows.map(({ order: { number, total }, minutes }) => (
          <li key={number}>
            <span>{`${dropWords(number, minutes)}, ${moneyWords(total.amount, total.currency)}`}</span>
            {TENDERS.filter(([tender]) => tender !== "other").map(([tender, label]) => (
              <Tap key={tender} onTap={() => pay(number, { tender }, null)}>
                Paid: {label}
              </Tap>
            ))}
            <Tap onTap={() => send(keeping(number))}>Keep</Tap>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The orders that only this tablet knows, and those that have come to the stall since somebody looked. */
function Saved({ state, actions: { open, confirmationsSeen } }: Props) {
  const { book, lost } = state.taps;
  const orders = savedOrders(book);
  const confirmed = book.confirmed ?? [];
  if (orders.length + confirmed.length === 0) return null;
  return (
    <section id="saved" class="notice" aria-labelledby="saved-title">
      <h2 id="saved-title">{savedHeadline(orders.length, confirmed.length, lost)}</h2>
      <ol class="ruled lines">
        {orders.map((saved) => {
          const { numbered, paper } = saved.act;
          return (
            <li key={`${saved.at} ${numbered?.number ?? paper}`}>
              {numbered === undefined ? (
                <span class="saved-number">{paper ?? "No number yet"}</span>
              ) : (
                <Tap onTap={() => open(numbered.number)}>{`${numbered.number} ${numbered.word}`}</Tap>
              )}
              <span>{savedFacts(saved, menuOf(state))}</span>
            </li>
          );
        })}
      </ol>
      <p role="status">{confirmed.length === 0 ? "" : `At the stall by now: ${confirmed.join(", ")}.`}</p>
      {confirmed.length === 0 ? null : <Tap onTap={confirmationsSeen}>Seen</Tap>}
    </section>
  );
}

/** One field for every order there is; above both views, so that it is one tap away. */
function Find({ state, actions: { change, find } }: Props) {
  return (
    <search>
      <form
        class="find"
        onSubmit={(event) => {
          event.preventDefault();
          find();
        }}
      >
        <label for="find">Find an order</label>
        <div class="row">
          <input
            id="find"
            type="search"
            autocomplete="off"
            maxLength={40}
            aria-describedby="find-help find-said"
            placeholder="Number, word, name"
            value={state.find}
            onInput={({ currentTarget: { value } }) => change((before) => finding(before, value))}
          />
          <button type="submit">Find</button>
        </div>
        <p id="find-help" class="offstage">
          Its number, pickup word, name or garment, or the last four digits of their telephone number.
        </p>
        <p id="find-said" role="status">
          {state.findSaid}
        </p>
      </form>
    </search>
  );
}

export function Counter({ state, actions }: Props) {
  const rest = state.seen === null ? null : restWords(state.seen.queue);
  return (
    <>
      <Closed {...state} />
      {rest === null ? null : (
        <p class="notice" role="status">
          {rest}
        </p>
      )}
      <Unpaid state={state} actions={actions} />
      <Saved state={state} actions={actions} />
      <div class="row end ways-in">
        <div class="row even">
          <Tap id="to-take" pressed={state.view === "take"} onTap={() => actions.turnTo("take")}>
            New order
          </Tap>
          <Tap id="to-desk" pressed={state.view === "desk"} onTap={() => actions.turnTo("desk")}>
            Orders
          </Tap>
          <a class="button" href={actions.pressPage}>
            Press
          </a>
        </div>
        <Find state={state} actions={actions} />
      </div>
      <Take state={state} actions={actions} />
      <div
        class={state.order === null ? "stack desk" : "stack desk has-order"}
        hidden={state.view !== "desk"}
      >
        <OpenList state={state} actions={actions} />
        <Order state={state} actions={actions} />
        {state.order === null ? <Drawer state={state} actions={actions} /> : null}
      </div>
    </>
  );
}
