/** A customer's conversation as the records keep it. */
import { counted, newAsks } from "../../chat/talk/asks.ts";
import { newTalk } from "../../chat/talk/talk.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { WantedLine } from "../../model/orders/order.ts";
import type { Instant } from "../../time/instants.ts";
import type { Conversation, SaidTurn } from "../storage/people.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** How many turns are kept: enough for a page to show and for a late repeat to be known. */
const KEPT_TURNS = 40;

export function conversationOf(unit: UnitOfWork, menu: Menu, customer: CustomerId): Conversation {
  return unit.people.conversations.get(customer) ?? { talk: newTalk(menu.language), said: 0, turns: [] };
}

/** Adds a turn to what is kept of a conversation. */
export function remember(
  unit: UnitOfWork,
  customer: CustomerId,
  conversation: Conversation,
  turn: SaidTurn,
): void {
  unit.people.conversations.set(customer, {
    ...conversation,
    said: conversation.said + 1,
    turns: [...conversation.turns, turn].slice(-KEPT_TURNS),
  });
}

/** The lines that a customer did not ask for in the last 30 minutes, in conversation or by whole orders; notes them. */
export function noteAsks(
  unit: UnitOfWork,
  menu: Menu,
  customer: CustomerId,
  lines: readonly WantedLine[],
  now: Instant,
): readonly number[] {
  const conversation = conversationOf(unit, menu, customer);
  const asks = newAsks({ now }, conversation.talk, lines);
  const talk = counted({ now }, conversation.talk, lines);
  if (asks.length > 0) unit.people.conversations.set(customer, { ...conversation, talk });
  return asks;
}
