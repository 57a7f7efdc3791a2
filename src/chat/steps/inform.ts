/** Telling: how the orders do, how the conversation works, how wide the sizes are. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import { nameIn, rangesOf } from "../talk/range.ts";
import type { Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { factsOf, isOpen } from "../wording/say-names.ts";
import type { TurnAnswer } from "./turn.ts";

/** The state of each open order, else of the last ended one. */
export function status(port: OrderingPort, talk: Talk): TurnAnswer {
  const sentences = sentencesOf(port, talk);
  const orders = port.orders().filter(isOpen);
  if (orders.length > 0)
    return { talk, say: sentences.status({ orders: orders.map((order) => factsOf(port, order)) }) };
  const ended = port.lastEnded();
  return { talk, say: ended === null ? sentences.noOrder() : sentences.ended(ended) };
}

export function help(port: OrderingPort, talk: Talk): TurnAnswer {
  const facts = { stall: port.stallName, contact: port.menu.rules.contact ?? null };
  return { talk, say: sentencesOf(port, talk).help(facts) };
}

/** The chest widths of the blank being chosen, else of the first that is measured. */
export function sizes(port: OrderingPort, talk: Talk): TurnAnswer {
  const sentences = sentencesOf(port, talk);
  const offer = talk.step.at === "choosing" || talk.step.at === "which" ? talk.step.draft.offer : null;
  const ranges = rangesOf(port.menu);
  const chosen = offer === null ? undefined : ranges.get(offer);
  const range = chosen ?? [...ranges.values()].find((other) => measured(other.sizes).length > 0);
  const items = measured(range?.sizes ?? []).map((size, index) => ({
    number: index + 1,
    name: nameIn(talk.language, size),
    price: String(size.chestInches),
  }));
  return { talk, say: items.length === 0 ? sentences.noChests() : sentences.chests({ items }) };
}

const measured = <Size extends { readonly chestInches?: number | undefined }>(all: readonly Size[]) =>
  all.filter(({ chestInches }) => chestInches !== undefined);
