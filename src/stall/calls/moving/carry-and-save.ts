/** Export and import: what goes to another fair, and the whole stall page by page. */

import type { CarriedStall } from "../../../model/accounts/whole-stall.ts";
import { ok, refused } from "../../../model/basics/result.ts";
import type { WriteKey } from "../../../model/basics/write-key.ts";
import { type Answer, type Refusal, wrongStage } from "../../../model/orders/refusal.ts";
import type { StockEntry } from "../../../model/orders/stock.ts";
import { daysOf } from "../../day/days.ts";
import type { Command } from "../../rules/commands.ts";
import { accountDay } from "../../state/account-day.ts";
import { carriedRack } from "../../stock/rack.ts";
import { carriedPictures, type PictureOf, writing } from "../../storage/picture-bytes.ts";
import { type Cursor, FIRST_PAGE, type SavedPage, savedPage } from "../../storage/snapshot.ts";
import { UnitOfWork } from "../../storage/unit-of-work.ts";
import type { Transactions } from "../../transact.ts";
import { readLessons } from "../accounts.ts";
import { stockView } from "../counter/stock-view.ts";

const MOST_LESSONS = 60;
const inUse: Refusal = wrongStage("this stall", "set up already", "empty: without a menu yet");

/** Menu, stock, rack, lessons, costs and pictures, for another fair. */
export function carry(transactions: Transactions, generation: number): Answer<CarriedStall> {
  const lessons = readLessons(transactions, generation);
  if (!lessons.ok) return lessons;
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
      rack: [...carriedRack(state)],
      lessons: lessons.value.slice(-MOST_LESSONS),
      costs: costs === undefined ? null : (state.dayCosts.get(costs) ?? null),
      pictures: carriedPictures(transactions.store),
      plan: state.plan,
    };
  });
}

/** Imports what came from another fair: all of it, or nothing if a part does not fit. */
export function takeCarried(
  transactions: Transactions,
  generation: number,
  key: WriteKey,
  { menu, stock, rack, lessons, costs, plan }: CarriedStall,
  kept: readonly PictureOf[],
): Answer<{ readonly version: number }> {
  if (!transactions.admits(generation)) return refused({ code: "old-key" });
  return transactions.once(key, (unit, now, also) => {
    if (unit.state.menu !== null) return refused(inUse);
    const commands: Command[] = [
      { type: "set-menu", menu },
      ...(stock.length > 0 ? [{ type: "change-stock", entries: stock } as const] : []),
      ...(rack.length > 0 ? [{ type: "bring-rack", garments: rack } as const] : []),
      ...(lessons.length > 0 ? [{ type: "take-lessons", lessons } as const] : []),
      ...(costs === null ? [] : [{ type: "set-costs", day: accountDay(unit.state, now), costs } as const]),
      ...(plan === null ? [] : [{ type: "keep-plan", plan } as const]),
      ...kept.map(
        ({ design, picture }) => ({ type: "set-picture", design, picture: picture.facts }) as const,
      ),
    ];
    // Try on a copy first: if one command is refused, none is carried out.
    const trial = new UnitOfWork(transactions.store);
    for (const command of commands) {
      const { refusal } = trial.carryOut(command, now);
      if (refusal !== null) return refused(refusal);
    }
    for (const command of commands) unit.carryOut(command, now);
    also(kept.map(({ picture }) => writing(picture)));
    return ok({ version: unit.state.version });
  });
}

/** A page of everything the stall owns, customers included: a backup, or a move. */
export function everything(
  transactions: Transactions,
  generation: number,
  from: Cursor | null,
): Answer<SavedPage> {
  return transactions.readAsCrew(generation, () => savedPage(transactions.store, from ?? FIRST_PAGE));
}
