/** Drops an order or the basket. */
import { begunAt } from "../talk/draft.ts";
import type { OrderingPort } from "../talk/ordering-port.ts";
import { IDLE, NO_LIST, type Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { isOpen } from "../wording/say-names.ts";
import { hold } from "./choose.ts";
import { emptied } from "./confirm.ts";
import { status } from "./inform.ts";
import { ask } from "./question.ts";
import { after, type TurnAnswer } from "./turn.ts";

/**
 * The drop word: drops the one thing it can mean, or asks which. Looking at the menu begins nothing, so that an order
 * is meant; `ask` has even one order asked about.
 */
export function drop(port: OrderingPort, talk: Talk, number: number | null, asks = false): TurnAnswer {
  if (number !== null && number >= 100) return dropOrder(port, talk, number);
  const orders = port
    .orders()
    .filter(isOpen)
    .map((order) => order.number);
  const before = talk.step.at === "drop" ? talk.step.before : talk.step;
  const begun = before === undefined ? null : begunAt(before);
  const unconfirmed = talk.basket.length > 0 || begun !== null || talk.pending.length > 0;
  const [only] = orders;
  if (only === undefined && !unconfirmed) return { talk, say: sentencesOf(port, talk).nothingToDrop() };
  const meanings = orders.length + (unconfirmed ? 1 : 0) + (talk.basket.length > 0 && begun !== null ? 1 : 0);
  if (meanings === 1 && !asks)
    return only === undefined
      ? emptied(port, talk)
      : dropOrder(port, { ...talk, step: IDLE, list: NO_LIST }, only);
  return ask(port, { ...talk, step: { at: "drop", orders, ...(before === undefined ? {} : { before }) } });
}

/** Returns to the step before the question what to drop, or drops the garment under way. */
export function resumed(port: OrderingPort, talk: Talk, withoutDraft: boolean): TurnAnswer {
  const before = talk.step.at === "drop" ? talk.step.before : undefined;
  if (before !== undefined && !withoutDraft && begunAt(before) !== null)
    return ask(port, { ...talk, step: before });
  if (talk.basket.length > 0) return hold(port, talk);
  return status(port, { ...talk, step: IDLE, list: NO_LIST });
}

/** Drops one order, if it is the customer's and not on a press. */
export function dropOrder(port: OrderingPort, talk: Talk, number: number): TurnAnswer {
  const sentences = sentencesOf(port, talk);
  const order = port.orders().find((other) => other.number === number);
  const outcome = port.attempt({ type: "drop", number });
  const say = outcome.ok
    ? sentences.dropped({ number })
    : outcome.refusal.code === "reserved"
      ? sentences.dropAsked({ number })
      : sentences.cannotDrop({ number, stage: order?.stage ?? "dropped" });
  if (talk.step.at !== "drop") return { talk, say };
  const { before } = talk.step;
  const open = talk.basket.length > 0 || (before !== undefined && begunAt(before) !== null);
  return open
    ? after(say, resumed(port, talk, false))
    : { talk: { ...talk, step: IDLE, list: NO_LIST }, say };
}
