/** @jsxImportSource preact */
/** The order on the counter and its acts, with one filled button for the next. */
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { moneyWords } from "../../crew/words/money.ts";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import {
  claiming,
  ending,
  givingBack,
  handingOver,
  isEnding,
  leavingOut,
  reopening,
  undoingExchange,
  undoingRefund,
  unpaying,
} from "../acts.ts";
import { setTaker } from "../cash.ts";
import { Payment } from "../payment.tsx";
import { isTracked, menuOf, offeredFor, onCounter } from "../shown.ts";
import type { State } from "../state.ts";
import { DiscountTaps } from "./discount.tsx";
import { ENDING_WORDS, EndDialog } from "./ending.tsx";
import { Facts } from "./facts.tsx";
import { Garments } from "./garments.tsx";
import { OrderTag } from "./tag.tsx";
import { Telling } from "./telling.tsx";

type Part = { readonly order: CrewOrderView; readonly state: State; readonly actions: Actions };

function Claim({ order: { number, stage }, state, actions: { send } }: Part) {
  const from = stage === "to-claim" ? "It came from the web and is not in line." : "It came from the web.";
  return (
    <section class="card" aria-labelledby="claim-title">
      <h2 id="claim-title">Not here yet</h2>
      <p>{from} Tap “Is here” when its customer stands here.</p>
      <div class="row">
        <Tap class="main" busy={state.taps.busy} onTap={() => send(claiming(number))}>
          Is here
        </Tap>
        {/* Not asked first: the last tap can be undone. */}
        <Tap busy={state.taps.busy} onTap={() => send(ending(number, "dropped"))}>
          Free its garments
        </Tap>
      </div>
    </section>
  );
}

function Pay({ order: { number, total: all, due }, state, actions: { change, pay } }: Part) {
  const total = due ?? all;
  return (
    <section class="card" aria-labelledby="pay-sum">
      <h2 id="pay-sum">{`To pay: ${moneyWords(total.amount, total.currency)}`}</h2>
      <Payment
        id="given"
        amount={total.amount}
        currency={total.currency}
        typed={state}
        busy={state.taps.busy}
        type={(part) => change((before) => ({ ...before, ...part }))}
        paid={(how, given) => pay(number, how, given)}
      />
      <div>
        <label for="taker">Taken by</label>
        <input
          id="taker"
          autocomplete="off"
          maxLength={20}
          value={state.taker}
          onInput={({ currentTarget: { value } }) => {
            setTaker(value);
            change((before) => ({ ...before, taker: value }));
          }}
        />
      </div>
      <p class="small">The stall notes how it was paid and how much. Card numbers never go in here.</p>
    </section>
  );
}

function HandOver({ order: { number, word }, state, actions: { change, send } }: Part) {
  const { busy } = state.taps;
  return (
    <section class="card" aria-labelledby="hand-title">
      <h2 id="hand-title">{`Hand over ${number}`}</h2>
      <p>Ask for their pickup word. Don’t let them see it.</p>
      <div class="row">
        <Tap id="hand-right" class="main" busy={busy} onTap={() => send(handingOver(number, word))}>
          {`They said “${word}”: hand over`}
        </Tap>
        <Tap onTap={() => change((before) => ({ ...before, wrongWord: true }))}>Wrong word</Tap>
      </div>
      {state.wrongWord ? (
        <div role="alert">
          <p>Do not hand it over yet. Check the number with them, or ask to see their text or tag.</p>
          <Tap busy={busy} onTap={() => send(handingOver(number, null))}>
            Hand over anyway
          </Tap>
        </div>
      ) : null}
    </section>
  );
}

const handed = ({ giveBack, gaveBack }: CrewOrderView): string | null => {
  if (giveBack !== null)
    return `Hand ${moneyWords(giveBack.amount, giveBack.currency)} back to them, then tap here`;
  return gaveBack === null ? null : `Undo: ${moneyWords(gaveBack.amount, gaveBack.currency)} handed back`;
};

export function Order({ state, actions }: Omit<Part, "order">) {
  const found = onCounter(state);
  if (found === null) return null;
  const { order, isSaved } = found;
  const { number, stage } = order;
  const { change, send, next, reveal } = actions;
  const menu = menuOf(state);
  const { busy } = state.taps;
  const { claim, pay, handOver, leaveOut, undo, endings } = offeredFor(order, isTracked(menu));
  const part = { order, state, actions };
  const back = handed(order);
  const isDone = !claim && !pay && !handOver && order.giveBack === null;
  return (
    <div class="stack order">
      <OrderTag order={order} isSaved={isSaved} menu={menu} looks={state.seen?.menu.looks} />
      {state.change === "" || pay ? null : (
        <p class="larger" role="status">
          {state.change}
        </p>
      )}
      {claim ? <Claim {...part} /> : null}
      {pay ? <Pay {...part} /> : null}
      {handOver ? <HandOver {...part} /> : null}
      <div class="row acts">
        {leaveOut === 0 ? null : (
          <Tap busy={busy} onTap={() => send(leavingOut(number))}>
            {`Remove the ${leaveOut} we can’t make`}
          </Tap>
        )}
        {back === null ? null : (
          <Tap busy={busy} onTap={() => send(givingBack(number, order.giveBack === null))}>
            {back}
          </Tap>
        )}
        <Tap id="next-customer" class={isDone ? "main" : undefined} onTap={next}>
          Next customer
        </Tap>
        {(isSaved ? [] : (order.undoable ?? [])).map(({ job, act, name, amount }) => (
          <Tap
            key={`${act} ${job}`}
            busy={busy}
            onTap={() => send(act === "refunded" ? undoingRefund(number, job) : undoingExchange(number, job))}
          >
            {amount === undefined
              ? `Undo: exchanged for ${name}`
              : `Undo: ${moneyWords(amount.amount, amount.currency)} back for ${name}`}
          </Tap>
        ))}
        {undo === null ? null : (
          <Tap
            busy={busy}
            onTap={() => {
              change((before) => ({ ...before, change: "" }));
              send(isEnding(stage) ? reopening(number, stage) : unpaying(number));
            }}
          >
            {`Undo: ${undo}`}
          </Tap>
        )}
      </div>
      <Telling order={order} busy={busy} say={(sentence) => actions.text(number, sentence)} />
      {isSaved ? null : <Garments {...part} />}
      {isSaved ? null : <DiscountTaps {...part} />}
      <Facts order={order} tracked={isTracked(menu)} phone={state.phone} reveal={() => reveal(number)} />
      {/* Open or not, it is the same one for as long as this order is here. */}
      <details key={number} hidden={endings.length === 0}>
        <summary>Cancel, refund or exchange</summary>
        <div id="ends" class="row">
          {endings.map((as) => (
            <Tap key={as} busy={busy} onTap={() => change((before) => ({ ...before, ending: as }))}>
              {ENDING_WORDS[as][0]}
            </Tap>
          ))}
        </div>
      </details>
      {state.ending === null ? null : (
        <EndDialog
          order={order}
          as={state.ending}
          back={() => change((before) => ({ ...before, ending: null }))}
          yes={() => {
            if (state.ending !== null) send(ending(number, state.ending));
            change((before) => ({ ...before, ending: null }));
          }}
        />
      )}
    </div>
  );
}
