/** Rehearsals: what a stall gives its copy, and how the copy begins and ends. */
import { ok, refused } from "../../model/basics/result.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import type { Answer } from "../../model/orders/refusal.ts";
import type { Access } from "../storage/people.ts";
import { storedPictures, writing } from "../storage/picture-bytes.ts";
import { recorded } from "../storage/recorded-answers.ts";
import type { Transactions } from "../transact.ts";
import { stockView } from "./counter/stock-view.ts";
import { type Rehearsal, rehearsalOf } from "./rehearsal-twin.ts";

export type ForRehearsal = { readonly rehearsal: Rehearsal; readonly access: Access };

/** What a rehearsal of this stall starts from, and the crew keys that open it. */
export function forRehearsal(transactions: Transactions, generation: number): Answer<ForRehearsal> {
  const pictures = storedPictures(transactions.store);
  const found = transactions.readAsCrew(generation, ({ state, people }, menu, now) => {
    const access = people.access.get("");
    const { identity } = state;
    return identity === null || access === undefined
      ? null
      : { rehearsal: rehearsalOf(identity, menu, stockView(state, menu), pictures, now), access };
  });
  if (!found.ok) return found;
  return found.value === null ? refused({ code: "no-such-stall" }) : ok(found.value);
}

/** Begins a rehearsal in this object, and wipes any earlier one. */
export function rehearse(
  transactions: Transactions,
  key: WriteKey,
  { identity, menu, entries, pictures }: Rehearsal,
  access: Access,
): Answer<null> {
  // Only this call records answers under the key of its route.
  const before = recorded(transactions.store, key, transactions.now()) as Answer<null> | null;
  if (before !== null) return before;
  transactions.wipe();
  return transactions.once(key, (unit, now, also) => {
    for (const command of [
      { type: "open", identity },
      { type: "set-menu", menu },
      { type: "change-stock", entries },
      ...pictures.map(
        ({ design, picture }) => ({ type: "set-picture", design, picture: picture.facts }) as const,
      ),
    ] as const) {
      const { refusal } = unit.carryOut(command, now);
      if (refusal !== null) return refused(refusal);
    }
    also(pictures.map(({ picture }) => writing(picture)));
    unit.people.access.set("", access);
    return ok(null);
  });
}

/** Wipes a rehearsal. Throws if this object is a real stall: that call is a bug. */
export function endRehearsal(transactions: Transactions): void {
  const { identity } = transactions.unit.state;
  if (identity === null) return;
  if (identity.rehearsal !== true) throw new Error(`stall ${identity.stall} is no rehearsal`);
  transactions.wipe();
}
