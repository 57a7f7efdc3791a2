/** @jsxImportSource preact */
/** The counter: polls the queue for what is ready, keeps the menu fresh, and sends what the crew keys in. */

import { nanoid } from "nanoid";
import { render } from "preact";
import type { DrawerView } from "../../../model/accounts/drawer.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { CrewOrderView, PlacedOrder } from "../../../model/orders/order.ts";
import type { QueueView } from "../../../model/orders/queue.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { keepPages } from "../crew/keep-pages.ts";
import { lastLook } from "../crew/last-look.ts";
import { refuseCardNumbers } from "../crew/no-cards.ts";
import { otherTaps } from "../crew/offline.ts";
import { organiserPart } from "../crew/organiser-part.tsx";
import { sender } from "../crew/sender.ts";
import { detailOf } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { spellAs } from "../kit/spelling.ts";
import { stallClock } from "../kit/stall-clock.ts";
import { newOrderChime } from "../sound/new-orders.ts";
import type { Actions, DrawerAct } from "./actions.ts";
import { type Act, paying, placing } from "./acts.ts";
import { changeWords, type Paying, takerName } from "./cash.ts";
import { counterNumbers } from "./numbers.ts";
import { garmentsIn, toOpen } from "./open/lists.ts";
import { knownOrders } from "./open/open-orders.ts";
import { menuOf, ordersOf, savedOrder, withRows } from "./shown.ts";
import {
  firstState,
  heardOf,
  nextCustomer,
  opened,
  type Seen,
  type State,
  slipTaken,
  turnedTo,
} from "./state.ts";
import { orderOf } from "./take/slip.ts";
import { Counter } from "./view.tsx";

/** While a customer may be texting the order's line, every n-th poll of the queue also asks for the order. */
const LOOKS_FOR_A_TEXT = 5;

const bodyOf = ({ type: _, ...body }: DrawerAct): object => body;

