/** The order's standing, pinned at the top like the tag that will hang on the garment. */
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

/** Draws tickets; a change of stage is also said aloud once. */
export function ticketDrawer(words: PageWords): (order: OrderStanding | undefined) => void {
  let shown = "";
  let said = "";
  return (order) => {
    const ticket = byId("ticket");
    ticket.hidden = order === undefined;
    if (order === undefined) return;
    const drawn = JSON.stringify(order);
    if (drawn === shown) return;
    shown = drawn;
    const { number, word, stage } = order;
    ticket.className = `ticket ${OVER.has(stage) ? "over" : stage}`;
    renew(ticket, faceOf(order, words));
    const news = `${words.number} ${number}: ${words.stages[stage]}`;
    if (news === said) return;
    said = news;
    byId("ticket-news").textContent = stage === "ready" ? `${news} ${words.sayWord} ${word}` : news;
  };
}

function faceOf(
  { number, word, place, quoteMinutes, stage, toBeTold }: OrderStanding,
  words: PageWords,
): readonly Element[] {
  const heading = element(
    "h2",
    { id: "ticket-number" },
    element("span", { class: "ticket-label" }, words.number),
    " ",
    element("span", { class: "number-big" }, String(number)),
  );
  const waits = stage === "waiting" || stage === "pressing";
  const where = stage === "waiting" && place > 0 ? words.place(place) : words.stages[stage];
  const told = [
    element("p", { class: "stage" }, where),
    waits ? element("p", { class: "wait" }, words.wait(quoteMinutes)) : null,
  ].filter((part) => part !== null);
  if (OVER.has(stage)) return [heading, element("div", { class: "told" }, ...told)];
  const secret = element(
    "p",
    { class: "word" },
    element("span", {}, stage === "ready" ? words.sayWord : words.word),
    " ",
    element("strong", {}, word),
  );
  const line =
    toBeTold === undefined
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
        ];
  return [heading, element("div", { class: "told" }, ...told), secret, ...line];
}
