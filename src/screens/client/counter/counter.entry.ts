/** The counter: polls the queue for what is ready, keeps the menu fresh, and sends what the crew keys in. */
import { nanoid } from "nanoid";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { OpenOrder } from "../../../model/orders/open-orders.ts";
import type { CrewOrderView, PlacedOrder, QueueView } from "../../../model/orders/order.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { keepPages } from "../crew/keep-pages.ts";
import { lastLook } from "../crew/last-look.ts";
import { refuseCardNumbers } from "../crew/no-cards.ts";
import { leftAfter, otherTaps, savedOrders, type Taken } from "../crew/offline.ts";
import { sender } from "../crew/sender.ts";
import { showRest } from "../crew/words/texts-rest.ts";
import { detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { poll } from "../kit/poll.ts";
import { stallClock } from "../kit/stall-clock.ts";
import { type Act, keeping, paying, placing, type Wanted } from "./acts.ts";
import { takerName } from "./cash.ts";
import { desk } from "./desk.ts";
import { counterNumbers } from "./numbers.ts";
import { withTapsOn } from "./on-order.ts";
import { isLifted, showLifted } from "./open/lifted.ts";
import { garmentsIn, toOpen } from "./open/lists.ts";
import { knownOrders } from "./open/open-orders.ts";
import { orderList } from "./open/order-list.ts";
import { aboutToDrop, showUnpaid } from "./open/unpaid.ts";
import { pad } from "./pad.ts";
import { asOrder, savedPanel } from "./saved.ts";
import { slip } from "./slip.ts";

const BUSY = "#take-it button, #add, #undo, #hand-over button, #pay button, #ends button";

type View = "take" | "desk";

function turnTo(view: View): void {
  for (const name of ["take", "desk"]) {
    byId(name).hidden = name !== view;
    byId(`to-${name}`).setAttribute("aria-pressed", String(name === view));
  }
}

/** All that the page shows besides the order on the counter. */
type Seen = {
  readonly queue: QueueView;
  readonly menu: MenuView;
  readonly whole: Menu;
  /** Absent in what an earlier version of the page kept. */
  readonly stock?: StockView | null;
};

function run({ api, place }: Crew): void {
  let whole: Menu | null = null;
  let tag: string | null = null;
  // As the stall had them when it was last looked at; what was tapped since is put on top.
  let seen: Seen | null = null;
  let onCounter: CrewOrderView | null = null;
  const kept = lastLook<Seen>(`counter ${place}`);
  const known = knownOrders(api, place);
  const list = orderList((number) => void openOrder(number));
  const clock = stallClock();
  const numbers = counterNumbers(api, place);
  let taking = false;

  const writes = sender<Act>({
    api,
    place,
    page: "counter",
    changed: () => showTapped(),
    listed: otherTaps,
    held: ({ act, says }) => {
      if (act.type !== "place") return;
      order.clear(act.paper);
      if (act.numbered !== undefined) return showSaved(act.numbered.number);
      const number =
        act.paper === null ? " It gets its number when the signal is back: note their name." : "";
      notice(`Kept: ${says}.${number}`);
    },
    answered: ({ act }, reply, late) => {
      if (!late) notice(reply.status >= 400 ? detailOf(reply) : null);
      if (reply.status < 400 && act.type === "order") showOrder(reply.body as CrewOrderView); // as the routes document
      if (reply.status < 400 && act.type === "place" && !late) {
        order.clear(act.paper);
        void openOrder((reply.body as PlacedOrder).number); // as the route documents
      }
      polling.now();
    },
  });
  const order = slip(
    () => whole,
    (wanted, taken) => void take(wanted, taken),
  );
  const onPad = pad(order.add);
  const onDesk = desk(
    () => whole,
    writes.send,
    async (number) => {
      const reply = await api(`/orders/${number}/phone`);
      notice(reply.status === 200 ? null : detailOf(reply));
      return reply.status === 200 ? (reply.body as { phone: string | null }).phone : null; // as the route documents
    },
  );

  /** Numbers the order, and keeps it: both before anything else can be tapped. */
  async function take(wanted: Wanted, taken: Taken): Promise<void> {
    if (taking || writes.busy()) return;
    taking = true;
    showTapped();
    const block = wanted.paper === undefined ? await numbers.take() : null;
    writes.send(placing(wanted, { taken, block, takenAt: clock.now(), late: writes.lost() }));
    taking = false;
    showTapped();
  }

  const savedOrder = (number: number): CrewOrderView | null => {
    const saved = savedOrders(writes.book()).find(({ act }) => act.numbered?.number === number);
    return saved === undefined || whole === null ? null : asOrder(saved, whole);
  };

  /** Shows an order that only this tablet knows yet. */
  function showSaved(number: number): void {
    const found = savedOrder(number);
    if (found === null) return;
    notice(null);
    onCounter = found;
    showTapped();
    turnTo("desk");
    byId("order-tag").scrollIntoView({ block: "start" });
  }
  const saved = savedPanel(
    () => whole,
    showSaved,
    () => writes.confirmationsSeen(),
  );

  /** Shows an order as the stall has just told it; another one than is on the counter only where asked for. */
  function showOrder(now: CrewOrderView, ask = false): void {
    known.saw(now);
    if (!ask && onCounter?.number !== now.number) return;
    onCounter = now;
    showTapped();
  }

  /** The open orders with what was tapped since, and those that only this tablet knows. */
  function openNow(acts: readonly Act[]): readonly OpenOrder[] {
    const only = savedOrders(writes.book()).flatMap((saved) => (whole && asOrder(saved, whole)) ?? []);
    const numbers = new Set(only.map(({ number }) => number));
    const orders = known.all().filter(({ number }) => !numbers.has(number));
    return [...orders, ...only].map((order) => withTapsOn(order, acts));
  }

  function showTapped(): void {
    const acts = writes.ahead();
    const book = writes.book();
    list.show({ orders: openNow(acts), menu: whole, more: known.more() });
    if (seen !== null) {
      showRest(seen.queue);
      showLifted(seen.queue);
      onPad.show(leftAfter(seen.menu, seen.whole, seen.stock ?? null, acts));
    }
    announce();
    saved.show({ orders: savedOrders(book), confirmed: book.confirmed ?? [], lost: writes.lost() });
    byId("stock-age").hidden = !writes.lost();
    if (onCounter !== null) {
      const isSaved = savedOrders(book).some(({ act }) => act.numbered?.number === onCounter?.number);
      onDesk.show(withTapsOn(onCounter, acts), isSaved);
    }
    const busy = taking || writes.busy();
    for (const button of document.querySelectorAll<HTMLButtonElement>(BUSY)) button.disabled = busy;
  }

  function announce(): void {
    if (seen === null) return;
    const now = clock.now();
    const rows = now === null ? [] : aboutToDrop(seen.queue, writes.ahead(), Date.parse(now));
    showUnpaid(rows, {
      paid: (number, tender) => writes.send(paying(number, tender, new Date().toISOString(), takerName())),
      keep: (number) => writes.send(keeping(number)),
    });
  }

  /** Opens an order at once as this tablet last saw it, and as the stall has it as soon as that is known. */
  async function openOrder(number: number): Promise<void> {
    endFind();
    if (savedOrder(number) !== null) return showSaved(number);
    const seenLast = known.find(number);
    if (seenLast !== null) onTheDesk(seenLast);
    const reply = writes.lost() ? null : await api(`/orders/${number}/whole`);
    const isUnheard = reply === null || reply.status === 0;
    if (isUnheard && seenLast === null)
      return notice(`No signal, and this tablet has not seen order ${number} as open.`);
    if (isUnheard) return notice(`No signal: order ${number} as this tablet last saw it.`);
    if (reply.status !== 200) return notice(detailOf(reply));
    if (seenLast === null)
      onTheDesk(reply.body as CrewOrderView); // as the route documents
    else showOrder(reply.body as CrewOrderView); // as above
  }

  function onTheDesk(order: CrewOrderView): void {
    notice(null);
    showOrder(order, true);
    turnTo("desk");
    byId("order-tag").scrollIntoView({ block: "start" });
  }

  function showClosed({ open, paused }: MenuView): void {
    byId("closed").hidden = open && !paused;
    byId("closed").textContent = paused
      ? "Paused: no orders by text or on the web. The counter can still take them."
      : "Closed: no orders by text or on the web. The counter can still take them.";
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
      whole ??= await wholeMenu(api);
      const [menu, stock] = [await api("/menu"), await api("/stock")];
      if (menu.status !== 200 || stock.status !== 200 || whole === null) return false;
      tag = reply.tag;
      seen = {
        queue: reply.body as QueueView,
        menu: menu.body as MenuView,
        stock: stock.body as StockView,
        whole,
      }; // as the routes document
      clock.heard(reply.date ?? Date.parse(seen.queue.asOf));
      const shown = onCounter?.number;
      const now = shown === undefined ? null : await api(`/orders/${shown}/whole`);
      if (now?.status === 200) showOrder(now.body as CrewOrderView); // as the route documents
    }
    if (seen !== null && (await known.look(seen.queue.version, !byId("desk").hidden))) showTapped();
    looked();
    await numbers.fill();
    if (seen !== null) kept.keep(seen);
    if (reply.status !== 304) show();
    return true;
  }

  function show(): void {
    if (seen === null) return;
    showClosed(seen.menu);
    order.show();
    showTapped();
  }

  byId("lift-claims").addEventListener("click", () => {
    const lifted = isLifted(seen?.queue ?? null);
    const body = { minutes: lifted ? null : 60 };
    void api("/lift-claims", { method: "POST", body, once: nanoid() }).then((reply) => {
      notice(reply.status === 200 ? null : detailOf(reply));
      polling.now();
    });
  });
  byId("to-take").addEventListener("click", () => turnTo("take"));
  byId("to-desk").addEventListener("click", () => {
    turnTo("desk");
    list.settle();
    polling.now();
  });
  const find = byId<HTMLInputElement>("find");
  function endFind(): void {
    find.value = "";
    list.type("");
    byId("find-said").textContent = "";
  }
  find.addEventListener("input", () => {
    byId("find-said").textContent = "";
    if (find.value.trim() !== "") turnTo("desk");
    list.type(find.value);
  });
  byId("find-form").addEventListener("submit", (event) => {
    event.preventDefault();
    const orders = openNow(writes.ahead());
    const found = toOpen(orders, (order) => garmentsIn(order, whole), find.value);
    if (found.type === "one") return void openOrder(found.number);
    byId("find-said").textContent =
      found.type === "several"
        ? `${found.count} orders fit. Tap one below.`
        : "No open order fits that. One that is closed is found by its number.";
    return undefined;
  });
  setInterval(announce, 1000);
  const polling = poll({ everySeconds: 2, look });
  void Promise.all([kept.read(), known.restore()]).then(([found]) => {
    if (found === null || seen !== null) return;
    seen = found.view;
    whole = seen.whole;
    polling.heardBefore(found.at);
    show();
  });
}

const crew = openCrew();
if (crew !== null) {
  refuseCardNumbers();
  run(crew);
  void keepPages();
}
