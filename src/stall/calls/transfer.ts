/** A stall on the move: along to another fair, or whole into an empty place. */

import type { CarriedStall, WholeStall } from "../../model/accounts/whole-stall.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import type { WriteKey } from "../../model/basics/write-key.ts";
import { type Answer, type Refusal, wrongStage } from "../../model/orders/refusal.ts";
import type { StockEntry } from "../../model/orders/stock.ts";
import { daysOf } from "../day/days.ts";
import type { Command } from "../rules/commands.ts";
import { accountDay } from "../state/account-day.ts";
import type { Write } from "../state/table.ts";
import type { Known } from "../storage/people.ts";
import { carriedPictures, type PictureOf, writing } from "../storage/picture-bytes.ts";
import { recorded, recording } from "../storage/recorded-answers.ts";
import { type Cursor, FIRST_PAGE, rowsFrom, type SavedPage, savedPage } from "../storage/snapshot.ts";
import { UnitOfWork } from "../storage/unit-of-work.ts";
import { done, refused, type Transactions } from "../transact.ts";
import { readLessons } from "./accounts.ts";
import { stockView } from "./views.ts";

const MOST_LESSONS = 60;
const inUse: Refusal = wrongStage("this stall", "set up already", "empty: without a menu yet");

/** A file that cannot be read says why; that is no rule of the stall's, so it is no refusal. */
export type Taken = { readonly version: number } | { readonly fault: string };

/** A number's keyed hash at this place, and the customer it writes as. */
export type NumberOf = readonly [number: CustomerId, customer: CustomerId];

/** Menu, stock, lessons, costs and pictures: what goes along to another fair. */
export function carry(transactions: Transactions, generation: number): Answer<CarriedStall> {
  const lessons = readLessons(transactions, generation);
  if (!lessons.done) return lessons;
  return transactions.read(({ state }, menu) => {
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
      pictures: carriedPictures(transactions.store),
    };
  });
}

/** Imports what was carried from another fair: all of it or, if something does not fit, none. */
export function takeCarried(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  { menu, stock, lessons, costs }: CarriedStall,
  kept: readonly PictureOf[],
): Answer<{ readonly version: number }> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  return transactions.once(key, (unit, now, also) => {
    if (unit.state.menu !== null) return refused(inUse);
    const commands: Command[] = [
      { type: "set-menu", menu },
      ...(stock.length > 0 ? [{ type: "change-stock", entries: stock } as const] : []),
      ...(lessons.length > 0 ? [{ type: "take-lessons", lessons } as const] : []),
      ...(costs === null ? [] : [{ type: "set-costs", day: accountDay(unit.state, now), costs } as const]),
      ...kept.map(
        ({ design, picture }) => ({ type: "set-picture", design, picture: picture.facts }) as const,
      ),
    ];
    // Tried on a copy first: if one command is refused, none is carried out.
    const trial = new UnitOfWork(transactions.store);
    for (const command of commands) {
      const { refusal } = trial.carryOut(command, now);
      if (refusal !== null) return refused(refusal);
    }
    for (const command of commands) unit.carryOut(command, now);
    also(kept.map(({ picture }) => writing(picture)));
    return done({ version: unit.state.version });
  });
}

/** A page of everything the stall owns, customers included: a copy to keep safe, or to go on with elsewhere. */
export function everything(
  transactions: Transactions,
  generation: number,
  from: Cursor | null,
): Answer<SavedPage> {
  return transactions.readAsCrew(generation, () => savedPage(transactions.store, from ?? FIRST_PAGE));
}

/** Becomes the stall of a file, at this place; only an empty stall can. `text` is a WholeStall as JSON in UTF-8. */
export function takeEverything(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  text: Uint8Array,
  { numbers, kept }: { readonly numbers: readonly NumberOf[]; readonly kept: readonly PictureOf[] },
): Answer<Taken> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  const now = transactions.now();
  const before = recorded(transactions.store, key, now) as Answer<Taken> | null; // this route's own answers
  if (before !== null) return before;
  const { identity, menu } = transactions.unit.state;
  if (identity === null) return refused({ code: "no-such-stall" });
  if (menu !== null) return refused(inUse);
  // The front door read it as one and wrote it out again.
  const rows = rowsFrom(JSON.parse(new TextDecoder().decode(text)) as WholeStall, identity, now, kept);
  if ("fault" in rows) return done(rows);
  const answer = done({ version: rows.version });
  // Conversations and orders follow their numbers, whose keyed hashes are others at this place.
  const known = numbers.map(([number, customer]): Write => [`known:${number}`, { customer } satisfies Known]);
  const pictures = kept.map(({ picture }) => writing(picture));
  transactions.replace([...rows.writes, ...known, ...pictures, recording(key, answer, now)], now);
  return answer;
}
