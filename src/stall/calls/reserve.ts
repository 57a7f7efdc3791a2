/** A press's tablet asks for the queue: its press counts as heard, and its reserve fills. */
import type { PressId } from "../../model/basics/ids.ts";
import { tell } from "../messages/notices.ts";
import { hearingChanges } from "../rules/decide/reserving.ts";
import type { Transactions } from "../transact.ts";

/** Writes only if something changes, which is rare. */
export function hearPress(transactions: Transactions, generation: number, press: PressId): void {
  if (!transactions.admits(generation)) return;
  const { state } = transactions.unit;
  if (state.menu === null || !hearingChanges(state, state.menu, press, transactions.now())) return;
  transactions.transact((unit, now) => {
    const { events } = unit.carryOut({ type: "fill-reserve", press }, now);
    if (unit.state.menu !== null) tell(unit, unit.state.menu, events, now);
  });
}
