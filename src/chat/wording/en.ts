/** English: every sentence the stall says. */

import type { Spelling } from "../../model/basics/region.ts";
import type { Brevity } from "../fitting/fit.ts";
import { joined, known, lead, listed, orderLines, rows } from "./compose.ts";
import { enWords } from "./en-words.ts";
import { ordinal } from "./ordinal.ts";
import type { Bill, OrderFacts, Saved, Sentences, Wording } from "./shape.ts";

const gone = (brevity: Brevity): string => (brevity < 3 ? "sold out" : "gone");

const about = (minutes: number): string => `about ${minutes} min`;

/** The wait of an order; while the stall has paused it begins when the stall starts again. */
const wait = ({ minutes, paused }: OrderFacts, brevity: Brevity): string =>
  !paused ? about(minutes) : brevity < 4 ? `${about(minutes)} once we start again` : `paused, ${minutes} min`;

/** "$26 + $1.89 tax = $27.89", or "$26 (includes $1.76 tax)". */
function sum({ net, tax, total, taxInPrice }: Bill, brevity: Brevity): string {
  if (tax === null) return total;
  if (taxInPrice) return brevity < 3 ? `${total} (includes ${tax} tax)` : total;
  return brevity < 4 ? `${net} + ${tax} tax = ${total}` : `${total} with tax`;
}

/** "Any 2 tees: you save $8." */
const saving = (saved: readonly Saved[] = []): string =>
  saved.map((one) => `${one.name}: you save ${one.saving}.`).join(" ");

const more = (n: number): string => `and ${n} more`;
const place = (n: number): string => `${ordinal(n)} in line`;
const say = (word: string): string => `say “${word}”`;

/** "4th in line, about 9 min" for one order. */
function standing(order: OrderFacts, brevity: Brevity, cancelled: string): string {
  const { number, word, stage, short } = order;
  const where = (): string => {
    switch (stage) {
      case "ready":
        return brevity < 2 ? `READY. Show number ${number} and ${say(word)}.` : `READY, ${say(word)}.`;
      case "to-pay":
        return brevity < 2 ? "not paid yet. Pay at the stall." : "to pay.";
      case "to-claim":
        return brevity < 2 ? "kept for you. Come to the stall to join the line." : "come to the stall.";
      case "collected":
        return "was handed over.";
      case "dropped":
        return `was ${cancelled}.`;
      case "uncollected":
        return "was ready but not collected.";
      case "refunded":
        return "was refunded.";
      case "exchanged":
        return "was exchanged.";
      case "waiting":
      case "pressing":
        return joined(
          [
            stage === "pressing" ? "being pressed" : place(order.place),
            short > 0 && (brevity < 2 ? `${short} short of stock` : `${short} short`),
            wait(order, brevity),
            brevity < 1 && `word ${word}`,
          ],
          ", ",
        ).concat(".");
      default:
        return stage satisfies never;
    }
  };
  return `${number}: ${where()}`;
}

