/** @jsxImportSource preact */
/** The open orders as rows: one list at a time, or what fits what was typed. A poll moves no row. */
import type { QueueView } from "../../../../model/orders/queue.ts";
import { timeOfDay } from "../../crew/words/clock.ts";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { rackOf } from "../rack/on-rack.ts";
import { Rack } from "../rack/rack.tsx";
import { isTracked, menuOf, ordersOf, type Row, rowsOf } from "../shown.ts";
import { listing, type State } from "../state.ts";
import { garmentsIn, isOn, LISTS, type List } from "./lists.ts";

type Props = { readonly state: State; readonly actions: Actions };

const LIST_WORDS: Readonly<Record<List, readonly [name: string, empty: string]>> = {
  "to-fetch": ["To fetch", "Nothing is ready."],
  "to-call-out": ["To call out", "Nobody has to be called out."],
  "to-pay": ["To pay", "Everything is paid."],
  "not-here": ["Not here yet", "No web order waits for its customer."],
  all: ["All", "No order is open."],
  rack: ["Rack", "Nothing hangs on the rack."],
};

function OrderRow({ row, state, open }: { row: Row; state: State; open: (number: number) => void }) {
  const { order, standing, callOut, stage, money } = row;
  const { number, name, phone, lines } = order;
  const foot = [money, name, phone === null ? null : `…${phone}`].filter((part) => part !== null);
  const kind = standing === "listed" ? (order.stage === "ready" ? " ready" : "") : " gone";
  const [first] = lines;
  return (
    <button type="button" class={`order-row hole${kind}`} onClick={() => open(number)}>
      <span class="row-look" aria-hidden="true">
        {first === undefined ? null : (
          <Garment
            look={state.seen?.menu.looks?.[first.offer]}
            colour={first.colour}
            size={first.size}
            named
          />
        )}
      </span>
      <span class="row-number larger">{number}</span>
      <span class={callOut ? "row-stage strong needs-you" : "row-stage strong"}>{stage}</span>
      <span class="row-what strong"> {garmentsIn(order, menuOf(state))} </span>
      <span class="row-foot">{foot.map((part) => ` ${part}`).join(" ·")}</span>
    </button>
  );
}

/** Shown while orders from the web wait for their customers, or are let in without limit. */
function Lifted({ queue, lift }: { queue: QueueView; lift: Actions["lift"] }) {
  // A view that an earlier version of the page kept has no such list.
  const { unclaimed = [], claimsLiftedUntil = null } = queue as Partial<QueueView>;
  if (unclaimed.length === 0 && claimsLiftedUntil === null) return null;
  return (
    <div class="row">
      <p class="small" role="status">
        {claimsLiftedUntil === null
          ? "Web orders whose customers are not here yet hold garments."
          : `Web orders are not limited until ${timeOfDay(claimsLiftedUntil)}.`}
      </p>
      <Tap id="lift-claims" onTap={() => lift(claimsLiftedUntil === null ? 60 : null)}>
        {claimsLiftedUntil === null ? "No limit on web orders for an hour" : "Limit web orders again"}
      </Tap>
    </div>
  );
}

export function OpenList({ state, actions }: Props) {
  const menu = menuOf(state);
  const tracked = isTracked(menu);
  const orders = ordersOf(state);
  const rows = rowsOf(state);
  const typed = state.find.trim();
  const garments = rackOf(state).length;
  const count = (list: List): number =>
    list === "rack" ? garments : orders.filter((order) => isOn(list, order, tracked)).length;
  const isRack = typed === "" && state.list === "rack";
  return (
    <section class="stack open-list" aria-label="Open orders">
      <fieldset class="row even" aria-label="Which orders">
        {LISTS.filter((list) => list !== "to-pay" || menu === null || tracked).map((list) => (
          <Tap
            key={list}
            pressed={typed === "" && state.list === list}
            onTap={() => actions.change((before) => listing(before, list))}
          >
            {`${LIST_WORDS[list][0]} ${count(list)}`}
          </Tap>
        ))}
      </fieldset>
      <div class="stack tight">
        {rows.map((row) => (
          <OrderRow key={row.order.number} row={row} state={state} open={actions.open} />
        ))}
      </div>
      {isRack ? <Rack state={state} actions={actions} /> : null}
      <p role="status">
        {rows.length > 0 || (isRack && garments > 0)
          ? ""
          : typed === ""
            ? LIST_WORDS[state.list][1]
            : `No open order fits “${typed}”.`}
      </p>
      {state.more === 0 ? null : (
        <p class="small">{`${state.more} older orders are not listed: find them by number.`}</p>
      )}
      {state.seen === null ? null : <Lifted queue={state.seen.queue} lift={actions.lift} />}
    </section>
  );
}
