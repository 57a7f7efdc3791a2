/** A text that says an order's number and its pickup word: the sender's number is confirmed for that order. */
import type { OrderingPort } from "../talk/ordering-port.ts";
import type { Talk } from "../talk/talk.ts";
import type { Reading } from "../understand/read.ts";
import { sentencesOf } from "../wording/languages.ts";
import { factsOf } from "../wording/say-names.ts";
import { after, type TurnAnswer } from "./turn.ts";

type Code = { readonly number: number; readonly word: string };

/**
 * The code in a text, or null if the text is something else: an order's number and one of the pickup words there are, or
 * a word that says nothing else, as one with a slip in it.
 */
export function codeIn(text: string, words: ReadonlySet<string>, reading: Reading): Code | null {
  const found = /^\s*#?([1-9][0-9]{2,5})[\s,:]+(\p{L}+)[\s.!]*$/u.exec(text);
  const word = found?.[2]?.toLowerCase();
  if (word === undefined || !(words.has(word) || saysNothing(reading))) return null;
  return { number: Number(found?.[1]), word };
}

/** Whether a reading names nothing of the menu, only a number that does not answer the question. */
const saysNothing = (reading: Reading): boolean =>
  reading.type === "unknown" ||
  reading.type === "number" ||
  (reading.type === "garments" &&
    reading.lines.every(
      ({ impossible, ambiguous, stated }) => impossible === "number" && ambiguous === null && stated <= 1,
    ));

/** Confirms the number, and gives the order's state. Every mismatch gets the same answer. */
export function confirmNumber(port: OrderingPort, talk: Talk, { number, word }: Code): TurnAnswer {
  const sentences = sentencesOf(port, talk);
  // A slip is no attempt: no order has such a word.
  if (!port.pickupWords.has(word)) return { talk, say: sentences.codeDoesNotFit() };
  const outcome = port.confirmNumber(number, word);
  if (outcome.ok) {
    const order = outcome.value;
    return after(sentences.numberConfirmed({ number }), {
      talk,
      say: sentences.status({ orders: [factsOf(port, order)] }),
    });
  }
  switch (outcome.refusal.code) {
    case "does-not-fit":
      return { talk, say: sentences.codeDoesNotFit() };
    case "tried-too-often":
      return { talk, say: sentences.codeTriedTooOften() };
    case "too-many":
      return {
        talk,
        say: sentences.tooMany({ most: port.menu.rules.openOrdersPerSender, of: "open-orders" }),
      };
    default:
      return outcome.refusal.code satisfies never;
  }
}
