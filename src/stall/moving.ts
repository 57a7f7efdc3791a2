/** A stall that moves: along to another fair, or whole into an empty one. */

import type { Answer } from "../model/refusal.ts";
import { type Refusal, wrongStage } from "../model/refusal.ts";
import type { StockEntry } from "../model/stock.ts";
import type { CarriedStall, WholeStall } from "../model/whole-stall.ts";
import { AccountingStall } from "./accounting.ts";
import type { Command } from "./commands.ts";
import { accountDay } from "./day.ts";
import { daysOf } from "./days.ts";
import { recorded, recording, type WriteKey } from "./once.ts";
import { write } from "./records.ts";
import { done, refused } from "./shell.ts";
import { stockView } from "./views.ts";
import { rowsFrom, wholeStall } from "./whole.ts";

const MOST_LESSONS = 60;
const inUse: Refusal = wrongStage("this stall", "set up already", "empty: without a menu yet");

/** A file that cannot be read says why; that is no rule of the stall's, so it is no refusal. */
export type Taken = { readonly version: number } | { readonly fault: string };

export abstract class MovingStall extends AccountingStall {
  /** What goes along to another fair. */
  carry(generation: number): Answer<CarriedStall> {
    const lessons = this.lessons(generation);
    if (!lessons.done) return lessons;
    return this.readAsCrew(generation, ({ state }, menu) => {
      const { skus, transfers } = stockView(state, menu);
      const stock: StockEntry[] = [
        ...skus.map(({ sku, onHand }) => ({ sku, counted: onHand })),
        ...transfers.map(({ design, onHand }) => ({ design, counted: onHand })),
      ].filter(({ counted }) => counted > 0);
      const costs = daysOf(state).findLast((day) => state.dayCosts.get(day) !== undefined);
      return {
        menu,
        stock,
        lessons: lessons.value.slice(-MOST_LESSONS),
        costs: costs === undefined ? null : (state.dayCosts.get(costs) ?? null),
      };
    });
  }

  /** Takes in what came along from another fair: all of it or, where something does not fit, none. */
  takeCarried(
    generation: number,
    key: WriteKey,
    { menu, stock, lessons, costs }: CarriedStall,
  ): Answer<{ readonly version: number }> {
    if (!this.keyWorks(generation)) return refused({ code: "old-key" });
    return this.once(key, (books, now) => {
      if (books.state.menu !== null) return refused(inUse);
      const commands: Command[] = [
        { type: "set-menu", menu },
        ...(stock.length > 0 ? [{ type: "change-stock", entries: stock } as const] : []),
        ...(lessons.length > 0 ? [{ type: "take-lessons", lessons } as const] : []),
        ...(costs === null ? [] : [{ type: "set-costs", day: accountDay(books.state, now), costs } as const]),
      ];
      for (const command of commands) {
        const { refusal } = books.carryOut(command, now);
        if (refusal === null) continue;
        // Nothing of it was written: what is in memory goes, and the records are as they were.
        this.forget();
        return refused(refusal);
      }
      return done({ version: books.state.version });
    });
  }

  /** Everything the stall owns as JSON, customers included: a copy to keep safe, or to go on with elsewhere. */
  everything(generation: number): Answer<string> {
    return this.readAsCrew(generation, () => JSON.stringify(wholeStall(this.store, Date.now())));
  }

  /** Becomes the stall of a file, at this place; only an empty stall can. `text` is a WholeStall as JSON. */
  takeEverything(generation: number, key: WriteKey, text: string): Answer<Taken> {
    if (!this.keyWorks(generation)) return refused({ code: "old-key" });
    const now = Date.now();
    const before = recorded(this.store, key, now) as Answer<Taken> | null; // this route's own answers
    if (before !== null) return before;
    const { identity, menu } = this.books.state;
    if (identity === null) return refused({ code: "no-such-stall" });
    if (menu !== null) return refused(inUse);
    // The front door read it as one and wrote it out again.
    const rows = rowsFrom(JSON.parse(text) as WholeStall, identity, now);
    if ("fault" in rows) return done(rows);
    const answer = done({ version: rows.version });
    this.ctx.storage.transactionSync(() => {
      for (const [old] of [...this.store.list({ prefix: "journal:" })]) this.store.delete(old);
      write(this.store, [...rows.writes, recording(key, answer, now)]);
    });
    this.forget();
    this.schedule(now);
    return answer;
  }
}
