/** English: every sentence the stall says. */
import { type Brevity, named } from "../fitting/fit.ts";
import { joined, known, lead, listed, orderLines } from "./compose.ts";
import { enWords } from "./en-words.ts";
import type { OrderFacts, Sentences, Wording } from "./shape.ts";

const GONE = "gone";

const about = (minutes: number): string => `about ${minutes} min`;

/** "4th in line, about 9 min" for one order. */
function standing({ number, word, stage, place, minutes, short }: OrderFacts, brevity: Brevity): string {
  const where = (): string => {
    switch (stage) {
      case "ready":
        return brevity < 2 ? `READY, come with the word ${word}.` : `READY, word ${word}.`;
      case "to-pay":
        return brevity < 2 ? "waits for your payment at the stall." : "to pay.";
      case "to-claim":
        return brevity < 2
          ? "kept for you: come to the stall so that it joins the line."
          : "come to the stall.";
      case "collected":
        return "was handed over.";
      case "dropped":
        return "was dropped.";
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
            stage === "pressing" ? "being pressed" : brevity < 2 ? `number ${place} in line` : `no. ${place}`,
            short > 0 && (brevity < 2 ? `${short} short of stock` : `${short} short`),
            brevity < 2 ? about(minutes) : `${minutes} min`,
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

const sentences: Sentences = {
  menu:
    ({ stall, items, example, more, basket, lastOrders }) =>
    (brevity) =>
      joined(
        [
          joined([
            brevity < 1 && `${stall}.`,
            lastOrders === true && brevity < 4 && "Last orders!",
            basket > 0 && `You have ${basket} so far.`,
            brevity < 2 ? `Text a number, or all at once: ${example}` : "Text a number:",
          ]),
          listed(items, GONE, brevity, "\n"),
          more && "MORE for the rest",
        ],
        "\n",
      ),
  askOffer:
    ({ known: what, items, more }) =>
    (brevity) =>
      joined(
        [`${lead(what, brevity)} Which one?`.trim(), listed(items, GONE, brevity, "\n"), more && "MORE"],
        "\n",
      ),
  askColour:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} Which colour? ${listed(items, GONE, brevity)}${more ? " MORE" : ""}`.trim(),
  askSize:
    ({ known: what, items, more }) =>
    (brevity) =>
      `${lead(what, brevity)} Which size? ${listed(items, GONE, brevity)}${more ? " MORE" : ""}`.trim(),
  askQuantity:
    ({ known: what, most }) =>
    (brevity) =>
      `${lead(what, brevity)} How many?${most > 1 ? ` 1 to ${most}` : " 1"}`.trim(),
  askWhich:
    ({ known: what, items }) =>
    (brevity) =>
      joined([joined([lead(what, brevity), "Which do you mean?"]), listed(items, GONE, brevity, "\n")], "\n"),
  instead:
    ({ gone, left, items }) =>
    (brevity) =>
      joined(
        [
          left > 0
            ? `Only ${left} left: ${known(gone, brevity)}.`
            : `${brevity < 1 ? "Sorry, " : ""}${known(gone, brevity)} is gone.${items.length > 0 ? " Left:" : ""}`,
          listed(items, GONE, brevity, "\n"),
        ],
        "\n",
      ),
  doesNotCome:
    ({ offer, what }) =>
    (brevity) =>
      `${named(offer, brevity)} does not come in that ${what}.`,
  confirm:
    ({ lines, total, minutes }) =>
    (brevity) =>
      joined(
        [
          `${orderLines(lines, brevity, (n) => `and ${n} more`)}: ${total}, ready in ${about(minutes)}.`,
          brevity < 2 ? "Order it? 1 YES 2 ADD another 3 CHANGE" : "1 YES 2 ADD 3 CHANGE",
        ],
        "\n",
      ),
  priceChanged: () => () => "The price changed meanwhile.",
  placed:
    ({ order: { number, word, stage, place, minutes }, total, paying, payMinutes, claimMinutes, payAt }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Thank you!",
        `Order ${number}, pickup word ${word}.`,
        stage === "to-claim"
          ? `Come to the stall within ${claimMinutes} min: then it joins the line, ${about(minutes)}.`
          : `Number ${place} in line, ${about(minutes)}${paying === "first" ? " once paid" : ""}.`,
        paying === "first"
          ? `Pay ${total} at the stall within ${payMinutes} min.`
          : paying === "at-pickup"
            ? `${total}, pay when you pick up.`
            : `${total}.`,
        brevity < 2 && "STATUS any time.",
        payAt !== null && `Pay here: ${payAt}`,
      ]),
  changeWhich:
    ({ items, more }) =>
    (brevity) =>
      joined(["Change which?", listed(items, GONE, brevity, "\n"), more && "MORE"], "\n"),
  changeWhat:
    ({ known: what, items }) =>
    (brevity) =>
      `${lead(what, brevity)} Change what? ${listed(items, GONE, brevity)}`,
  part: (part) =>
    ({ offer: "which one", colour: "colour", size: "size", quantity: "how many", all: "take it off" })[part],
  dropWhich:
    ({ items }) =>
    (brevity) =>
      joined(["Drop which?", listed(items, GONE, brevity, "\n")], "\n"),
  unconfirmed: () => "what you have not confirmed",
  orderItem: (number) => `order ${number}`,
  dropped:
    ({ number }) =>
    (brevity) =>
      joined([`Order ${number} is dropped.`, brevity < 1 && "Text MENU to order again."]),
  basketDropped: () => (brevity) =>
    joined(["Nothing is ordered.", brevity < 1 && "Text MENU to start again."]),
  nothingToDrop: () => () => "You have no order to drop. Text MENU to order.",
  dropAsked:
    ({ number }) =>
    () =>
      `A press may have order ${number} already. We asked: you'll hear in a moment whether it is dropped.`,
  cannotDrop:
    ({ number, stage }) =>
    () =>
      stage === "pressing" || stage === "ready"
        ? `Order ${number} is ${stage === "ready" ? "ready" : "on the press"} already; please come to the stall.`
        : `There is no open order ${number} of yours.`,
  howToDrop: () => () =>
    "To give up an order text DROP. (CANCEL on its own stops all texts, it does not drop an order.)",
  status:
    ({ orders }) =>
    (brevity) =>
      orders.map((order) => standing(order, brevity)).join("\n"),
  ended:
    ({ number, stage }) =>
    (brevity) =>
      standing({ number, stage, word: "", place: 0, minutes: 0, short: 0 }, brevity),
  noOrder: () => () => "You have no order yet. Text MENU to see what there is.",
  numberConfirmed:
    ({ number }) =>
    () =>
      `This phone now gets the texts for order ${number}.`,
  codeDoesNotFit: () => (brevity) =>
    joined(["That number and word don't fit.", brevity < 2 && "Check both on your order's page."]),
  codeTriedTooOften: () => () =>
    "That was tried too often. Please come to the stall and say your word there.",
  help:
    ({ stall, contact }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? stall : ""}${brevity < 4 ? ": " : ""}MENU to order, BACK one step, STATUS of your order, DROP to give it up, SIZES, STOP for no more texts.`,
        contact !== null && `Ask us: ${contact}`,
      ]),
  chests:
    ({ items }) =>
    (brevity) =>
      `${brevity < 2 ? "Inches across the chest, laid flat" : "Chest, inches"}: ${items.map(({ name, price }) => `${named(name, brevity)} ${price ?? ""}`).join(", ")}.`,
  noChests: () => () => "The sizes are not measured; please try one at the stall.",
  optedOut:
    ({ stall, contact }) =>
    (brevity) =>
      joined([
        `${brevity < 4 ? stall : "OK"}: no more texts. Orders stand${contact === null ? "; ask at the stall" : `; reach us: ${contact}`}.`,
        "START to get texts again.",
      ]),
  optedIn:
    ({ stall }) =>
    () =>
      `Welcome back to ${stall}.`,
  notUnderstood: () => (brevity) => (brevity < 2 ? "Sorry, I did not get that." : "Not understood."),
  notOnTheList: () => () => "That number is not on the list.",
  nothingBack: () => () => "That was the first step.",
  welcome: () => (brevity) =>
    joined(["You are welcome!", brevity < 1 && "STATUS tells you how your order is doing."]),
  idle: () => () => "Text MENU to order, HELP for more.",
  closed:
    ({ stall, opens }) =>
    (brevity) =>
      joined([`${brevity < 2 ? stall : "The stall"} is closed now.`, `Come back ${opens}.`]),
  over:
    ({ stall, fair, contact }) =>
    (brevity) =>
      joined([
        brevity < 4 ? `${stall} at ${fair} is over.` : "The fair is over.",
        brevity < 1 && "Thank you for coming!",
        contact !== null && `Reach us: ${contact}`,
      ]),
  paused: () => (brevity) =>
    joined(["We have stopped taking orders for a moment.", brevity < 4 && "Try again in 10 minutes or so."]),
  lineTooLong:
    ({ closes, opens }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Sorry,",
        `the line is too long to press that before we close at ${closes}.`,
        opens !== null && `Come back ${opens}.`,
      ]),
  tooMany:
    ({ most, of }) =>
    (brevity) =>
      of === "open-orders"
        ? `You have ${most} open orders; please collect one first, or come to the stall.`
        : joined([
            `Up to ${most} ${of === "line" ? "of one kind" : "in an order"} by phone${brevity < 4 ? ";" : "."}`,
            brevity < 4 && "for more come to the stall.",
          ]),
  allGone: () => () => "Everything is gone just now. Please ask at the stall.",
  webOff: () => () => "Orders from this page are stopped just now; please come to the stall or text us.",
  sorry: () => () => "That cannot be ordered just now; please come to the stall.",
  ready:
    ({ order: { number, word }, toPay }) =>
    () =>
      joined([
        `Order ${number} is ready! Come with your word: ${word}.`,
        toPay !== null && `Bring ${toPay}.`,
      ]),
  late:
    ({ order: { number, minutes } }) =>
    (brevity) =>
      joined([brevity < 1 && "Sorry,", `order ${number} takes longer: now ${about(minutes)}.`]),
  paid:
    ({ order: { number, place, minutes } }) =>
    (brevity) =>
      joined([
        brevity < 1 && "Paid, thank you.",
        `Order ${number}:`,
        `Number ${place} in line, ${about(minutes)}.`,
      ]),
  short:
    ({ order: { number, short }, items, instead, paid }) =>
    (brevity) =>
      joined(
        [
          `${brevity < 1 ? "Sorry, " : ""}${short} of order ${number} cannot be pressed: out of stock.${paid && brevity < 2 ? " Your money is safe." : ""}${instead ? " Take instead:" : ""}`,
          listed(items, GONE, brevity, "\n"),
        ],
        "\n",
      ),
  whichStall:
    ({ items }) =>
    (brevity) =>
      joined(
        [
          brevity < 1
            ? "Which stall? Text its number; STALLS shows this list again."
            : "Which stall? Text its number.",
          listed(items, GONE, brevity, "\n"),
        ],
        "\n",
      ),
  keepWaiting: () => "wait for more",
  leaveOut: ({ paid }) => (paid ? "leave it out, money back at the stall" : "leave it out"),
  leftOut:
    ({ number, less }) =>
    (brevity) =>
      joined([
        `Left out of order ${number}, which is ${less} less now.`,
        brevity < 2 && "If you paid, get that back at the stall.",
      ]),
  tookInstead:
    ({ order: { number, minutes }, taken }) =>
    (brevity) =>
      `Done: ${known(taken, brevity)} in order ${number}, at the same price. Ready in ${about(minutes)}.`,
  dropIt: ({ paid }) => (paid ? "drop it, money back at the stall" : "drop it"),
  gaveUp:
    ({ number, why }) =>
    (brevity) =>
      joined([
        why === "unpaid"
          ? `Order ${number} was not paid in time and is dropped.`
          : why === "unclaimed"
            ? `Nobody came to the stall for order ${number} in time, so it is dropped.`
            : `Sorry, order ${number} is dropped: out of stock.`,
        brevity < 2 && "Text MENU to order again.",
      ]),
  closingSoon:
    ({ order: { number, word }, closes }) =>
    () =>
      `Order ${number} is ready and we close at ${closes}. Come with your word: ${word}.`,
};

export const en: Wording = { sentences, words: enWords };
