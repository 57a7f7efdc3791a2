/** The question of a conversation's current step, and the list that a bare number answers. */

import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { surchargeOf } from "../../model/menu/prices.ts";
import { pageSize, type Say } from "../fitting/fit.ts";
import { begunAt } from "../talk/draft.ts";
import { isLeft, roomFor } from "../talk/free-stock.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn, priceIn, type Range, rangesOf } from "../talk/range.ts";
import {
  type Choice,
  type Draft,
  type List,
  NO_LIST,
  type Part,
  type Step,
  type Talk,
} from "../talk/talk.ts";
import { bundlesOnSale, savedBy } from "../wording/bundles-said.ts";
import { takenAtCounter } from "../wording/counter-wish.ts";
import { itemsOf } from "../wording/items.ts";
import { sentencesOf } from "../wording/languages.ts";
import { billOf, price } from "../wording/price.ts";
import { knownOf, offerPrice } from "../wording/say-names.ts";
import type { Item } from "../wording/shape.ts";
import type { TurnAnswer } from "./turn.ts";

/** Lines of an order say more, so fewer of them fit. */
const LINES = 3;

/** Asks the question of the current step, and stores the list that answers it. */
export function ask(port: OrderingPort, talk: Talk): TurnAnswer {
  const { say, list } = question(port, talk);
  return { talk: { ...talk, list }, say };
}

type Question = { readonly say: Say; readonly list: List };

