/** The organiser speaks to the stalls: announcements, and the stop of all orders. The fair's outbox takes it there. */
import type { StallId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { StallContact, StallContacts } from "../../model/fair/contacts.ts";
import type { FairAnswer } from "../../model/fair/fair-refusal.ts";
import type {
  Announce,
  AnnouncementId,
  OrderStop,
  OrganiserNews,
  SentAnnouncement,
} from "../../model/fair/organising.ts";
import { type AnnouncementRow, sent } from "../organiser/organiser-rows.ts";
import type { FairTransactions } from "../transact.ts";
import { eraseLater } from "./erasing.ts";

const namesOf = (transactions: FairTransactions): readonly StallId[] =>
  transactions.stalls().map(({ stall }) => stall);

/** Why the organiser is not heard; null if it is. */
function obstacle(transactions: FairTransactions, generation: number): FairAnswer<never> | null {
  if (transactions.fair() === undefined) return refused({ code: "no-such-fair" });
  return transactions.admits(generation) ? null : refused({ code: "old-key" });
}

/** The organiser's stop and announcements, and which stalls have them. */
export function news(transactions: FairTransactions, generation: number): FairAnswer<OrganiserNews> {
  const refusal = obstacle(transactions, generation);
  if (refusal !== null) return refusal;
  const { organiser, outbox } = transactions;
  return ok(organiser.news(namesOf(transactions), outbox.waiting()));
}

/** Stops all orders, or lets the stalls go on; the same again changes nothing. */
export function setOrderStop(
  transactions: FairTransactions,
  generation: number,
  stop: OrderStop | null,
): FairAnswer<OrganiserNews> {
  const refusal = obstacle(transactions, generation);
  if (refusal !== null) return refusal;
  transactions.transact((now) => {
    if (transactions.organiser.setStop(stop, now)) transactions.outbox.add(namesOf(transactions), now);
  });
  return news(transactions, generation);
}

/** Says something to all stalls or to some. Repeated with the same key it is the same announcement. */
export function announce(
  transactions: FairTransactions,
  generation: number,
  key: WriteKey,
  id: AnnouncementId,
  { text, stalls }: Announce,
): FairAnswer<SentAnnouncement> {
  const refusal = obstacle(transactions, generation);
  if (refusal !== null) return refusal;
  const all = namesOf(transactions);
  const unknown = stalls?.find((stall) => transactions.stall(stall as string as StallId) === undefined); // an OwnStallId is a StallId
  if (unknown !== undefined) return refused({ code: "no-such-stall", stall: unknown });
  const before = transactions.organiser.madeBy(key.scope);
  if (before !== undefined) return ok(sent(before, all));
  const to = stalls === undefined ? null : (stalls as readonly string[] as readonly StallId[]); // as above
  return transactions.transact((at) => {
    const row: AnnouncementRow = { id, text, at, stalls: to, readBy: {}, madeBy: key.scope };
    transactions.organiser.announce(row);
    transactions.outbox.add(to ?? all, at);
    return ok(sent(row, all));
  });
}

/** Whom to call at the stalls. */
export function contacts(transactions: FairTransactions, generation: number): FairAnswer<StallContacts> {
  return obstacle(transactions, generation) ?? ok({ contacts: transactions.contacts.all() });
}

/** Keeps whom to call at a stall until the fair's people are erased; null forgets it at once. */
export function setContact(
  transactions: FairTransactions,
  generation: number,
  stall: StallId,
  contact: StallContact | null,
): FairAnswer<StallContacts> {
  const refusal = obstacle(transactions, generation);
  if (refusal !== null) return refusal;
  const fair = transactions.fair();
  if (fair === undefined || transactions.stall(stall) === undefined)
    return refused({ code: "no-such-stall", stall });
  transactions.transact((now) => {
    transactions.contacts.set(stall, contact);
    if (contact !== null) eraseLater(transactions, fair, now);
  });
  return contacts(transactions, generation);
}

/** Takes an announcement back; one that is not there any more needs nothing. */
export function takeBackAnnouncement(
  transactions: FairTransactions,
  generation: number,
  id: AnnouncementId,
): FairAnswer<OrganiserNews> {
  const refusal = obstacle(transactions, generation);
  if (refusal !== null) return refusal;
  transactions.transact((now) => {
    const row = transactions.organiser.takeBack(id);
    if (row !== null) transactions.outbox.add(row.stalls ?? namesOf(transactions), now);
  });
  return news(transactions, generation);
}
