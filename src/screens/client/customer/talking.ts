/** The conversation with the stall: messages wait in the outbox and are sent in order; news is polled. */
import { nanoid } from "nanoid";
import type { ChatHistory, ChatReply } from "../../../model/orders/chat.ts";
import { type Api, detailOf, problemOf, type Reply } from "../kit/api.ts";
import type { Unsent } from "./outbox.ts";
import {
  cutOff,
  forgotten,
  heard,
  ID_LENGTH,
  news,
  noNews,
  refused,
  type State,
  saying,
  type Trouble,
} from "./state.ts";

/** Where the customer's token is kept. */
type Token = {
  readonly get: () => string | null;
  readonly keep: (token: string) => void;
  readonly forget: () => void;
};

export type Talking = {
  /** Says something, now or as soon as there is a connection. */
  readonly say: (text: string) => void;
  /** Sends unsent messages, then asks for news. Returns whether the stall answered. */
  readonly look: () => Promise<boolean>;
  readonly sendNow: () => Promise<boolean>;
};

export type TalkingTools = {
  readonly api: Api;
  readonly token: Token;
  readonly state: () => State;
  /** Changes the page's state and draws it. */
  readonly change: (to: (before: State) => State) => void;
};

const OPENING = "menu";

const refusal = (reply: Reply): Trouble => ({
  why: "refused",
  problem: problemOf(reply),
  detail: detailOf(reply),
});

export function talking({ api, token, state, change }: TalkingTools): Talking {
  let sending: Promise<boolean> | null = null;

  const startAgain = (): void => {
    token.forget();
    change(forgotten);
  };

  /** Sends one message. Returns whether the stall answered. */
  async function sendOne(one: Unsent): Promise<boolean> {
    const reply = await api("/chat", { method: "POST", body: { id: one.id, text: one.text } });
    if (reply.status === 200) {
      const answer = reply.body as ChatReply; // as the route documents
      token.keep(answer.customer);
      change((before) => heard(before, one, answer));
      return true;
    }
    if (reply.status === 0 || reply.status === 429 || reply.status >= 500) {
      change(cutOff);
      return false;
    }
    if (token.get() !== null && (reply.status === 401 || reply.status === 403)) {
      startAgain();
      return sendOne(one);
    }
    change((before) => refused(before, one, refusal(reply)));
    return true;
  }

  /** Asks for news. Returns whether the stall answered. */
  async function look(): Promise<boolean> {
    const asked = token.get();
    const reply = await api(`/chat?after=${state().last}`);
    if (reply.status === 0) return false;
    // Two looks at once: the first may have given the token up, and what the other hears then is of nobody.
    if (token.get() === null && asked !== null) return true;
    if (reply.status === 401 || reply.status === 403) startAgain();
    else if (reply.status === 200)
      change((before) => news(before, reply.body as ChatHistory)); // as the route documents
    else change((before) => noNews(before, reply.status >= 500 ? { why: "unreachable" } : refusal(reply)));
    return true;
  }

  async function sendAll(): Promise<boolean> {
    if (!state().isCaughtUp && token.get() !== null && !(await look())) {
      change(cutOff);
      return false;
    }
    // The page opens the talk itself.
    if (state().lines.length === 0 && state().unsent.length === 0)
      change((before) => saying(before, { id: nanoid(ID_LENGTH), text: OPENING }));
    for (let next = state().unsent[0]; next !== undefined; next = state().unsent[0])
      if (!(await sendOne(next))) return false;
    return true;
  }

  /** One sending at a time, so that messages arrive in the order they were said. */
  const sendNow = (): Promise<boolean> => {
    sending ??= sendAll().finally(() => {
      sending = null;
    });
    return sending;
  };

  return {
    say(text) {
      change((before) => saying(before, { id: nanoid(ID_LENGTH), text }));
      void sendNow();
    },
    sendNow,
    look: async () => (await sendNow()) && (token.get() === null || (await look())),
  };
}
