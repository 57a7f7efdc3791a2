/**
 * Names, numbers and messages are erased some days after the fair; facts and counts stay. The time of erasing is a
 * stored row, so that a mistyped year or a clock jump can be corrected in time.
 */

import type { CustomerId } from "../../model/basics/ids.ts";
import type { Instant } from "../../time/instants.ts";
import type { Write } from "../state/table.ts";
import type { Erasing } from "../storage/people.ts";
import type { Store } from "../storage/records.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { ordersOf } from "./confirm-number.ts";

const DAY = 24 * 60 * 60 * 1000;
const AT_ONCE = 300;
/** Nobody is erased sooner than this after hours changed or the clock jumped. */
const SECOND_THOUGHTS = 2 * DAY;
/** Past its time by more than an alarm is ever late: the clock jumped, or nothing ran for long. */
const LATE = 10 * 60 * 1000;

/** Records that hold a name, a number or somebody's words; recorded answers repeat some of them. */
const PERSONAL = ["person:", "talk:", "at-order:", "taker:", "known:", "out:", "seen:"] as const;

/** When the hours and the menu's rule say that people go; null if there is nothing of them. */
function dueByRule({ state, people }: UnitOfWork): Instant | null {
  const { identity, menu } = state;
  if (identity === null || menu === null) return null;
  const erased = people.erased.get("");
  if (erased !== undefined) return erased.again;
  const closes = Math.max(...identity.openings.map((opening) => opening.closes));
  return closes + menu.rules.eraseAfterDays * DAY;
}

/**
 * Keeps the stored row in step with hours, menu and clock: the countdown of 48 hours begins that long before the people
 * are due, and again when anything moved. Part of every change.
 */
export function noteErasing(unit: UnitOfWork, now: Instant): void {
  const { erasing } = unit.people;
  const due = dueByRule(unit);
  const before = erasing.get("");
  if (due === null) return erasing.delete("");
  const nears = due - now <= SECOND_THOUGHTS;
  // Begun "in the future", the countdown dates from before the clock was moved back.
  const isSame = before?.due === due && (before.since ?? 0) <= now;
  if (!isSame) erasing.set("", { due, since: nears ? now : null });
  else if (before.since === null && nears) erasing.set("", { ...before, since: now });
}

const eraseAt = ({ due, since }: Erasing): Instant | null =>
  since === null ? null : Math.max(due, since + SECOND_THOUGHTS);

/** When the alarm is needed for the erasing next: to begin the countdown, or to erase; null if never. */
export function erasingDue({ people }: UnitOfWork): Instant | null {
  const row = people.erasing.get("");
  return row === undefined ? null : (eraseAt(row) ?? row.due - SECOND_THOUGHTS);
}

/** A message that comes after the erasing is erased 48 hours later. */
export function keptAgain({ people }: UnitOfWork, now: Instant): void {
  const erased = people.erased.get("");
  if (erased !== undefined && erased.again === null)
    people.erased.set("", { ...erased, again: now + SECOND_THOUGHTS });
}

/** The fair goes on after its people were erased: from now on messages are kept as at any fair, not for two days. */
export function keptByNewHours({ people, state }: UnitOfWork, now: Instant): void {
  const { identity } = state;
  if (identity?.openings.some(({ closes }) => closes > now) === true) people.erased.delete("");
}

/** A page of what must go now, to be written with everything else; the next alarm takes the next page. */
export function erase(unit: UnitOfWork, store: Store, now: Instant): readonly Write[] {
  noteErasing(unit, now);
  const { erased, erasing, out } = unit.people;
  const row = erasing.get("");
  const at = row === undefined ? null : eraseAt(row);
  if (row === undefined || at === null || at > now) return [];
  if (now - at > LATE && row.late !== true) {
    erasing.set("", { ...row, since: now, late: true });
    return [];
  }
  const keys = PERSONAL.flatMap((prefix) =>
    [...store.list({ prefix, limit: AT_ONCE })].map(([key]) => key),
  ).slice(0, AT_ONCE);
  if (keys.length < AT_ONCE) erased.set("", { at: now, again: null });
  for (const text of [...out.values()]) out.delete(text.id);
  return keys.map((key): Write => [key, undefined]);
}

/**
 * Erases one customer at once: number, name, conversation, texts that wait, and what leads from a number to them. Orders
 * stay, with nobody's number; what was wished for on an open one stays with it until the people go, since it is still to be made.
 */
export function forget(unit: UnitOfWork, customer: CustomerId): void {
  const { people } = unit;
  const person = people.person(customer);
  const said = people.conversations.get(customer)?.turns ?? [];
  const numbers = [
    ...ordersOf(unit, customer),
    ...(person.confirmed ?? []),
    ...said.flatMap(({ order }) => (order === null ? [] : [order])),
    ...(person.lastOrder === null ? [] : [person.lastOrder]),
  ];
  for (const number of new Set(numbers)) forgetAtOrder(unit, number, customer);
  for (const row of [...people.outbox.of(customer)]) people.out.delete(row.id);
  if (person.number !== undefined) people.known.delete(person.number);
  people.persons.delete(customer);
  people.conversations.delete(customer);
}

/** Erases whose an order was; the number that texted its code is the same customer's, and goes where it has no other order. */
function forgetAtOrder(unit: UnitOfWork, number: number, customer: CustomerId): void {
  const { people, state } = unit;
  const { confirmed, given: _, address: _address, texted: _texted, ...rest } = people.atOrder(number);
  const { wish: _wish, notes: _notes, ...crews } = rest;
  const kept = state.order(number) === undefined ? crews : rest;
  if (Object.keys(kept).length === 0) people.atOrders.delete(String(number));
  else people.atOrders.set(String(number), kept);
  if (confirmed === undefined || confirmed.customer === customer) return;
  const texter = people.person(confirmed.customer);
  const others = (texter.confirmed ?? []).filter((other) => other !== number);
  people.persons.set(confirmed.customer, { ...texter, confirmed: others });
  if (others.length === 0 && state.orderIndex.ordersOf(confirmed.customer).length === 0)
    forget(unit, confirmed.customer);
}

/** When names, numbers and conversations go; null if nobody knows, since there is no menu yet or they have gone. */
export function whenErased({ people }: UnitOfWork): Instant | null {
  const row = people.erasing.get("");
  return row === undefined ? null : (eraseAt(row) ?? row.due);
}
