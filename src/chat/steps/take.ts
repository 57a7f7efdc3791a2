/** A bare number: finds its choice on the last list, and carries it out. */

import { draftOf, fitting } from "../talk/draft.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { type Choice, type Draft, EMPTY_DRAFT, NO_LIST, type Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { shortNotice } from "../wording/notices.ts";
import { price } from "../wording/price.ts";
import { factsOf, knownOf } from "../wording/say-names.ts";
import { agreed, menu, menuAfter, menuTalk } from "./around.ts";
import { changeOrderPart, onLine, onOrder } from "./changing.ts";
import { proceed } from "./choose.ts";
import { add, change, changePart, emptied } from "./confirm.ts";
import { dropOrder, resumed } from "./drop.ts";
import { status } from "./inform.ts";
import { ask } from "./question.ts";
import { after, type TurnAnswer } from "./turn.ts";

/** A bare number: the place of something on the list last sent. */
export function numbered(port: OrderingPort, talk: Talk, number: number): TurnAnswer {
  const { list } = talk;
  const draft = draftOf(talk) ?? EMPTY_DRAFT;
  const picked = choiceOf(talk, number);
  if (list.of === "nothing") {
    const offer = port.menu.offers[number - 1];
    const orders = port.orders();
    if (orders.some((order) => order.number === number)) return status(port, talk);
    if (orders.length > 0) return menuAfter(port, status(port, talk));
    return offer === undefined
      ? notListed(port, menuTalk(talk))
      : proceed(port, talk, { ...EMPTY_DRAFT, offer: offer.id });
  }
  if (list.of === "quantity") {
    return number < 1 ? notListed(port, talk) : proceed(port, talk, { ...draft, quantity: number });
  }
  return picked === undefined ? notListed(port, talk) : taken(port, talk, picked);
}

function choiceOf({ list }: Talk, number: number): Choice | undefined {
  switch (list.of) {
    case "offers": {
      const offer = list.offers[number - 1];
      return offer && { take: "offer", offer };
    }
    case "colours": {
      const colour = list.colours[number - 1];
      return colour && { take: "colour", colour };
    }
    case "sizes": {
      const size = list.sizes[number - 1];
      return size && { take: "size", size };
    }
    case "picks":
      return list.picks[number - 1];
    case "nothing":
    case "quantity":
      return undefined;
    default:
      return list satisfies never;
  }
}

const notListed = (port: OrderingPort, talk: Talk): TurnAnswer =>
  after(sentencesOf(port, talk).notOnTheList(), ask(port, talk));

/** Carries out a choice. */
function taken(port: OrderingPort, talk: Talk, choice: Choice): TurnAnswer {
  const draft = draftOf(talk) ?? EMPTY_DRAFT;
  switch (choice.take) {
    case "offer":
      return proceed(port, talk, fitting(port.menu, { ...draft, offer: choice.offer }));
    case "colour":
      return proceed(port, talk, { ...draft, colour: choice.colour });
    case "size":
      return proceed(port, talk, { ...draft, size: choice.size });
    case "drafts": {
      const [first, ...others] = choice.drafts;
      if (first === undefined) return ask(port, talk);
      return proceed(port, { ...talk, pending: [...others, ...talk.pending] }, fitting(port.menu, first));
    }
    case "yes":
      return agreed(port, talk);
    case "add":
      return add(port, talk);
    case "change":
      return change(port, talk);
    case "line":
      return ask(port, { ...talk, step: { at: "change", line: choice.line, page: 0 } });
    case "part":
      return changePart(port, talk, choice.line, choice.part);
    case "change-order":
      return onOrder(port, talk, choice.number, choice.asked);
    case "change-line":
      return onLine(port, talk, choice.number, choice.line, choice.asked);
    case "change-part":
      return changeOrderPart(port, talk, choice);
    case "drop-order":
      return dropOrder(port, talk, choice.number);
    case "drop-basket":
      return emptied(port, talk);
    case "drop-draft":
    case "drop-nothing":
      return resumed(port, talk, choice.take === "drop-draft");
    case "keep":
      return status(port, { ...talk, list: NO_LIST });
    case "leave-out":
      return withoutShort(port, talk, choice.number);
    case "instead":
      return insteadOfShort(port, talk, choice);
    case "swap":
      return swapped(port, talk, choice.number, choice.draft);
    case "menu":
      return menu(port, talk);
    default:
      return choice satisfies never;
  }
}

/** An order that cannot be pressed is given up for another garment, which is then to be confirmed. */
function swapped(port: OrderingPort, talk: Talk, number: number, draft: Draft): TurnAnswer {
  const given = dropOrder(port, { ...talk, list: NO_LIST }, number);
  return after(given.say, proceed(port, given.talk, draft));
}

/**
 * Replaces a short garment by another. If more of the order is short, or the other is sold out by now, asks about the
 * rest.
 */
function insteadOfShort(
  port: OrderingPort,
  before: Talk,
  { number, wanted, draft, paid }: Extract<Choice, { readonly take: "instead" }>,
): TurnAnswer {
  const talk = { ...before, list: NO_LIST };
  const { offer, colour, size } = draft;
  const changed = port.attempt({
    type: "take-instead",
    number,
    wanted,
    instead: { offer, colour, size },
  });
  const order = port.orders().find((other) => other.number === number);
  if (order !== undefined && order.shortGarments > 0) return shortNotice(port, talk, order, paid);
  if (order === undefined || !changed.ok) return status(port, talk);
  const taken = knownOf(port.menu, talk.language, draft);
  return { talk, say: sentencesOf(port, talk).tookInstead({ order: factsOf(port, order), taken }) };
}

/** Removes short garments from an order; if that is not possible any more, gives the order's state. */
function withoutShort(port: OrderingPort, before: Talk, number: number): TurnAnswer {
  const talk = { ...before, list: NO_LIST };
  const totalOf = (): number => port.orders().find((order) => order.number === number)?.total ?? 0;
  const total = totalOf();
  if (!port.attempt({ type: "leave-out", number }).ok) return status(port, talk);
  const less = price(port.menu, total - totalOf());
  return { talk, say: sentencesOf(port, talk).leftOut({ number, less }) };
}
