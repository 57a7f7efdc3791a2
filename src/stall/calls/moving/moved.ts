/** A stall that has moved: the crew gives the new address, and can undo it. */
import type { MovedTo } from "../../../model/accounts/moved.ts";
import { ok, refused } from "../../../model/basics/result.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import type { Answer } from "../../../model/orders/refusal.ts";
import type { Transactions } from "../../transact.ts";

/**
 * Sends everybody who comes to this address to the new one; no command is taken here any more. Null brings the stall
 * back. Refused for a stall without a menu.
 */
export function setMoved(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  to: string | null,
): Answer<MovedTo> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  return transactions.once(key, ({ state, people }, now) => {
    if (state.menu === null) return refused({ code: "no-menu" });
    if (to === null) people.moved.delete("");
    else people.moved.set("", { to, at: now });
    return ok({ to });
  });
}
