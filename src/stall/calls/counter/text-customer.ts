/** The crew texts one of its sentences to an order's customer. */
import { ok, refused } from "../../../model/basics/result.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import type { CrewSentence } from "../../../model/orders/crew-sentences.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import type { Answer } from "../../../model/orders/refusal.ts";
import type { Bindings } from "../../../texting/bindings.ts";
import { tellFromCrew } from "../../messages/notices.ts";
import type { Transactions } from "../../transact.ts";
import { crewOrderView } from "../replies.ts";

/** Queues the sentence, if the customer's number has texted first. Answers with the order. */
export function textCustomer(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  { number, say }: { readonly number: number; readonly say: CrewSentence },
  bindings: Bindings,
): Answer<CrewOrderView> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  if (transactions.gone !== null) return transactions.gone;
  return transactions.once(key, (unit, now) => {
    const { menu } = unit.state;
    const order = unit.state.anyOrder(number);
    if (menu === null) return refused({ code: "no-menu" });
    if (order === undefined) return refused({ code: "no-such-order", number });
    const why = tellFromCrew(unit, menu, order, say, now);
    if (why !== null) return refused({ code: "cannot-text", number, why });
    return ok(crewOrderView(unit, menu, order, now, bindings));
  });
}