function question(port: OrderingPort, talk: Talk): Question {
  const { step, language } = talk;
  const sentences = sentencesOf(port, talk);
  switch (step.at) {
    case "idle":
      return { say: sentences.idle(), list: NO_LIST };
    case "choosing":
      return choice(port, talk, step.draft, step.page);
    case "which": {
      const all = itemsOf(port, talk, step.picks, step.draft);
      const { shown, more } = pageOf(
        all,
        all.map(({ brief, name }) => brief ?? name),
        step.page ?? 0,
      );
      const known = knownOf(port.menu, language, step.draft);
      return {
        say: sentences.askWhich({ known, items: shown, more }),
        list: { of: "picks", picks: step.picks },
      };
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
      return confirmation(port, talk);
    case "change":
      return changing(port, talk, step.line, step.page);
    case "changing": {
      const items = itemsOf(port, talk, step.picks);
      const known = knownOf(port.menu, language, step.draft);
      const say =
        step.about === "part"
          ? sentences.changeWhat({ known, items })
          : sentences.changeWhich({ items, more: false });
      return { say, list: { of: "picks", picks: step.picks } };
    }
    case "drop": {
      const picks = droppable(talk, step);
      return {
        say: sentences.dropWhich({ items: itemsOf(port, talk, picks) }),
        list: { of: "picks", picks },
      };
    }
    default:
      return step satisfies never;
  }
}

/** What can be dropped: orders, the garment under way, the basket; or nothing. */
function droppable(
  { basket }: Talk,
  { orders, before }: Extract<Step, { readonly at: "drop" }>,
): readonly Choice[] {
  const draft = before === undefined ? null : begunAt(before);
  return [
    ...orders.map((number): Choice => ({ take: "drop-order", number })),
    ...(draft !== null && basket.length > 0 ? [{ take: "drop-draft", draft } as const] : []),
    ...(draft !== null || basket.length > 0 ? [{ take: "drop-basket" } as const] : []),
    { take: "drop-nothing" },
  ];
}

/** The first thing a draft lacks, asked for. */
function choice(port: OrderingPort, talk: Talk, draft: Draft, page: number): Question {
  const { menu } = port;
  const sentences = sentencesOf(port, talk);
  const what = knownOf(menu, talk.language, draft);
  const range = draft.offer === null ? undefined : rangesOf(menu).get(draft.offer);
  const gone = (change: Partial<Draft>): boolean => !isLeft(port, talk, { ...draft, ...change });
  if (range === undefined) return offers(port, talk, draft, page);
  if (draft.colour === null) {
    const { items, more } = paged(talk, range.colours, page, (colour) => gone({ colour }));
    return {
      say: sentences.askColour({ known: what, items, more }),
      list: { of: "colours", colours: range.colours.map(({ id }) => id) },
    };
  }
  if (draft.size === null) {
    const { items: sizes, more } = paged(talk, range.sizes, page, (size) => gone({ size }));
    const items = sizes.map((item): Item => {
      const size = range.sizes[item.number - 1];
      const surcharge = size === undefined ? 0 : surchargeOf(range.offer, size);
      return surcharge === 0 ? item : { ...item, price: `+${price(menu, surcharge)}` };
    });
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

/** One page of a list of choices, each with its fixed number. */
function paged<Id>(
  { language }: Talk,
  choices: readonly (Named & { readonly id: Id })[],
  page: number,
  gone: (id: Id) => boolean,
): { readonly items: readonly Item[]; readonly more: boolean } {
  const items = choices.map((choice, index) => ({
    number: index + 1,
    name: nameIn(language, choice),
    id: choice.id,
  }));
  const names = items.map(({ name }) => name);
  const { shown, more } = pageOf(items, names, page);
  return { items: shown.map(({ number, name, id }) => ({ number, name, gone: gone(id) })), more };
}

/** The rows of one page, as many as their names leave room for; after the last page comes the first. */
function pageOf<Row>(
  rows: readonly Row[],
  names: readonly string[],
  page: number,
  most = pageSize(names),
): { readonly shown: readonly Row[]; readonly more: boolean } {
  const from = (page % Math.max(Math.ceil(rows.length / most), 1)) * most;
  return { shown: rows.slice(from, from + most), more: rows.length > most };
}

/** One page of the menu, or of the offers in the colour and size already named. */
function offers(port: OrderingPort, talk: Talk, draft: Draft, page: number): Question {
  const { menu } = port;
  const sentences = sentencesOf(port, talk);
  const all = [...rangesOf(menu).values()];
  const fitting = all.filter((range) => comesIn(range, draft));
  const names = fitting.map(({ offer }) => nameIn(talk.language, offer));
  const { shown, more } = pageOf(fitting, names, page);
  const items = shown.map((range): Item => {
    const { offer, number } = range;
    const gone = !isLeft(port, talk, { ...draft, offer: offer.id });
    return { number, name: nameIn(talk.language, offer), price: priceFor(port, talk, range, draft), gone };
  });
  const plain = draft.colour === null && draft.size === null;
  const say = plain
    ? sentences.menu({
        stall: port.stallName,
        items,
        example: example(menu, talk.language),
        more,
        basket: talk.basket.reduce((sum, { quantity }) => sum + quantity, 0),
        bundles: bundlesOnSale(menu, talk.language),
        lastOrders: port.lastOrders ?? false,
      })
    : sentences.askOffer({ known: knownOf(menu, talk.language, draft), items, more });
  return { say, list: { of: "offers", offers: all.map(({ offer }) => offer.id) } };
}

/** The price of an offer in the size already named, else the lowest. */
function priceFor({ menu }: OrderingPort, { language }: Talk, range: Range, draft: Draft): string {
  const known = draft.size === null ? undefined : priceIn(menu, { offer: range.offer.id, size: draft.size });
  return known === undefined ? offerPrice(menu, language, range) : price(menu, known);
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

function confirmation(port: OrderingPort, talk: Talk): Question {
  const { menu } = port;
  const lines = talk.basket.map((line) => knownOf(menu, talk.language, line));
  const bill = port.bill(talk.basket);
  const say = sentencesOf(port, talk).confirm({
    lines,
    bill: billOf(menu, bill),
    saved: savedBy(menu, talk.language, bill),
    minutes: port.waitMinutes(talk.basket),
    wish: talk.wish ?? null,
    taken: talk.wish === undefined ? null : takenAtCounter(port, talk, talk.wish),
  });
  return { say, list: { of: "picks", picks: [{ take: "yes" }, { take: "add" }, { take: "change" }] } };
}

function changing(port: OrderingPort, talk: Talk, index: number | null, page: number): Question {
  const sentences = sentencesOf(port, talk);
  const line = index === null ? undefined : talk.basket[index];
  if (index === null || line === undefined) {
    const picks = talk.basket.map((_, number): Choice => ({ take: "line", line: number }));
    const all = itemsOf(port, talk, picks);
    const most = Math.min(LINES, pageSize(all.map(({ name }) => name)));
    const { shown, more } = pageOf(all, [], page, most);
    return {
      say: sentences.changeWhich({ items: shown, more }),
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
