/** The order's standing, pinned at the top like the tag that will hang on the garment. */

import { billOf } from "../../../chat/wording/price.ts";
import { spellingOf } from "../../../model/basics/region.ts";
import type { OrderStage, OrderStanding } from "../../../model/orders/order.ts";
import { smsLink } from "../../../texting/sms-link.ts";
import { byId, element, renew } from "../kit/dom.ts";
import type { PageWords } from "./words.ts";

const OVER: ReadonlySet<OrderStage> = new Set([
  "collected",
  "dropped",
  "uncollected",
  "refunded",
  "exchanged",
]);
/** Until a press has it, its customer may cancel an order. */
const CANCELLABLE: ReadonlySet<OrderStage> = new Set(["to-pay", "to-claim", "waiting"]);

type Tools = {
  readonly words: PageWords;
  /** The board's address. */
  readonly board: string;
  readonly say: (text: string) => void;
};

/** Draws tickets; a change of stage is also said aloud once. */
export function ticketDrawer(tools: Tools): (order: OrderStanding | undefined) => void {
  const { words } = tools;
  let shown = "";
  let said = "";
  const face = element("div", { class: "face" });
  const acts = actsOf(tools);
  byId("ticket").append(face, acts.row);
  return (order) => {
    const ticket = byId("ticket");
    ticket.hidden = order === undefined;
    if (order === undefined) return;
    const drawn = JSON.stringify(order);
    if (drawn === shown) return;
    shown = drawn;
    const { number, word, stage, total } = order;
    ticket.className = `ticket ${OVER.has(stage) ? "over" : stage}`;
    renew(face, faceOf(order, words));
    acts.show(order);
    const news = `${words.number} ${number}: ${words.stages(spellingOf(total.currency))[stage]}`;
    if (news === said) return;
    said = news;
    byId("ticket-news").textContent = stage === "ready" ? `${news} ${words.sayWord} ${word}` : news;
  };
}

type Acts = { readonly row: HTMLElement; readonly show: (order: OrderStanding) => void };

/** What can be done with an order: one row that stays the same element, so that a thumb or a key stays on it. */
function actsOf({ words, board, say }: Tools): Acts {
  const row = element("div", { class: "acts" });
  let latest: OrderStanding | null = null;
  let isAsking = false;
  const watch = element("a", { class: "button", href: board }, words.board);
  const button = (label: string, act: () => void, look = ""): HTMLButtonElement =>
    element("button", { type: "button", class: look, onclick: act }, label);
  const cancel = button(words.cancel.button, () => turn(true));
  const keep = button(words.cancel.no, () => turn(false));
  const yes = button(
    words.cancel.yes,
    () => {
      if (latest !== null) say(`${words.cancel.say} ${latest.number}`);
      turn(false);
    },
    "danger",
  );
  const sure = element("p", { role: "status" });

  const draw = (): void => {
    const may = latest !== null && CANCELLABLE.has(latest.stage);
    isAsking &&= may;
    sure.textContent = isAsking ? words.cancel.sure(latest?.number ?? 0) : "";
    const wanted = isAsking ? [sure, keep, yes] : [watch, ...(may ? [cancel] : [])];
    const isSame =
      row.children.length === wanted.length && wanted.every((one, at) => row.children[at] === one);
    if (!isSame) row.replaceChildren(...wanted);
  };
  const turn = (asking: boolean): void => {
    isAsking = asking;
    draw();
    (asking ? keep : cancel.isConnected ? cancel : watch).focus({ preventScroll: true });
  };
  return {
    row,
    show(order) {
      latest = order;
      row.hidden = OVER.has(order.stage);
      draw();
    },
  };
}

function faceOf(order: OrderStanding, words: PageWords): readonly Element[] {
  const { number, word, place, quoteMinutes, stage, toBeTold, total, tax, taxInPrice, paused } = order;
  const heading = element(
    "h2",
    { id: "ticket-number" },
    element("span", { class: "ticket-label" }, words.number),
    " ",
    element("span", { class: "number-big" }, String(number)),
  );
  const waits = stage === "waiting" || stage === "pressing";
  const stages = words.stages(spellingOf(total.currency));
  const where = stage === "waiting" && place > 0 ? words.place(place) : stages[stage];
  const told = element(
    "div",
    { class: "told" },
    element("p", { class: "stage" }, where),
    waits ? element("p", { class: "wait" }, words.wait(quoteMinutes, paused)) : null,
  );
  if (OVER.has(stage)) return [heading, told];
  const secret = element(
    "p",
    { class: "word" },
    element("span", {}, stage === "ready" ? words.sayWord : words.word),
    " ",
    element("strong", {}, word),
  );
  const sums = billOf(total, { total: total.amount, tax: tax.amount, taxInPrice });
  return [
    heading,
    told,
    ...(paused ? [element("p", { class: "paused" }, words.paused)] : []),
    secret,
    element("p", { class: "bill" }, words.bill(sums)),
    ...(toBeTold === undefined
      ? []
      : [
          element(
            "p",
            { class: "by-text" },
            `${words.byText} `,
            element(
              "a",
              { href: smsLink(toBeTold.to, toBeTold.text) },
              words.textTo(toBeTold.text, toBeTold.to),
            ),
          ),
        ]),
  ];
}
