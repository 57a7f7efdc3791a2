/** The confirming question answered: yes, add another, change. */
import { newAsks } from "../talk/asks.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import {
  type BasketLine,
  type Draft,
  EMPTY_DRAFT,
  IDLE,
  NO_LIST,
  type Part,
  type Talk,
} from "../talk/talk.ts";
import { savedBy } from "../wording/bundles-said.ts";
import { sentencesOf } from "../wording/languages.ts";
import { billOf } from "../wording/price.ts";
import { factsOf, payAtOf, payingOf } from "../wording/say-names.ts";
import { hold, proceed, refusedAt } from "./choose.ts";
import { ask } from "./question.ts";
import { after, type TurnAnswer } from "./turn.ts";

const wanted = (basket: readonly BasketLine[]) => basket.map(({ each: _, ...line }) => line);

/**
 * Places the basket. An expired hold is taken again if stock is free; if the price has changed, the customer is asked
 * again.
 */
export function yes(port: OrderingPort, talk: Talk, shown: number): TurnAnswer {
  const sentences = sentencesOf(port, talk);
  const lines = wanted(talk.basket);
  if (port.bill(lines).total !== shown) {
    return after(sentences.priceChanged(), hold(port, talk));
  }
  const asks = newAsks(port, talk, lines);
  const outcome = port.attempt({
    type: "place",
    lines,
    asks,
    language: talk.language,
    wish: talk.wish ?? null,
  });
  if (!outcome.ok) return refusedAt(port, talk, outcome.refusal, asks);
  const { wish: _, ...rest } = talk;
  const done: Talk = { ...rest, basket: [], pending: [], step: IDLE, list: NO_LIST };
  const order = outcome.value;
  if (order === null) return { talk: done, say: sentences.idle() };
  const { rules } = port.menu;
  const say = sentences.placed({
    order: factsOf(port, order),
    bill: billOf(port.menu, order),
    saved: savedBy(port.menu, talk.language, order),
    paying: payingOf(port.menu),
    payMinutes: rules.payMinutes,
    claimMinutes: rules.claimMinutes,
    payAt: payAtOf(port.menu, order),
  });
  return { talk: done, say };
}

/** Shows the menu again for another garment; the basket stays held. */
export function add(port: OrderingPort, talk: Talk): TurnAnswer {
  return proceed(port, talk, EMPTY_DRAFT);
}

/** Asks which line to change; if there is only one, which part of it. */
export function change(port: OrderingPort, talk: Talk): TurnAnswer {
  return ask(port, {
    ...talk,
    step: { at: "change", line: talk.basket.length === 1 ? 0 : null, page: 0 },
  });
}

/** Clears one part of a line, to be chosen again. */
export function changePart(port: OrderingPort, talk: Talk, index: number, part: Part): TurnAnswer {
  const line = talk.basket[index];
  if (line === undefined) return ask(port, talk);
  const basket = talk.basket.filter((other) => other !== line);
  const without: Talk = { ...talk, basket };
  if (part === "all") return basket.length > 0 ? hold(port, without) : emptied(port, without);
  const { offer, colour, size, quantity } = line;
  const draft: Draft = { offer, colour, size, quantity };
  return proceed(port, without, { ...draft, [part]: null });
}

/** Discards the basket. */
export function emptied(port: OrderingPort, talk: Talk): TurnAnswer {
  if (port.holding) port.attempt({ type: "release" });
  const { wish: _, ...rest } = talk;
  const nothing: Talk = { ...rest, basket: [], pending: [], step: IDLE, list: NO_LIST };
  return { talk: nothing, say: sentencesOf(port, talk).basketDropped() };
}