const sentencesIn = (colour: "colour" | "color", cancelled: "cancelled" | "canceled"): Sentences => ({
  midnight: "midnight",
  from: (lowest) => `from ${lowest}`,
  menu:
    ({ stall, items, example, more, basket, bundles = [], lastOrders }) =>
    (brevity) =>
      joined(
        [
          joined([
            brevity < 1 && `${stall}.`,
            lastOrders === true && brevity < 4 && "Last orders!",
            basket > 0 && brevity < 5 && `You have ${basket} so far.`,
            brevity < 2 ? `Text a number, or all at once: ${example}` : "Text a number:",
          ]),
          listed(items, gone(brevity), brevity, "\n"),
          brevity < 2 && bundles.join(", "),
          more && "MORE for the rest",
        ],
        "\n",
      ),
  askOffer:
    ({ known: what, items, more }) =>
    (brevity) =>
      joined(
        [
          `${lead(what, brevity)} Which one?`.trim(),
          listed(items, gone(brevity), brevity, "\n"),
          more && "MORE",
        ],
        "\n",
      ),
  askColour:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} Which ${colour}? ${listed(items, gone(brevity), brevity)}${more ? " MORE" : ""}`.trim(),
  askSize:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} Which size? ${listed(items, gone(brevity), brevity)}${more ? " MORE" : ""}`.trim(),
  askQuantity:
    ({ known: what, most }) =>
    (brevity) =>
      `${lead(what, brevity)} How many?${most > 1 ? ` 1 to ${most}` : " 1"}`.trim(),
  askWhich:
    ({ known: what, items, more }) =>
    (brevity) =>
      joined(
        [
          joined([lead(what, brevity), "Which do you mean?"]),
          listed(items, gone(brevity), brevity, "\n"),
          more && "MORE",
        ],
        "\n",
      ),
  instead:
    ({ gone: wanted, left, items }) =>
    (brevity) => {
      const name = brevity < 5 ? known(wanted) : (wanted.offer ?? "");
      const soldOut = `${brevity < 1 ? "Sorry, " : ""}${name} is sold out.`;
      return joined(
        [
          left > 0
            ? `Only ${left} left: ${name}.`
            : joined([soldOut, items.length > 0 && (brevity < 4 ? "Still available:" : "Left:")]),
          listed(items, gone(brevity), brevity, "\n"),
        ],
        "\n",
      );
    },
  doesNotCome:
    ({ offer, what }) =>
    (brevity) =>
      brevity < 4
        ? `${offer} does not come in that ${what === "colour" ? colour : what}.`
        : brevity < 5
          ? `Not in that ${what === "colour" ? colour : what}.`
          : "",
  confirm:
    ({ lines, bill, saved, minutes, wish, taken }) =>
    (brevity) =>
      joined(
        [
          wish !== null &&
            (taken !== null && brevity < 4
              ? `${taken.name}${taken.more === null ? "" : `, ${taken.more} more,`} is done at the counter only: come there for it.`
              : brevity < 4
                ? `Pressed as shown, without “${wish}”, or come to the counter.`
                : brevity < 5
                  ? taken !== null
                    ? `${taken.name}${taken.more === null ? "" : `, ${taken.more} more`}: only at the counter.`
                    : "Pressed as shown, without your extra wish."
                  : "As shown, no extras."),
          `${orderLines(lines, brevity, more)}: ${sum(bill, brevity)}, ready in ${about(minutes)}.`,
          brevity < 4 && saving(saved),
          joined([
            wish !== null ? brevity < 4 && "Order as shown?" : brevity < 2 && "Order it?",
            brevity < 2 ? "1 YES 2 ADD another 3 CHANGE" : "1 YES 2 ADD 3 CHANGE",
          ]),
        ],
        "\n",
      ),
  wishes:
    ({ wish, taken }) =>
    (brevity) =>
      taken !== null
        ? `${taken.name}${taken.more === null ? ": ask" : ` costs ${taken.more} more: ask`} for it at the counter.`
        : joined([
            brevity < 3 ? `We press garments as shown, without “${wish}”.` : "We press garments as shown.",
            "For anything else, come to the counter.",
          ]),
  priceChanged: () => () => "The price has changed.",
  placed:
    ({ order, bill, saved, paying, payMinutes, claimMinutes, payAt }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Thank you!",
        `Order ${order.number}, pickup word ${order.word}.`,
        order.stage === "to-claim"
          ? `Come to the stall within ${claimMinutes} min to join the line, ${wait(order, brevity)}.`
          : `${place(order.place)}, ${wait(order, brevity)}${paying === "first" ? " once paid" : ""}.`,
        paying === "first"
          ? `Pay ${sum(bill, brevity)} at the stall within ${payMinutes} min.`
          : paying === "at-pickup"
            ? `${sum(bill, brevity)}, pay when you pick up.`
            : `${sum(bill, brevity)}.`,
        brevity < 3 && saving(saved),
        brevity < 2 && "STATUS any time.",
        payAt !== null && `Pay here: ${payAt}`,
      ]),
  changeWhich:
    ({ items, more }) =>
    (brevity) =>
      joined(["Change which one?", listed(items, gone(brevity), brevity, "\n"), more && "MORE"], "\n"),
  changeWhat:
    ({ known: what, items }) =>
    (brevity) =>
      `${lead(what, brevity)} What do you want to change? ${listed(items, gone(brevity), brevity)}`,
  orderChanged:
    ({ order, lines, bill, saved, due, giveBack, added }) =>
    (brevity) =>
      joined([
        `${brevity < 2 ? "Done. " : ""}Order ${order.number}: ${orderLines(lines, brevity, more)}.`,
        due !== null
          ? `Pay ${due} more when you pick up.`
          : giveBack !== null
            ? `You get ${giveBack} back at the stall.`
            : `${sum(bill, brevity)}.`,
        brevity < 3 && saving(saved),
        brevity < 4 &&
          (order.stage === "waiting" || order.stage === "pressing") &&
          `Ready in ${wait(order, brevity)}.`,
        brevity < 1 && added && "What you added is at the end of the line.",
      ]),
  cannotChange:
    ({ number, why }) =>
    () => {
      switch (why) {
        case "on-press":
          return `Order ${number} is on the press already and is made as ordered. Ask at the stall.`;
        case "ready":
          return `Order ${number} is ready. To exchange it, come to the stall.`;
        case "all-of-it":
          return `That is all of order ${number}. To cancel it, text DROP ${number}.`;
        case "too-many":
          return `That is too much for order ${number} by phone; come to the stall.`;
        case "closed":
          return `Nothing can be added to order ${number} right now.`;
        case "over":
          return `You have no open order ${number}.`;
        case "sorry":
          return `Order ${number} can’t be changed here; come to the stall.`;
        default:
          return why satisfies never;
      }
    },
  part: (part) => ({ offer: "garment", colour, size: "size", quantity: "how many", all: "remove it" })[part],
  dropWhich:
    ({ items }) =>
    (brevity) =>
      joined(
        ["What do you want to cancel?", listed(items, gone(brevity), brevity, brevity < 3 ? "\n" : " ")],
        "\n",
      ),
  unconfirmed: () => "what you have not confirmed",
  cancelNothing: () => "nothing",
  orderItem: (number) => `order ${number}`,
  dropped:
    ({ number }) =>
    (brevity) =>
      joined([`Order ${number} is ${cancelled}.`, brevity < 1 && "Text MENU to order again."]),
  basketDropped: () => (brevity) =>
    joined(["Nothing is ordered.", brevity < 1 && "Text MENU to start again."]),
  nothingToDrop: () => () => "You have no order to cancel. Text MENU to order.",
  dropAsked:
    ({ number }) =>
    () =>
      `A press may have order ${number} already. We asked: you’ll hear in a moment whether it is ${cancelled}.`,
  cannotDrop:
    ({ number, stage }) =>
    () =>
      stage === "pressing" || stage === "ready"
        ? `Order ${number} is ${stage === "ready" ? "ready" : "on the press"} already; please come to the stall.`
        : `You have no open order ${number}.`,
  status:
    ({ orders }) =>
    (brevity) =>
      rows(
        orders.map((order) => standing(order, brevity, cancelled)),
        brevity,
        more,
      ).join("\n"),
  ended:
    ({ number, stage }) =>
    (brevity) =>
      standing(
        { number, stage, word: "", place: 0, minutes: 0, short: 0, paused: false },
        brevity,
        cancelled,
      ),
  noOrder: () => () => "You have no order yet. Text MENU to see what there is.",
  numberConfirmed:
    ({ number }) =>
    () =>
      `This phone now gets the texts for order ${number}.`,
  codeDoesNotFit: () => (brevity) =>
    joined(["That number and word don’t match.", brevity < 2 && "Check both on your order's page."]),
  codeTriedTooOften: () => () => "That was tried too often. Come to the stall and say your word there.",
  help:
    ({ stall, contact }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? `${stall}: ` : ""}MENU to order, ${brevity < 1 ? "BACK to go back, STATUS to check" : "BACK, STATUS"}, DROP to cancel, SIZES, STOP for no more texts${brevity < 4 ? ", ERASE ME to be forgotten" : ""}.`,
        contact !== null && `Ask us: ${contact}`,
      ]),
  chests:
    ({ items }) =>
    (brevity) =>
      `${brevity < 2 ? "Inches across the chest, laid flat" : "Chest, inches"}: ${rows(
        items.map(({ name, price }) => joined([name, price])),
        brevity,
        more,
      ).join(", ")}.`,
  noChests: () => () => "The sizes are not measured; please try one at the stall.",
  optedOut:
    ({ stall, contact, orders }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? stall : "OK"}: you won’t get any more texts.`,
        orders > 0 &&
          `Your ${orders === 1 ? "order is" : "orders are"} still on; to cancel${brevity < 3 ? (orders === 1 ? " it" : " one") : ""}, text START, then DROP.`,
        contact !== null && brevity < 4 && `Reach us: ${contact}.`,
        (orders === 0 || brevity < 2) && "START to get texts again.",
      ]),
  optedIn:
    ({ stall }) =>
    () =>
      `Welcome back to ${stall}.`,
  erased:
    ({ stall, orders }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? `${stall} has` : "We have"} erased your number and what was said here.`,
        orders > 0 &&
          `Your ${orders === 1 ? "order is" : "orders are"} still on: keep the number and the word${brevity < 3 ? "; no texts will come" : ""}.`,
      ]),
  notUnderstood: () => (brevity) => (brevity < 2 ? "Sorry, I didn’t get that." : "Not understood."),
  notOnTheList: () => () => "That number isn’t on the list.",
  nothingBack: () => () => "That was the first step.",
  welcome: () => (brevity) =>
    joined(["You’re welcome!", brevity < 1 && "STATUS tells you how your order is doing."]),
  idle: () => () => "Text MENU to order, HELP for more.",
  closed:
    ({ stall, opens }) =>
    (brevity) =>
      joined([`${brevity < 2 ? stall : "The stall"} is closed now.`, `Come back ${opens}.`]),
  over:
    ({ stall, fair, contact }) =>
    (brevity) =>
      joined([
        brevity < 4 ? `${stall} at ${fair} has finished for this fair.` : "The fair is over.",
        brevity < 1 && "Thank you for coming!",
        contact !== null && `Reach us: ${contact}`,
      ]),
  paused: () => (brevity) =>
    joined([
      "We’ve paused and take no orders for the moment.",
      brevity < 4 && "Try again in 10 minutes or so.",
    ]),
  fairStopped: (reason) => (brevity) =>
    joined([
      `The fair has stopped all orders for now${brevity < 3 ? `: ${reason}` : ""}.`,
      brevity < 2 && "What you have ordered keeps its place.",
    ]),
  lineTooLong:
    ({ closes, opens }) =>
    (brevity) =>
      joined([
        `${brevity < 1 ? "Sorry, the" : "The"} line is too long to press that before we close at ${closes}.`,
        opens !== null && `Come back ${opens}.`,
      ]),
  tooMany:
    ({ most, of }) =>
    (brevity) =>
      of === "open-orders"
        ? `You have ${most} open orders; collect one first, or come to the stall.`
        : joined([
            `Up to ${most} ${of === "line" ? "of one kind" : "in an order"} by phone${brevity < 4 ? ";" : "."}`,
            brevity < 4 && "for more come to the stall.",
          ]),
  allGone: () => () => "Everything is sold out right now. Ask at the stall.",
  webOff: () => () => "This page takes no orders right now; come to the stall or text us.",
  sorry: () => () => "That can’t be ordered right now; come to the stall.",
  ready:
    ({ order: { number, word }, toPay }) =>
    (brevity) =>
      joined([
        `Order ${number} is ready! ${brevity < 3 ? `Show number ${number} and ${say(word)}.` : `Come and ${say(word)}.`}`,
        toPay !== null && `Bring ${toPay}.`,
      ]),
  late:
    ({ order }) =>
    (brevity) =>
      `${brevity < 1 ? "Sorry, order" : "Order"} ${order.number} takes longer: now ${wait(order, brevity)}.`,
  paid:
    ({ order }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Paid, thank you.",
        `Order ${order.number}: ${place(order.place)}, ${wait(order, brevity)}.`,
      ]),
  short:
    ({ order: { number, short }, what, items, instead, paid }) =>
    (brevity) =>
      joined(
        [
          joined([
            brevity < 4
              ? `${brevity < 1 ? "Sorry, " : ""}${short} of order ${number} can’t be pressed: out of stock${what === null ? "" : ` (${known(what)})`}.`
              : `Order ${number} is short${what === null ? "" : `: ${known(what)}`}.`,
            paid && brevity < 2 && "Your money is safe.",
            instead && (brevity < 4 ? "Take instead:" : "Instead:"),
          ]),
          listed(items, gone(brevity), brevity, "\n"),
        ],
        "\n",
      ),
  whichStall:
    ({ items }) =>
    (brevity) =>
      joined(
        [
          brevity < 1
            ? "Which stall? Text its number to order there; STALLS lists them."
            : "Which stall? Text its number.",
          listed(
            items.map(({ minutes, ...item }) =>
              minutes === null ? item : { ...item, price: about(minutes) },
            ),
            gone(brevity),
            brevity,
            "\n",
          ),
        ],
        "\n",
      ),
  movedTo:
    ({ stall, to }) =>
    (brevity) =>
      brevity < 1 ? `${stall} has moved. Order and ask at its new address: ${to}` : `${stall} moved: ${to}`,
  keepWaiting: () => "wait for more",
  leaveOut: () => "remove it",
  moneyBack: () => "money back at the stall",
  leftOut:
    ({ number, less }) =>
    (brevity) =>
      joined([
        `Removed from order ${number}; the total is now ${less} lower.`,
        brevity < 2 && "If you paid, get that back at the stall.",
      ]),
  tookInstead:
    ({ order, taken }) =>
    (brevity) =>
      `Done: ${known(taken)} in order ${order.number}, at the same price. Ready in ${wait(order, brevity)}.`,
  dropIt: () => "cancel it",
  gaveUp:
    ({ number, why }) =>
    (brevity) =>
      joined([
        why === "unpaid"
          ? `Order ${number} was not paid in time, so it is ${cancelled}.`
          : why === "unclaimed"
            ? `Nobody came to the stall for order ${number} in time, so it is ${cancelled}.`
            : `Sorry, order ${number} is ${cancelled}: out of stock.`,
        brevity < 2 && "Text MENU to order again.",
      ]),
  fromCrew:
    ({ number, said, closes }) =>
    () => {
      switch (said) {
        case "five-minutes":
          return `Order ${number} needs about 5 more minutes.`;
        case "closing-soon":
          return `${closes === null ? "We close in a few minutes." : `We close at ${closes}.`} Please fetch order ${number} before then.`;
        case "come-back":
          return `Please come back to the stall with order ${number}: something went wrong, and we will put it right.`;
        default:
          return said satisfies never;
      }
    },
  closingSoon:
    ({ order: { number, word }, closes }) =>
    () =>
      `Order ${number} is ready and we close at ${closes}. Come and ${say(word)}.`,
});

/** English in the spelling of the stall's region. */
export const EN_SENTENCES: Readonly<Record<Spelling, Sentences>> = {
  american: sentencesIn("color", "canceled"),
  british: sentencesIn("colour", "cancelled"),
};

export const en: Wording = { sentences: EN_SENTENCES.british, words: enWords };
