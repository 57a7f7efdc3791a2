/** A bare number: what it stands for on the list last sent, and doing that. */

import { draftOf, fitting } from "../talk/draft.ts";
import type { Counter } from "../talk/ordering-port.ts";
import { type Draft, EMPTY_DRAFT, NO_LIST, type Pick, type Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { shortNotice } from "../wording/notices.ts";
import { factsOf, knownOf, price } from "../wording/say-names.ts";
import { agreed, menu, menuAfter, menuTalk } from "./around.ts";
import { proceed } from "./choose.ts";
import { add, change, changePart, emptied } from "./confirm.ts";
import { dropOrder } from "./drop.ts";
import { status } from "./inform.ts";
import { ask } from "./question.ts";
import { after, type TurnAnswer } from "./turn.ts";

/** A bare number: the place of something on the list last sent. */
export function numbered(counter: Counter, talk: Talk, number: number): TurnAnswer {
  const { list } = talk;
  const draft = draftOf(talk) ?? EMPTY_DRAFT;
  const picked = pickOf(talk, number);
  if (list.of === "nothing") {
    const offer = counter.menu.offers[number - 1];
    const orders = counter.orders();
    if (orders.some((order) => order.number === number)) return status(counter, talk);
    if (orders.length > 0) return menuAfter(counter, status(counter, talk));
    return offer === undefined
      ? notListed(counter, menuTalk(talk))
      : proceed(counter, talk, { ...EMPTY_DRAFT, offer: offer.id });
  }
  if (list.of === "quantity") {
    return number < 1 ? notListed(counter, talk) : proceed(counter, talk, { ...draft, quantity: number });
  }
  return picked === undefined ? notListed(counter, talk) : taken(counter, talk, picked);
}

function pickOf({ list }: Talk, number: number): Pick | undefined {
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

const notListed = (counter: Counter, talk: Talk): TurnAnswer =>
  after(sentencesOf(talk.language).notOnTheList(), ask(counter, talk));

/** Does what a pick stands for. */
function taken(counter: Counter, talk: Talk, pick: Pick): TurnAnswer {
  const draft = draftOf(talk) ?? EMPTY_DRAFT;
  switch (pick.take) {
    case "offer":
      return proceed(counter, talk, fitting(counter.menu, { ...draft, offer: pick.offer }));
    case "colour":
      return proceed(counter, talk, { ...draft, colour: pick.colour });
    case "size":
      return proceed(counter, talk, { ...draft, size: pick.size });
    case "drafts": {
      const [first, ...others] = pick.drafts;
      if (first === undefined) return ask(counter, talk);
      return proceed(
        counter,
        { ...talk, pending: [...others, ...talk.pending] },
        fitting(counter.menu, first),
      );
    }
    case "yes":
      return agreed(counter, talk);
    case "add":
      return add(counter, talk);
    case "change":
      return change(counter, talk);
    case "line":
      return ask(counter, { ...talk, step: { at: "change", line: pick.line, page: 0 } });
    case "part":
      return changePart(counter, talk, pick.line, pick.part);
    case "drop-order":
      return dropOrder(counter, talk, pick.number);
    case "drop-basket":
      return emptied(counter, talk);
    case "keep":
      return status(counter, { ...talk, list: NO_LIST });
    case "leave-out":
      return withoutShort(counter, talk, pick.number);
    case "instead":
      return insteadOfShort(counter, talk, pick);
    case "swap":
      return swapped(counter, talk, pick.number, pick.draft);
    case "menu":
      return menu(counter, talk);
    default:
      return pick satisfies never;
  }
}

/** An order that cannot be pressed is given up for another garment, which is then to be confirmed. */
function swapped(counter: Counter, talk: Talk, number: number, draft: Draft): TurnAnswer {
  const given = dropOrder(counter, { ...talk, list: NO_LIST }, number);
  return after(given.say, proceed(counter, given.talk, draft));
}

/**
 * Another garment takes the place of what is short. Where something else of the order is still short, or it is
 * gone meanwhile, what is left is asked about.
 */
function insteadOfShort(
  counter: Counter,
  before: Talk,
  { number, wanted, draft, paid }: Extract<Pick, { readonly take: "instead" }>,
): TurnAnswer {
  const talk = { ...before, list: NO_LIST };
  const { offer, colour, size } = draft;
  const { done } = counter.attempt({
    type: "take-instead",
    number,
    wanted,
    instead: { offer, colour, size },
  });
  const order = counter.orders().find((other) => other.number === number);
  if (order !== undefined && order.shortGarments > 0) return shortNotice(counter, talk, order, paid);
  if (order === undefined || !done) return status(counter, talk);
  const taken = knownOf(counter.menu, talk.language, draft);
  return { talk, say: sentencesOf(talk.language).tookInstead({ order: factsOf(order), taken }) };
}

/** What is short is left out of an order; where that cannot be any more, how the order stands is said. */
function withoutShort(counter: Counter, before: Talk, number: number): TurnAnswer {
  const talk = { ...before, list: NO_LIST };
  const totalOf = (): number => counter.orders().find((order) => order.number === number)?.total ?? 0;
  const total = totalOf();
  if (!counter.attempt({ type: "leave-out", number }).done) return status(counter, talk);
  const less = price(counter.menu, total - totalOf());
  return { talk, say: sentencesOf(talk.language).leftOut({ number, less }) };
}
