/** A stall that has moved: the crew says where to, and can undo it. */
import type { MovedTo } from "../../../model/accounts/moved.ts";
import { ok, refused } from "../../../model/basics/result.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import type { Answer } from "../../../model/orders/refusal.ts";
import type { Transactions } from "../../transact.ts";

/**
 * From now on everybody who comes to this address is sent to the new one, and no command is taken here; null brings the
 * stall back. A stall without a menu has nothing that could have moved.
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
