/** What a fair tells its stall: its name and hours, which crew keys work, how texts are sent. */
import type { Identity, OrganiserWord } from "../../fair/reports.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { AnnouncementId } from "../../model/fair/organising.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Sending } from "../../texting/sending/sending.ts";
import type { Instant } from "../../time/instants.ts";
import { keptByNewHours } from "../messages/erasing.ts";
import { tell } from "../messages/notices.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";

/**
 * Uses the given gateway; an older version that arrives late changes nothing. A new gateway ends the pause that the
 * last one asked for, and waiting texts are tried at once.
 */
export function useSending({ people }: UnitOfWork, sending: Sending, now: Instant): void {
  const before = people.sending.get("");
  if ((before?.version ?? 0) >= sending.version) return;
  people.sending.set("", sending);
  if (before === undefined) return;
  people.rests.delete("");
  for (const row of [...people.out.values()])
    if (row.attempts > 0 && row.dueAt > now) people.out.set(row.id, { ...row, dueAt: now });
}

/** Makes the stall, or gives it the fair's new name and hours; `generation` is the crew key's. */
export function open(
  transactions: Transactions,
  identity: Identity,
  generation: number,
  earlierUntil: Instant,
  sending: Sending | undefined,
  organiser: OrganiserWord | undefined,
): void {
  transactions.transact((unit, now) => {
    const before = unit.state.identity;
    const isOlder = (identity.edition ?? 0) < (before?.edition ?? 0);
    if (!isOlder && JSON.stringify(before) !== JSON.stringify(identity)) {
      unit.carryOut({ type: "open", identity }, now);
      keptByNewHours(unit, now);
    }
    // An older key that arrives late must not lock out the newer one.
    if (generation >= (unit.people.access.get("")?.generation ?? 0))
      unit.people.access.set("", { generation, earlierUntil });
    if (sending !== undefined) useSending(unit, sending, now);
    if (organiser !== undefined) hear(unit, organiser, now);
  });
}

/** Follows the organiser's stop and announcements, and tells the customers whose waits change. */
function hear(unit: UnitOfWork, { edition, stop, announcements }: OrganiserWord, now: Instant): void {
  const { organiser } = unit.people;
  if (edition <= (organiser.get("")?.edition ?? 0)) return;
  organiser.set("", { edition });
  const { menu } = unit.state;
  for (const command of [
    { type: "set-fair-stop", stop },
    { type: "hear-announcements", announcements },
  ] as const) {
    const { events } = unit.carryOut(command, now);
    if (menu !== null) tell(unit, menu, events, now);
  }
}

/** Marks an announcement as read: no screen of the stall shows it any more. */
export function readAnnouncement(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  id: AnnouncementId,
): Answer<{ readonly version: number }> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  return transactions.once(key, (unit, now) => {
    unit.carryOut({ type: "read-announcement", id }, now);
    return ok({ version: unit.state.version });
  });
}
