/** Talking with the stall: what is said goes through the outbox, what the stall says is asked for. */
import { nanoid } from "nanoid";
import type { ChatHistory, ChatReply, Shown } from "../../../model/orders/chat.ts";
import type { OrderStanding } from "../../../model/orders/order.ts";
import { type Api, detailOf, problemOf, type Reply } from "../kit/api.ts";
import { Conversation } from "./conversation.ts";
import type { Drawing } from "./drawing.ts";
import type { Outbox, Unsent } from "./outbox.ts";
import type { PageWords } from "./words.ts";

/** Where the customer's token is kept. */
type Token = {
  readonly get: () => string | null;
  readonly keep: (token: string) => void;
  readonly forget: () => void;
};

export type Talking = {
  /** Says something, now or as soon as there is a connection. */
  readonly say: (text: string) => void;
  /** Sends what waits, then asks for news; whether the stall answered. */
  readonly look: () => Promise<boolean>;
  readonly sendNow: () => Promise<boolean>;
  /** Draws the open choices again: more is known of how they look. */
  readonly redraw: () => void;
};

export type TalkingTools = {
  readonly api: Api;
  readonly outbox: Outbox;
  readonly token: Token;
  readonly draw: Drawing;
  readonly drawTicket: (order: OrderStanding | undefined) => void;
  readonly words: PageWords;
};

/** A first message carries at least 128 random bits: 22 characters of 6 bits. */
const ID_LENGTH = 22;
const OPENING = "menu";

type Outcome = "heard" | "unheard";

export function talking({ api, outbox, token, draw, drawTicket, words }: TalkingTools): Talking {
  const conversation = new Conversation();
  let last = 0;
  /** Whether what was said before this page was opened is shown, so that what is said now comes after it. */
  let caughtUp = false;
  let failed = false;
  /** What can be drawn beside the list that is open. */
  let shows: Shown | undefined;
  let strange = false;
  let sending: Promise<boolean> | null = null;

  const redraw = (): void => {
    draw.waiting(outbox.all(), failed);
    draw.choices(conversation, outbox.all().length > 0, shows);
  };

  const refusalWords = (reply: Reply): string => words.problems[problemOf(reply) ?? ""] ?? detailOf(reply);

  /** Starts over as a new customer: the stall no longer knows this one. */
  const startAnew = (): void => {
    token.forget();
    last = 0;
    draw.trouble(words.startedAgain);
  };

  const heard = ({ id, text }: Unsent, { customer, replies, order, shows: shown }: ChatReply): void => {
    shows = shown;
    token.keep(customer);
    outbox.remove(id);
    draw.lines(conversation.addTurn(id, text, replies));
    drawTicket(order);
    draw.trouble(replies.length === 0 ? words.silent : null);
  };

  const sendOne = async (unsent: Unsent): Promise<Outcome> => {
    const { id, text } = unsent;
    const reply = await api("/chat", { method: "POST", body: { id, text } });
    if (reply.status === 200) {
      heard(unsent, reply.body as ChatReply); // as the route documents
      return "heard";
    }
    if (reply.status === 0 || reply.status === 429 || reply.status >= 500) return "unheard";
    if (token.get() !== null && (reply.status === 401 || reply.status === 403)) {
      startAnew();
      return sendOne(unsent);
    }
    outbox.remove(id);
    draw.trouble(refusalWords(reply));
    return "heard";
  };

  /** Asks for what is new; whether the stall answered. */
  const news = async (): Promise<boolean> => {
    const reply = await api(`/chat?after=${last}`);
    if (reply.status === 401 || reply.status === 403) {
      startAnew();
      return true;
    }
    if (reply.status !== 200) {
      if (reply.status === 0) return false;
      strange = true;
      draw.trouble(reply.status >= 500 ? words.strange : refusalWords(reply));
      return true;
    }
    if (strange) draw.trouble(null);
    strange = false;
    const page = reply.body as ChatHistory; // as the route documents
    last = page.last;
    shows = page.shows;
    caughtUp = true;
    // What is being sent this moment comes with its own reply.
    const waits = new Set(outbox.all().map(({ id }) => id));
    draw.lines(conversation.addHistory(page.messages.filter(({ id }) => !waits.has(id.slice(0, ID_LENGTH)))));
    drawTicket(page.order);
    redraw();
    return true;
  };

  const sendAll = async (): Promise<boolean> => {
    if (!caughtUp && token.get() !== null && !(await news())) {
      failed = outbox.all().length > 0;
      redraw();
      return false;
    }
    if (conversation.lines.length === 0 && outbox.all().length === 0) {
      // The page opens the talk by itself.
      outbox.add({ id: nanoid(ID_LENGTH), text: OPENING });
      redraw();
    }
    for (let next = outbox.all()[0]; next !== undefined; next = outbox.all()[0]) {
      const outcome = await sendOne(next);
      failed = outcome === "unheard";
      redraw();
      if (failed) return false;
    }
    return true;
  };

  /** One sending at a time, so that messages arrive in the order they were said. */
  const sendNow = (): Promise<boolean> => {
    sending ??= sendAll().finally(() => {
      sending = null;
    });
    return sending;
  };

  const say = (text: string): void => {
    outbox.add({ id: nanoid(ID_LENGTH), text });
    draw.trouble(null);
    redraw();
    void sendNow();
  };

  return {
    say,
    sendNow,
    redraw,
    look: async () => (await sendNow()) && (token.get() === null || (await news())),
  };
}
