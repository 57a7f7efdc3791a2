/** One turn of a conversation: a text comes in, the stall does what it asks, and replies. */

import type { Menu } from "../model/menu/catalogue.ts";
import { MINUTE } from "../time/instants.ts";
import { answerTo } from "./answers/answer.ts";
import { questionIn } from "./answers/questions.ts";
import { fitted, isSmall } from "./fitting/fit.ts";
import { agreed, back, declined, menu, more } from "./steps/around.ts";
import { changing } from "./steps/changing.ts";
import { add, change } from "./steps/confirm.ts";
import { codeIn, confirmNumber } from "./steps/confirm-number.ts";
import { drop } from "./steps/drop.ts";
import { help, sizes, status } from "./steps/inform.ts";
import { spoken } from "./steps/language.ts";
import { ask } from "./steps/question.ts";
import { numbered } from "./steps/take.ts";
import { after, type ConversationTurn, type TurnAnswer, type TurnInput } from "./steps/turn.ts";
import { wishing } from "./steps/wishing.ts";
import { worded } from "./steps/words.ts";
import { draftOf } from "./talk/draft.ts";
import type { OrderingPort } from "./talk/ordering-port.ts";
import { IDLE, NO_LIST, type Talk } from "./talk/talk.ts";
import { asksErasing } from "./understand/commands.ts";
import { lexiconOf } from "./understand/lexicon.ts";
import { type Context, type Reading, read } from "./understand/read.ts";
import { wishIn } from "./understand/wishes.ts";
import { sentencesOf } from "./wording/languages.ts";
import { isOpen } from "./wording/say-names.ts";
import { signed } from "./wording/signed.ts";

// A basket left for this long is not added to: the customer starts again.
const FORGOTTEN_AFTER = 30 * MINUTE;

/**
 * Answers one text. May change the stall (stock held, an order placed or dropped); returns the conversation as a new
 * value. Never throws on any text. Has no reply if silence is meant.
 */
export function converse(port: OrderingPort, talk: Talk, said: TurnInput): ConversationTurn {
  const heard = spoken(hearing(port, talk), said);
  const reading = read(port.menu, heard.language, contextOf(heard, said.channel), said.text);
  const stop = reading.type === "command" && reading.command === "stop";
  if (stop) return optingOut(port, heard, said);
  const over = heard.rate.texts - port.menu.rules.textsPerMinute;
  if (over > 0) return { talk: heard, replies: [], ...(over === 1 ? { overLimit: true } : {}) };
  if (asksErasing(said.text)) return erasing(port, heard, said);
  if (heard.optedOut && reading.type === "command" && reading.command === "start") {
    const back = { ...heard, optedOut: false };
    const say = sentencesOf(port, heard).optedIn({ stall: port.stallName });
    return { ...spokenTurn(port, after(say, menu(port, back)), said), optIn: true };
  }
  if (heard.optedOut && said.channel === "text") return { talk: heard, replies: [] };
  const code = said.channel === "text" ? codeIn(said.text, port.pickupWords, reading) : null;
  if (code !== null) return spokenTurn(port, confirmNumber(port, heard, code), said);
  return spokenTurn(port, answer(port, remembered(port, talk, heard, reading), reading, said), said);
}

/** Whether a text opts out of texts or in again: obeyed whatever the last question was. */
export function asksSilence(menu: Menu, talk: Talk, text: string): boolean {
  const reading = read(menu, talk.language, contextOf(talk), text);
  return reading.type === "command" && (reading.command === "stop" || reading.command === "start");
}

/** The talk with this text counted in its minute. */
function hearing({ now }: OrderingPort, talk: Talk): Talk {
  const { since, texts } = talk.rate;
  const rate = now - since < MINUTE && now >= since ? { since, texts: texts + 1 } : { since: now, texts: 1 };
  return { ...talk, rate, heardAt: now };
}

const contextOf = (talk: Talk, channel: TurnInput["channel"] = "text"): Context => ({
  draft: draftOf(talk),
  onPage: channel === "web",
});

const spokenTurn = (
  port: OrderingPort,
  { talk, say }: TurnAnswer,
  { channel }: TurnInput,
): ConversationTurn => ({
  talk,
  replies: [channel === "text" ? fitted(signed(port, say), isSmall(port.menu)) : say(0)],
});

