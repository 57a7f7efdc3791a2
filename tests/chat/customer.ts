/** A customer who texts a stall and reads the replies. */

import { converse } from "../../src/chat/converse.ts";
import type { ConversationTurn } from "../../src/chat/steps/turn.ts";
import type { OrderingPort } from "../../src/chat/talk/ordering-port.ts";
import { newTalk, type Talk } from "../../src/chat/talk/talk.ts";
import type { Language } from "../../src/model/basics/words.ts";
import { customer, type Shop } from "./stall.ts";

export type Texter = {
  readonly talk: Talk;
  readonly port: OrderingPort;
  /** Sends a text and gives the whole turn. */
  readonly turn: (text: string) => ConversationTurn;
  /** Sends texts and gives the last reply. */
  readonly text: (...texts: readonly string[]) => string;
  readonly hears: (talk: Talk) => void;
};

let next = 1;

export function texter(shop: Shop, channel: "text" | "web" = "text", language: Language = "en"): Texter {
  const id = customer(next++);
  let talk = newTalk(language);
  const turn = (text: string): ConversationTurn => {
    const result = converse(shop.port(id, channel), talk, { text, channel });
    talk = result.talk;
    return result;
  };
  return {
    get talk() {
      return talk;
    },
    get port() {
      return shop.port(id, channel);
    },
    turn,
    text: (...texts) => texts.map((text) => turn(text).replies.join("\n")).at(-1) ?? "",
    hears: (heard) => {
      talk = heard;
    },
  };
}
