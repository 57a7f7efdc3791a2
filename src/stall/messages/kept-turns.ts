/** A customer's conversation as the records keep it. */
import { counted, newAsks } from "../../chat/talk/asks.ts";
import { newTalk } from "../../chat/talk/talk.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { WantedLine } from "../../model/orders/order.ts";
import type { Instant } from "../../time/instants.ts";
import type { Conversation, SaidTurn } from "../storage/people.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** The turns kept: enough for a page to show, and to recognise a late repeat. */
const KEPT_TURNS = 40;
/**
 * The most bytes of the turns, as JSON in UTF-8. The latest turn is always kept: it has at most 1,600 characters and
 * its replies.
 */
const KEPT_BYTES = 16 * 1024;

const encoder = new TextEncoder();
const bytesOf = (turn: SaidTurn): number => encoder.encode(JSON.stringify(turn)).length;

/** The latest turns within both limits. */
function latest(turns: readonly SaidTurn[]): readonly SaidTurn[] {
  let [bytes, first] = [0, turns.length];
  for (const turn of turns.slice(-KEPT_TURNS).reverse()) {
    bytes += bytesOf(turn);
    if (bytes > KEPT_BYTES && first < turns.length) break;
    first -= 1;
  }
  return turns.slice(first);
}

export function conversationOf(unit: UnitOfWork, menu: Menu, customer: CustomerId): Conversation {
  return unit.people.conversations.get(customer) ?? { talk: newTalk(menu.language), said: 0, turns: [] };
}

/** Adds a turn to a conversation. Of a message without an answer only its changes are kept. */
export function remember(
  unit: UnitOfWork,
  customer: CustomerId,
  conversation: Conversation,
  turn: SaidTurn,
): void {
  if (turn.text !== null && turn.replies.length === 0 && turn.order === null) {
    if (unit.people.conversations.get(customer) === undefined) return;
    unit.people.conversations.set(customer, conversation);
    return;
  }
  unit.people.conversations.set(customer, {
    ...conversation,
    said: conversation.said + 1,
    turns: latest([...conversation.turns, turn]),
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