function optingOut(port: OrderingPort, talk: Talk, said: TurnInput): ConversationTurn {
  if (talk.optedOut && said.channel === "text") return { talk, replies: [], optOut: true };
  // Where the number is everybody's, it is everybody who falls silent.
  const stall = port.sharesNumber === true ? port.fairName : port.stallName;
  const orders = port.orders().filter(isOpen).length;
  const facts = { stall, contact: port.menu.rules.contact ?? null, orders };
  const say = sentencesOf(port, talk).optedOut(facts);
  return {
    ...spokenTurn({ ...port, sharesNumber: false }, { talk: { ...talk, optedOut: true }, say }, said),
    optOut: true,
  };
}

/** A number that has opted out is erased without an answer. */
function erasing(port: OrderingPort, talk: Talk, said: TurnInput): ConversationTurn {
  const orders = port.orders().filter(isOpen).length;
  const say = sentencesOf(port, talk).erased({ stall: port.stallName, orders });
  const isSilent = talk.optedOut && said.channel === "text";
  return { ...spokenTurn(port, { talk, say }, said), ...(isSilent ? { replies: [] } : {}), erase: true };
}

/** Forgets an old basket when the customer begins a new one. */
function remembered({ now }: OrderingPort, before: Talk, talk: Talk, reading: Reading): Talk {
  const begins =
    reading.type === "garments" ||
    (reading.type === "command" &&
      (reading.command === "menu" || reading.command === "hello" || reading.command === "drop"));
  if (!begins || now - before.heardAt < FORGOTTEN_AFTER) return talk;
  const { wish: _, changing: __, ...rest } = talk;
  return { ...rest, basket: [], pending: [], step: IDLE, list: NO_LIST };
}

function answer(port: OrderingPort, talk: Talk, reading: Reading, { text }: TurnInput): TurnAnswer {
  const question = questionIn(lexiconOf(port.menu), talk.language, text, reading);
  if (question !== null) return answerTo(port, talk, question, reading);
  const changed = changing(port, talk, text);
  if (changed !== null) return changed;
  const wished = wishIn(lexiconOf(port.menu), text);
  if (wished !== null) return wishing(port, talk, wished);
  switch (reading.type) {
    case "command":
      return commanded(port, talk, reading);
    case "number":
      return numbered(port, talk, reading.number);
    case "garments":
      return worded(port, talk, text, reading.lines);
    case "nothing":
    case "unknown":
      return puzzled(port, talk);
    default:
      return reading satisfies never;
  }
}

/**
 * A text that was not understood keeps the customer's place: ask the same question again, or say what is possible here.
 */
function puzzled(port: OrderingPort, talk: Talk): TurnAnswer {
  if (talk.step.at !== "idle") return after(sentencesOf(port, talk).notUnderstood(), ask(port, talk));
  if (port.orders().length > 0 || talk.basket.length > 0)
    return after(sentencesOf(port, talk).notUnderstood(), ask(port, talk));
  return menu(port, talk);
}

function commanded(
  port: OrderingPort,
  talk: Talk,
  { command, number }: Reading & { readonly type: "command" },
): TurnAnswer {
  switch (command) {
    case "hello":
      return talk.step.at === "idle" ? menu(port, talk) : ask(port, talk);
    case "menu":
    case "start":
    case "stop":
      return menu(port, talk);
    case "more":
      return more(port, talk);
    case "back":
      return back(port, talk);
    case "status":
      return status(port, talk);
    case "help":
      return help(port, talk);
    case "sizes":
      return sizes(port, talk);
    case "drop":
      return drop(port, talk, number);
    case "yes":
      return agreed(port, talk);
    case "no":
      return declined(port, talk);
    case "add":
      return talk.basket.length > 0 ? add(port, talk) : menu(port, talk);
    case "change":
      return talk.basket.length > 0 ? change(port, talk) : back(port, talk);
    case "drop-asked":
      return drop(port, talk, null, true);
    case "thanks":
      return talk.step.at === "idle"
        ? { talk, say: sentencesOf(port, talk).welcome() }
        : after(sentencesOf(port, talk).welcome(), ask(port, talk));
    default:
      return command satisfies never;
  }
}
