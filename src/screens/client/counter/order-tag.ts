/** One order as the tag that hangs on it: the number to write large, and the word to ask for. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import { timeOfDay } from "../crew/words/clock.ts";
import { moneyWords } from "../crew/words/money.ts";
import { choiceName } from "../crew/words/names.ts";
import { byId, element } from "../kit/dom.ts";
import { isEnding, STAGE_WORDS } from "./acts.ts";

const field = (label: string, value: string, kind = ""): HTMLElement =>
  element("div", { class: `field ${kind}` }, element("dt", {}, label), element("dd", {}, value));

const TOLD: Readonly<Record<CrewOrderView["told"], string>> = {
  nothing: "gets a message when it is ready",
  waiting: "the message is about to go out",
  sent: "was told it is ready",
  delivered: "was told it is ready, and the text arrived",
  failed: "could not be reached: call the number out",
  "opted-out": "wants no texts: call the number out",
  "call-out": "call the number out when it is ready",
};

function stands({ stage, place, quoteMinutes, jobs }: CrewOrderView): string {
  const short = jobs.filter((job) => job.stage === "short").length;
  const done = jobs.filter((job) => job.stage === "pressed").length;
  const parts = [STAGE_WORDS[stage]];
  // Without signal its place and its wait are not known.
  if (place > 0 && (stage === "waiting" || stage === "pressing"))
    parts.push(`place ${place}, about ${quoteMinutes} min`);
  if (done > 0 && stage === "pressing") parts.push(`${done} of ${jobs.length} pressed`);
  if (short > 0) parts.push(`${short} short: no blank or transfer`);
  return parts.join(", ");
}

const savedWords = ({ stage }: CrewOrderView): string =>
  stage === "waiting" ? "saved on this tablet, not at the stall yet" : STAGE_WORDS[stage];

function money(order: CrewOrderView): readonly HTMLElement[] {
  const { total, tax, paid } = order;
  const words = moneyWords(total.amount, total.currency);
  const sum = tax.amount === 0 ? words : `${words}, ${moneyWords(tax.amount, tax.currency)} of it sales tax`;
  const forLeftOut = (label: string, sum: CrewOrderView["giveBack"]): readonly HTMLElement[] =>
    sum === null
      ? []
      : [field(label, `${moneyWords(sum.amount, sum.currency)} for what was left out`, "wide")];
  return [
    ...forLeftOut("Give back", order.giveBack),
    ...forLeftOut("Handed back", order.gaveBack),
    field("Total", sum, "wide"),
    field(
      "Payment",
      paid === null
        ? "not paid"
        : `${moneyWords(paid.amount.amount, paid.amount.currency)} by ${paid.tender}, ${order.paidTo === null ? "" : `to ${order.paidTo}, `}${timeOfDay(paid.at)}`,
    ),
  ];
}

/** Asks for a customer's whole number; null where it cannot be had. */
export type Reveal = (order: number) => Promise<string | null>;

/** Who it is for: of the number only its end, and the whole of it at a tap. */
function forWhom({ number, name, phone }: CrewOrderView, reveal: Reveal): HTMLElement | null {
  if (name === null && phone === null) return null;
  if (phone === null) return field("For", name ?? "", "wide");
  const end = element("span", {}, phone);
  const show = element(
    "button",
    {
      type: "button",
      onclick: () => {
        void reveal(number).then((whole) => {
          if (whole !== null) end.textContent = whole;
          show.hidden = whole !== null;
        });
      },
    },
    "Show number",
  );
  const told = element("dd", {}, name === null ? null : `${name}, `, end, " ", show);
  return element("div", { class: "field wide" }, element("dt", {}, "For"), told);
}

/** Draws the order; its total and payment only where the stall notes payments at all. */
export function showOrderTag(
  order: CrewOrderView,
  menu: Menu | null,
  reveal: Reveal,
  isSaved: boolean,
): void {
  const tracked = menu !== null && menu.rules.payment !== "not-tracked";
  const untagged = order.told === "call-out" && order.stage !== "ready" && !isEnding(order.stage);
  byId("order-tag").classList.toggle("ready", order.stage === "ready");
  byId("order-tag").replaceChildren(
    element(
      "div",
      { class: "tag-head" },
      element("p", { class: "tag-number" }, String(order.number)),
      element("p", { class: "tag-word" }, element("span", {}, "pickup word"), order.word),
    ),
    element(
      "p",
      { class: "write" },
      untagged ? "Write the number and the word on a tag and give it to them." : null,
    ),
    element("p", { class: "stands" }, isSaved ? savedWords(order) : stands(order)),
    order.wish === undefined
      ? ""
      : element("p", { class: "write" }, `Asked for, not on the menu: “${order.wish}”`),
    element(
      "ul",
      { class: "garments" },
      ...order.lines.map(({ quantity, name, blank, colour, size }) =>
        element("li", {}, `${quantity} × ${name}, ${choiceName(menu, blank, colour, size)}`),
      ),
    ),
  );
  byId("order-facts").replaceChildren(
    ...[
      ...(tracked ? money(order) : []),
      field("Ordered", timeOfDay(order.placedAt)),
      order.dueBy === null ? null : field("Promised by", timeOfDay(order.dueBy)),
      forWhom(order, reveal),
      field("The customer", TOLD[order.told], "wide"),
    ].filter((fact) => fact !== null),
  );
}
