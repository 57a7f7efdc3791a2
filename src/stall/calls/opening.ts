/** What a stall's fair says to it: that there is such a stall, its hours, which crew keys work, how texts are sent. */
import type { Identity } from "../../fair/reports.ts";
import type { Sending } from "../../texting/sending/sending.ts";
import type { Instant } from "../../time/instants.ts";
import { keptByNewHours } from "../messages/erasing.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import type { Transactions } from "../transact.ts";

/**
 * Sends by the fair's gateway as it is now; an older version that arrives late changes nothing. A new one ends the
 * rest that the one before asked for, and what waited for that gateway is tried at once.
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
): void {
  transactions.transact((unit, now) => {
    const before = unit.state.identity;
    const isOlder = (identity.edition ?? 0) < (before?.edition ?? 0);
    if (!isOlder && JSON.stringify(before) !== JSON.stringify(identity)) {
      unit.carryOut({ type: "open", identity }, now);
      keptByNewHours(unit, now);
    }
    // An older key that arrives late must not lock the newer one out.
    if (generation >= (unit.people.access.get("")?.generation ?? 0))
      unit.people.access.set("", { generation, earlierUntil });
    if (sending !== undefined) useSending(unit, sending, now);
  });
}
