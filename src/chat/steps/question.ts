/** The question that a conversation stands at, and the list that a bare number then answers. */

import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { PAGE, type Say } from "../fitting/fit.ts";
import { isLeft, roomFor } from "../talk/free-stock.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn, type Range, rangesOf } from "../talk/range.ts";
import { type Choice, type Draft, type List, NO_LIST, type Part, type Talk } from "../talk/talk.ts";
import { itemsOf } from "../wording/items.ts";
import { sentencesOf } from "../wording/languages.ts";
import { knownOf, price } from "../wording/say-names.ts";
import type { Item } from "../wording/shape.ts";
import type { TurnAnswer } from "./turn.ts";

/** Lines of an order say more, so fewer of them fit. */
const LINES = 6;

/** Asks, again where need be, what the conversation's step asks, and sets the list that answers it. */
export function ask(port: OrderingPort, talk: Talk): TurnAnswer {
  const { say, list } = question(port, talk);
  return { talk: { ...talk, list }, say };
}

type Question = { readonly say: Say; readonly list: List };

function question(port: OrderingPort, talk: Talk): Question {
  const { step, language } = talk;
  const sentences = sentencesOf(language);
  switch (step.at) {
    case "idle":
      return { say: sentences.idle(), list: NO_LIST };
    case "choosing":
      return choice(port, talk, step.draft, step.page);
    case "which": {
      const facts = {
        known: knownOf(port.menu, language, step.draft),
        items: itemsOf(port, talk, step.picks),
      };
      return { say: sentences.askWhich(facts), list: { of: "picks", picks: step.picks } };
    }
    case "instead": {
      const gone = knownOf(port.menu, language, { ...step.draft, quantity: null });
      const items = itemsOf(port, talk, step.picks, step.draft);
      return {
        say: sentences.instead({ gone, left: step.left, items }),
        list: { of: "picks", picks: step.picks },
      };
    }
    case "confirm":
      return confirmation(port, talk, step.shown);
    case "change":
      return changing(port, talk, step.line, step.page);
    case "drop": {
      const picks: Choice[] = step.orders.map((number) => ({ take: "drop-order", number }));
      if (talk.basket.length > 0) picks.push({ take: "drop-basket" });
      return {
        say: sentences.dropWhich({ items: itemsOf(port, talk, picks) }),
        list: { of: "picks", picks },
      };
    }
    default:
      return step satisfies never;
  }
}

/** The first thing a draft lacks, asked for. */
function choice(port: OrderingPort, talk: Talk, draft: Draft, page: number): Question {
  const { menu } = port;
  const sentences = sentencesOf(talk.language);
  const what = knownOf(menu, talk.language, draft);
  const range = draft.offer === null ? undefined : rangesOf(menu).get(draft.offer);
  const gone = (change: Partial<Draft>): boolean => !isLeft(port, talk, { ...draft, ...change });
  if (range === undefined) return offers(port, talk, draft, page);
  if (draft.colour === null) {
    const { items, more } = paged(talk.language, range.colours, page, (colour) => gone({ colour }));
    return {
      say: sentences.askColour({ known: what, items, more }),
      list: { of: "colours", colours: range.colours.map(({ id }) => id) },
    };
  }
  if (draft.size === null) {
    const { items, more } = paged(talk.language, range.sizes, page, (size) => gone({ size }));
    return {
      say: sentences.askSize({ known: what, items, more }),
      list: { of: "sizes", sizes: range.sizes.map(({ id }) => id) },
    };
  }
  const garment = { offer: range.offer.id, colour: draft.colour, size: draft.size };
  const most = Math.min(menu.rules.garmentsPerLine, roomFor(port, talk.basket, garment));
  return { say: sentences.askQuantity({ known: what, most }), list: { of: "quantity", most } };
}

type Named = Parameters<typeof nameIn>[1];

/** One page of a list of choices, each with its fixed number; after the last page comes the first. */
function paged<Id>(
  language: Language,
  choices: readonly (Named & { readonly id: Id })[],
  page: number,
  gone: (id: Id) => boolean,
): { readonly items: readonly Item[]; readonly more: boolean } {
  const from = firstOf(choices.length, page);
  const items = choices.slice(from, from + PAGE).map((choice, index) => ({
    number: from + index + 1,
    name: nameIn(language, choice),
    gone: gone(choice.id),
  }));
  return { items, more: choices.length > PAGE };
}

