/** Putting texts into the outbox, within what one number may be sent a day. */

import { segments } from "../../chat/fitting/segments.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { mayText } from "../../texting/numbers.ts";
import { dayOf } from "../../time/fair-day.ts";
import type { Instant } from "../../time/instants.ts";
import type { OutRow } from "../storage/people.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { conversationOf } from "./kept-turns.ts";

const UNCAPPED = Number.POSITIVE_INFINITY;

type Text = Pick<OutRow, "id" | "customer" | "lane" | "to" | "text" | "whileReady" | "dueAt"> & {
  /** Whether the text is about one of this number's own orders. */
  readonly own: boolean;
  readonly answersStop?: true;
};

/** Queues a text. False if the number has had its limit for today. */
export function queueText(unit: UnitOfWork, menu: Menu, text: Text, now: Instant): boolean {
  const { people, state } = unit;
  if (text.to !== null) {
    const conversation = conversationOf(unit, menu, text.lane);
    const day = dayOf(now, state.identity?.timeZone ?? "UTC");
    const before = conversation.segments?.day === day ? conversation.segments.count : 0;
    const count = before + segments(text.text).parts;
    const sending = people.sending.get("");
    if (sending !== undefined && !mayText(text.to, sending.prefixes)) return false;
    if (count > (sending?.segmentsPerSender ?? UNCAPPED)) return false;
    people.conversations.set(text.lane, { ...conversation, segments: { day, count } });
  }
  const { own, ...row } = text;
  people.out.set(row.id, { ...row, attempts: 0, since: now, charged: false, ...(own ? { own } : {}) });
  return true;
}

/**
 * Stores whether a number wants texts, as said to another stall of the fair; drops the waiting texts if it wants none.
 */
export function setStopped(unit: UnitOfWork, menu: Menu, customer: CustomerId, stopped: boolean): void {
  if (noteStopped(unit, menu, customer, stopped) && stopped) dropQueued(unit, customer);
}

/** Stores whether a number wants texts; false if the stall knew. */
export function noteStopped(unit: UnitOfWork, menu: Menu, customer: CustomerId, stopped: boolean): boolean {
  const person = unit.people.person(customer);
  const conversation = conversationOf(unit, menu, customer);
  const { talk } = conversation;
  if (person.optedOut === stopped && talk.optedOut === stopped) return false;
  unit.people.persons.set(customer, { ...person, optedOut: stopped });
  unit.people.conversations.set(customer, { ...conversation, talk: { ...talk, optedOut: stopped } });
  return true;
}

/** Drops all that still waits for a number that wants no more texts, answers to an earlier STOP or START among it. */
export function dropQueued(unit: UnitOfWork, lane: OutRow["lane"]): void {
  for (const row of [...unit.people.outbox.of(lane)]) if (row.to !== null) unit.people.out.delete(row.id);
}
