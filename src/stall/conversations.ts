/** A customer's conversation as the records keep it. */
import { newTalk } from "../chat/talk.ts";
import type { Menu } from "../model/catalogue.ts";
import type { CustomerId } from "../model/ids.ts";
import type { Books } from "./books.ts";
import type { Conversation, SaidTurn } from "./people.ts";

/** How many turns are kept: enough for a page to show and for a late repeat to be known. */
const KEPT_TURNS = 40;

export function conversationOf(books: Books, menu: Menu, customer: CustomerId): Conversation {
  return books.people.conversations.get(customer) ?? { talk: newTalk(menu.language), said: 0, turns: [] };
}

/** Adds a turn to what is kept of a conversation. */
export function remember(
  books: Books,
  customer: CustomerId,
  conversation: Conversation,
  turn: SaidTurn,
): void {
  books.people.conversations.set(customer, {
    ...conversation,
    said: conversation.said + 1,
    turns: [...conversation.turns, turn].slice(-KEPT_TURNS),
  });
}