const firstOf = (choices: number, page: number, each = PAGE): number =>
  (page % Math.max(Math.ceil(choices / each), 1)) * each;

/** One page of the menu, or of what of it comes in the colour and size already named. */
function offers(port: OrderingPort, talk: Talk, draft: Draft, page: number): Question {
  const { menu } = port;
  const sentences = sentencesOf(talk.language);
  const all = [...rangesOf(menu).values()];
  const fitting = all.filter((range) => comesIn(range, draft));
  const from = firstOf(fitting.length, page);
  const items = fitting.slice(from, from + PAGE).map(({ offer, number }): Item => {
    const name = nameIn(talk.language, offer);
    const gone = !isLeft(port, talk, { ...draft, offer: offer.id });
    return { number, name, price: price(menu, offer.price), gone };
  });
  const more = fitting.length > PAGE;
  const plain = draft.colour === null && draft.size === null;
  const say = plain
    ? sentences.menu({
        stall: port.stallName,
        items,
        example: example(menu, talk.language),
        more,
        basket: talk.basket.reduce((sum, { quantity }) => sum + quantity, 0),
        lastOrders: port.lastOrders ?? false,
      })
    : sentences.askOffer({ known: knownOf(menu, talk.language, draft), items, more });
  return { say, list: { of: "offers", offers: all.map(({ offer }) => offer.id) } };
}

const comesIn = ({ colours, sizes }: Range, draft: Draft): boolean =>
  (draft.colour === null || colours.some(({ id }) => id === draft.colour)) &&
  (draft.size === null || sizes.some(({ id }) => id === draft.size));

/** A whole order in one text, as this menu would have it: "1 navy L". */
function example(menu: Menu, language: Language): string {
  const ranges = [...rangesOf(menu).values()];
  const range = ranges.find(({ colours, sizes }) => colours.length > 1 && sizes.length > 1) ?? ranges[0];
  const grown = range?.sizes.filter(({ child }) => !child) ?? [];
  const size = grown[grown.length >> 1];
  const colour = range?.colours[0];
  if (range === undefined || colour === undefined || size === undefined) return "1";
  const words = [String(range.number), nameIn(language, colour).toLowerCase()];
  return [...words, ...(range.sizes.length > 1 ? [nameIn(language, size)] : [])].join(" ");
}

function confirmation(port: OrderingPort, talk: Talk, shown: number): Question {
  const { menu } = port;
  const lines = talk.basket.map((line) => knownOf(menu, talk.language, line));
  const say = sentencesOf(talk.language).confirm({
    lines,
    total: price(menu, shown),
    minutes: port.waitMinutes(talk.basket),
  });
  return { say, list: { of: "picks", picks: [{ take: "yes" }, { take: "add" }, { take: "change" }] } };
}

function changing(port: OrderingPort, talk: Talk, index: number | null, page: number): Question {
  const sentences = sentencesOf(talk.language);
  const line = index === null ? undefined : talk.basket[index];
  if (index === null || line === undefined) {
    const picks = talk.basket.map((_, number): Choice => ({ take: "line", line: number }));
    const from = firstOf(picks.length, page, LINES);
    const items = itemsOf(port, talk, picks).slice(from, from + LINES);
    return {
      say: sentences.changeWhich({ items, more: picks.length > LINES }),
      list: { of: "picks", picks },
    };
  }
  const range = rangesOf(port.menu).get(line.offer);
  const parts: Part[] = [];
  if ((range?.colours.length ?? 0) > 1) parts.push("colour");
  if ((range?.sizes.length ?? 0) > 1) parts.push("size");
  parts.push("quantity");
  if (port.menu.offers.length > 1) parts.push("offer");
  parts.push("all");
  const picks = parts.map((part): Choice => ({ take: "part", part, line: index }));
  const facts = { known: knownOf(port.menu, talk.language, line), items: itemsOf(port, talk, picks) };
  return { say: sentences.changeWhat(facts), list: { of: "picks", picks } };
}
