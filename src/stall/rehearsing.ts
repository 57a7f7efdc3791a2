/** Rehearsals: what a stall gives its twin, and what the twin does with it. */
import type { Answer } from "../model/refusal.ts";
import type { Instant } from "./facts.ts";
import { MovingStall } from "./moving.ts";
import { recorded, type WriteKey } from "./once.ts";
import { type Rehearsal, rehearsalOf } from "./rehearsal.ts";
import { done, refused } from "./shell.ts";
import { stockView } from "./views.ts";

export type RehearsalAccess = { readonly generation: number; readonly earlierUntil: Instant };

export abstract class RehearsingStall extends MovingStall {
  /** What a twin of this stall begins with, and the crew keys that open it. */
  forRehearsal(
    generation: number,
  ): Answer<{ readonly rehearsal: Rehearsal; readonly access: RehearsalAccess }> {
    const found = this.readAsCrew(generation, ({ state, people }, menu) => {
      const access = people.access.get("");
      const { identity } = state;
      return identity === null || access === undefined
        ? null
        : { rehearsal: rehearsalOf(identity, menu, stockView(state, menu), Date.now()), access };
    });
    if (!found.done) return found;
    return found.value === null ? refused({ code: "no-such-stall" }) : done(found.value);
  }

  /** Begins a rehearsal in this object, which is a twin's; one that was here is wiped. */
  rehearse(key: WriteKey, { identity, menu, entries }: Rehearsal, access: RehearsalAccess): Answer<null> {
    // Only this method records answers under the key of this route.
    const before = recorded(this.store, key, Date.now()) as Answer<null> | null;
    if (before !== null) return before;
    this.wipe();
    return this.once(key, (books, now) => {
      for (const command of [
        { type: "open", identity },
        { type: "set-menu", menu },
        { type: "change-stock", entries },
      ] as const) {
        const { refusal } = books.carryOut(command, now);
        if (refusal !== null) return refused(refusal);
      }
      books.people.access.set("", access);
      return done(null);
    });
  }

  /** Wipes a rehearsal. Asked of a stall of the fair it is a bug, and is thrown. */
  endRehearsal(): void {
    const { identity } = this.books.state;
    if (identity === null) return;
    if (identity.rehearsal !== true) throw new Error(`stall ${identity.stall} is no rehearsal`);
    this.wipe();
  }
}
