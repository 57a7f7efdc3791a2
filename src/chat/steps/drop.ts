/** Dropping an order, or what was not confirmed yet. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import type { Talk } from "../talk/talk.ts";
import { sentencesOf } from "../wording/languages.ts";
import { isOpen } from "../wording/say-names.ts";
import { emptied } from "./confirm.ts";
import { ask } from "./question.ts";
import type { TurnAnswer } from "./turn.ts";

/** The drop word: drops the one thing it can mean, or asks which. */
export function drop(port: OrderingPort, talk: Talk, number: number | null): TurnAnswer {
  if (number !== null && number >= 100) return dropOrder(port, talk, number);
  const orders = port
    .orders()
    .filter(isOpen)
    .map((order) => order.number);
  const underWay = talk.basket.length > 0 || (talk.step.at !== "idle" && talk.step.at !== "drop");
  const [only, ...others] = orders;
  if (underWay && (only === undefined || talk.basket.length === 0)) return emptied(port, talk);
  if (only === undefined) return { talk, say: sentencesOf(talk.language).nothingToDrop() };
  if (others.length === 0 && talk.basket.length === 0) return dropOrder(port, talk, only);
  return ask(port, { ...talk, step: { at: "drop", orders } });
}

/** Drops one order, if it is the customer's and no press has begun it. */
export function dropOrder(port: OrderingPort, talk: Talk, number: number): TurnAnswer {
  const sentences = sentencesOf(talk.language);
  const order = port.orders().find((other) => other.number === number);
  const outcome = port.attempt({ type: "drop", number });
  const calm: Talk =
    talk.step.at === "drop" ? { ...talk, step: { at: "idle" }, list: { of: "nothing" } } : talk;
  if (outcome.done) return { talk: calm, say: sentences.dropped({ number }) };
  if (outcome.refusal.code === "reserved") return { talk: calm, say: sentences.dropAsked({ number }) };
  return { talk: calm, say: sentences.cannotDrop({ number, stage: order?.stage ?? "dropped" }) };
}
