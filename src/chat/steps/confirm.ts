/** The confirming question answered: yes, add another, change. */
import { newAsks } from "../talk/asks.ts";
import type { Counter } from "../talk/ordering-port.ts";
import {
  type BasketLine,
  type Draft,
  EMPTY_DRAFT,
  IDLE,
  NO_LIST,
  type Part,
  type Talk,
} from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { factsOf, payAtOf, payingOf, price } from "../wording/say-names.ts";
import { hold, proceed, refusedAt } from "./choose.ts";
import { ask } from "./question.ts";
import { after, type TurnAnswer } from "./turn.ts";

const wanted = (basket: readonly BasketLine[]) => basket.map(({ each: _, ...line }) => line);

/**
 * Places the basket. A hold that has expired is taken again where stock is free; where the price has
 * changed meanwhile, the customer is asked again.
 */
export function yes(counter: Counter, talk: Talk, shown: number): TurnAnswer {
  const sentences = sentencesOf(talk.language);
  const lines = wanted(talk.basket);
  if (!counter.holding && counter.total(lines) !== shown) {
    return after(sentences.priceChanged(), hold(counter, talk));
  }
  const asks = newAsks(counter, talk, lines);
  const outcome = counter.attempt({ type: "place", lines, asks });
  if (!outcome.done) return refusedAt(counter, talk, outcome.refusal, asks);
  const done: Talk = { ...talk, basket: [], pending: [], step: IDLE, list: NO_LIST };
  const { order } = outcome;
  if (order === null) return { talk: done, say: sentences.idle() };
  const { rules } = counter.menu;
  const say = sentences.placed({
    order: factsOf(order),
    total: price(counter.menu, order.total),
    paying: payingOf(counter.menu),
    payMinutes: rules.payMinutes,
    claimMinutes: rules.claimMinutes,
    payAt: payAtOf(counter.menu, order),
  });
  return { talk: done, say };
}

/** The menu again, for another garment; what was settled stays set aside. */
export function add(counter: Counter, talk: Talk): TurnAnswer {
  return proceed(counter, talk, EMPTY_DRAFT);
}

/** Asks what to change; where there is one line, what of it. */
export function change(counter: Counter, talk: Talk): TurnAnswer {
  return ask(counter, {
    ...talk,
    step: { at: "change", line: talk.basket.length === 1 ? 0 : null, page: 0 },
  });
}

/** Takes one part of a line back, to be said anew. */
export function changePart(counter: Counter, talk: Talk, index: number, part: Part): TurnAnswer {
  const line = talk.basket[index];
  if (line === undefined) return ask(counter, talk);
  const basket = talk.basket.filter((other) => other !== line);
  const without: Talk = { ...talk, basket };
  if (part === "all") return basket.length > 0 ? hold(counter, without) : emptied(counter, without);
  const { offer, colour, size, quantity } = line;
  const draft: Draft = { offer, colour, size, quantity };
  return proceed(counter, without, { ...draft, [part]: null });
}

/** Gives up what was not confirmed. */
export function emptied(counter: Counter, talk: Talk): TurnAnswer {
  if (counter.holding) counter.attempt({ type: "release" });
  const nothing: Talk = { ...talk, basket: [], pending: [], step: IDLE, list: NO_LIST };
  return { talk: nothing, say: sentencesOf(talk.language).basketDropped() };
}
