/** The counter: polls the queue for what is ready, keeps the menu fresh, and sends what the crew keys in. */
import type { Menu } from "../../model/catalogue.ts";
import type { MenuView } from "../../model/menu-view.ts";
import type { CrewOrderView, PlacedOrder, QueueView } from "../../model/order.ts";
import { type Act, placing } from "./counter/acts.ts";
import { desk } from "./counter/desk.ts";
import { pad } from "./counter/pad.ts";
import { slip } from "./counter/slip.ts";
import { type Crew, keyRefused, notice, openCrew, wholeMenu } from "./crew/crew.ts";
import { refuseCardNumbers } from "./crew/no-cards.ts";
import { sender } from "./crew/sender.ts";
import { detailOf } from "./kit/api.ts";
import { byId, element } from "./kit/dom.ts";
import { poll } from "./kit/poll.ts";

const BUSY = "#place, #add, #undo, #hand-over button, #pay button, #ends button";

function turnTo(view: "take" | "desk"): void {
  for (const name of ["take", "desk"]) {
    byId(name).hidden = name !== view;
    byId(`to-${name}`).setAttribute("aria-pressed", String(name === view));
  }
}

function run({ api, place }: Crew): void {
  let whole: Menu | null = null;
  let tag: string | null = null;

  const writes = sender<Act>({
    api,
    keep: `unsent counter ${place}`,
    changed: () => {
      for (const button of document.querySelectorAll<HTMLButtonElement>(BUSY))
        button.disabled = writes.busy();
    },
    answered: ({ act }, reply) => {
      notice(reply.status >= 400 ? detailOf(reply) : null);
      if (reply.status < 400 && act.type === "place") {
        order.clear(act.paper);
        void openOrder((reply.body as PlacedOrder).number); // as the route documents
      } else if (reply.status < 400) onDesk.show(reply.body as CrewOrderView); // as the routes document
      polling.now();
    },
  });
  const order = slip(
    () => whole,
    (wanted) => writes.send(placing(wanted)),
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

  async function openOrder(number: number): Promise<void> {
    const reply = await api(`/orders/${number}/whole`);
    notice(reply.status === 200 ? null : detailOf(reply));
    if (reply.status !== 200) return;
    onDesk.show(reply.body as CrewOrderView); // as the route documents
    turnTo("desk");
    byId("order-tag").scrollIntoView({ block: "start" });
  }

  function showReady({ ready, counts }: QueueView): void {
    byId("ready").replaceChildren(
      ...(ready.length === 0 ? ["Nothing is ready."] : []),
      ...ready.map((number) =>
        element("button", { type: "button", onclick: () => void openOrder(number) }, String(number)),
      ),
    );
    const more = counts.ready - ready.length;
    byId("ready-more").textContent =
      more > 0 ? `and ${more} that were ready earlier: find them by number` : "";
  }

  function showClosed({ open, paused }: MenuView): void {
    byId("closed").hidden = open && !paused;
    byId("closed").textContent = paused
      ? "Paused: no orders by text or on the web. The counter can still take them."
      : "Closed: no orders by text or on the web. The counter can still take them.";
  }

  async function look(): Promise<boolean> {
    const reply = await api("/queue", { have: tag });
    if (reply.status === 0) return false;
    if (keyRefused(reply) || reply.status >= 400) {
      notice(detailOf(reply));
      return true;
    }
    writes.again();
    if (reply.status === 304) return true;
    whole ??= await wholeMenu(api);
    const menu = await api("/menu");
    if (menu.status !== 200 || whole === null) return false;
    tag = reply.tag;
    showReady(reply.body as QueueView); // as the route documents
    showClosed(menu.body as MenuView); // as the route documents
    onPad.show(menu.body as MenuView); // as the route documents
    order.show();
    const shown = onDesk.number();
    if (shown !== null) {
      const now = await api(`/orders/${shown}/whole`);
      if (now.status === 200 && onDesk.number() === shown) onDesk.show(now.body as CrewOrderView); // as documented
    }
    return true;
  }

  byId("to-take").addEventListener("click", () => turnTo("take"));
  byId("to-desk").addEventListener("click", () => turnTo("desk"));
  byId("find-form").addEventListener("submit", (event) => {
    event.preventDefault();
    const find = byId<HTMLInputElement>("find");
    const number = Number(find.value.trim());
    if (!Number.isInteger(number) || number < 100)
      return notice("Type the pickup number, three digits or more.");
    find.value = "";
    void openOrder(number);
    return undefined;
  });
  const polling = poll({ everySeconds: 2, look });
}

const crew = openCrew();
if (crew !== null) {
  refuseCardNumbers();
  run(crew);
}