function run({ api, place }: Crew): void {
  let state = firstState(takerName() ?? "");
  let tag: string | null = null;
  let taking = false;
  let looks = 0;
  const root = byId("counter");
  const kept = lastLook<Seen>(`counter ${place}`);
  const known = knownOrders(api, place);
  const showOrganiser = organiserPart(api);
  const clock = stallClock();
  const numbers = counterNumbers(api, place);
  const own = new Set<number>();
  const chime = newOrderChime((number) => own.has(number));

  function change(to: (before: State) => State): void {
    state = withRows(to(state));
    if (state.seen !== null) spellAs(state.seen.menu.currency);
    render(<Counter state={state} actions={actions} />, root);
  }

  /** Updates the state from the sender and the list of orders. */
  function refresh(): void {
    const now = clock.now();
    change((before) => ({
      ...before,
      orders: known.all(),
      more: known.more(),
      now: now === null ? null : Date.parse(now),
      taps: { acts: writes.ahead(), book: writes.book(), busy: taking || writes.busy(), lost: writes.lost() },
    }));
  }

  /** The top of an order that was just opened is where the eye is; a screen reader begins there. */
  function showOrder(order: CrewOrderView, justTaken = false): void {
    notice(null);
    if (justTaken) own.add(order.number);
    known.saw(order);
    change((before) => opened({ ...before, orders: known.all() }, order, justTaken));
    const orderTag = byId("order-tag");
    orderTag.scrollIntoView({ block: "nearest" });
    orderTag.focus({ preventScroll: true });
  }

  const writes = sender<Act>({
    api,
    place,
    page: "counter",
    changed: refresh,
    listed: otherTaps,
    held: ({ act, says }) => {
      if (act.type !== "place") return;
      change((before) => slipTaken(before, act.paper));
      const number = act.numbered?.number;
      const saved =
        number === undefined
          ? null
          : savedOrder({ ...state, taps: { ...state.taps, book: writes.book() } }, number);
      if (saved !== null) return showOrder(saved, true);
      notice(
        `Kept: ${says}.${act.paper === null ? " It gets its number when the signal is back: note their name." : ""}`,
      );
    },
    answered: ({ act }, reply, late) => {
      if (!late) notice(reply.status >= 400 ? detailOf(reply) : null);
      if (reply.status < 400 && act.type === "order") {
        const order = reply.body as CrewOrderView; // as the routes document
        // What was exchanged after it was handed over is made in an order of its own.
        if (order.number === act.number) heard(order);
        else void open(order.number);
      }
      if (reply.status < 400 && act.type === "place" && !late) {
        change((before) => slipTaken(before, act.paper));
        void open((reply.body as PlacedOrder).number, true); // as the route documents
      }
      polling.now();
    },
  });

  function heard(order: CrewOrderView): void {
    known.saw(order);
    change((before) => heardOf({ ...before, orders: known.all() }, order));
  }

  /** Numbers the order, and keeps it: both before anything else can be tapped. */
  async function take(how: Paying | null, given: number | null): Promise<void> {
    if (taking || writes.busy()) return;
    const menu = menuOf(state);
    const asked = orderOf(state.slip, menu, how, takerName(), new Date());
    if (typeof asked === "string" || menu === null)
      return change((before) => ({ ...before, slip: { ...before.slip, missing: String(asked) } }));
    const { wanted, taken } = asked;
    taking = true;
    change((before) => ({
      ...before,
      slip: { ...before.slip, missing: "" },
      change: changeWords(given, taken.total + (how?.tip ?? 0), menu.currency),
    }));
    refresh();
    const block = wanted.paper === undefined ? await numbers.take() : null;
    writes.send(placing(wanted, { taken, block, takenAt: clock.now(), late: writes.lost() }));
    taking = false;
    refresh();
  }

  /** Opens an order at once as this tablet last saw it, and as the stall has it as soon as that is known. */
  async function open(number: number, justTaken = false): Promise<void> {
    const saved = savedOrder(state, number);
    if (saved !== null) return showOrder(saved, justTaken);
    const seenLast = known.find(number);
    if (seenLast !== null) showOrder(seenLast, justTaken);
    const reply = writes.lost() ? null : await api(`/orders/${number}/whole`);
    const isUnheard = reply === null || reply.status === 0;
    if (isUnheard && seenLast === null)
      return notice(`No signal, and this tablet has not seen order ${number} as open.`);
    if (isUnheard) return notice(`No signal: order ${number} as this tablet last saw it.`);
    if (reply.status !== 200) return notice(detailOf(reply));
    if (seenLast === null)
      showOrder(reply.body as CrewOrderView, justTaken); // as the route documents
    else heard(reply.body as CrewOrderView); // as above
  }

  function find(): void {
    const found = toOpen(ordersOf(state), (order) => garmentsIn(order, menuOf(state)), state.find);
    if (found.type === "one") return void open(found.number);
    const findSaid =
      found.type === "several"
        ? `${found.count} orders fit. Tap one below.`
        : "No open order fits that. One that is closed is found by its number.";
    return change((before) => ({ ...before, findSaid }));
  }

  const actions: Actions = {
    pressPage: `/crew/${pageData("fair")}/${pageData("stall")}`,
    change,
    send: (write) => {
      notice(null);
      writes.send(write);
    },
    take: (how, given) => void take(how, given),
    pay: (number, how, given) => {
      const total = state.order?.number === number ? (state.order.due ?? state.order.total) : null;
      if (total !== null)
        change((before) => ({
          ...before,
          change: changeWords(given, total.amount + (how.tip ?? 0), total.currency),
        }));
      actions.send(paying(number, how, new Date().toISOString(), takerName()));
    },
    open: (number) => void open(number),
    find,
    turnTo: (view) => {
      notice(null);
      change((before) => turnedTo(before, view));
      if (view === "desk") polling.now();
    },
    next: () => {
      notice(null);
      change(nextCustomer);
      scrollTo({ top: 0 });
      byId(state.view === "take" ? "to-take" : "find").focus();
    },
    reveal: (number) =>
      void api(`/orders/${number}/phone`).then((reply) => {
        if (reply.status !== 200) return notice(detailOf(reply));
        const { phone } = reply.body as { phone: string | null }; // as the route documents
        return change((before) => (before.order?.number === number ? { ...before, phone } : before));
      }),
    text: (number, say) =>
      void api(`/orders/${number}/texted`, { method: "POST", body: { say }, once: nanoid() }).then(
        (reply) => {
          notice(reply.status === 200 ? null : detailOf(reply));
          if (reply.status === 200) heard(reply.body as CrewOrderView); // as the route documents
        },
      ),
    drawer: (act) =>
      void (
        act === null
          ? api("/drawer")
          : api(`/drawer/${act.type}`, { method: "POST", body: bodyOf(act), once: nanoid() })
      ).then((reply) => {
        if (reply.status !== 200) return notice(detailOf(reply));
        notice(null);
        return change((before) => ({ ...before, drawer: reply.body as DrawerView | null })); // as the routes document
      }),
    confirmationsSeen: () => writes.confirmationsSeen(),
    lift: (minutes) =>
      void api("/lift-claims", { method: "POST", body: { minutes }, once: nanoid() }).then((reply) => {
        notice(reply.status === 200 ? null : detailOf(reply));
        polling.now();
      }),
  };

  /** A text that binds a number to the order on the counter is no news of the queue. */
  async function lookAtOrder(isNews: boolean): Promise<void> {
    const { order } = state;
    if (order === null) return;
    looks += 1;
    if (!isNews && (order.toBeTold === undefined || looks % LOOKS_FOR_A_TEXT > 0)) return;
    const reply = await api(`/orders/${order.number}/whole`);
    if (reply.status === 200) heard(reply.body as CrewOrderView); // as the route documents
  }

  async function look(): Promise<boolean> {
    const looked = writes.looking();
    const reply = await api("/queue", { have: tag });
    writes.heard(reply.status !== 0);
    if (reply.status === 0) return false;
    if (keyRefused(reply) || reply.status >= 400) {
      notice(detailOf(reply));
      return true;
    }
    if (reply.status !== 304) {
      const whole = menuOf(state) ?? (await wholeMenu(api));
      const [menu, stock] = [await api("/menu"), await api("/stock")];
      if (menu.status !== 200 || stock.status !== 200 || whole === null) return false;
      tag = reply.tag;
      const seen: Seen = {
        queue: reply.body as QueueView,
        menu: menu.body as MenuView,
        stock: stock.body as StockView,
        whole,
      }; // as the routes document
      showOrganiser(seen.queue);
      chime(seen.queue.newest);
      change((before) => ({ ...before, seen }));
      clock.heard(reply.date ?? Date.parse(seen.queue.asOf));
    }
    await lookAtOrder(reply.status !== 304);
    const { seen } = state;
    if (seen !== null) await known.look(seen.queue.version, state.view === "desk");
    looked();
    await numbers.fill();
    if (seen !== null) kept.keep(seen);
    refresh();
    return true;
  }

  refresh();
  setInterval(refresh, 1000);
  const polling = poll({ everySeconds: 2, look });
  void Promise.all([kept.read(), known.restore()]).then(([found]) => {
    if (found === null || state.seen !== null) return;
    change((before) => ({ ...before, seen: found.view }));
    polling.heardBefore(found.at);
    refresh();
  });
}

const crew = openCrew();
if (crew !== null) {
  refuseCardNumbers();
  run(crew);
  void keepPages();
}
