/** What a stall's fair says to it: that there is such a stall, its hours, and which crew keys work. */
import type { Instant } from "../../time/instants.ts";
import { keptByNewHours } from "../erasing.ts";
import type { Identity } from "../facts.ts";
import type { Transactions } from "../transact.ts";

/** Makes the stall, or gives it the fair's new name and hours; `generation` is the crew key's. */
export function open(
  transactions: Transactions,
  identity: Identity,
  generation: number,
  earlierUntil: Instant,
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
  });
}
