/** Updates the rows of a day's account for an event: a few small rows a day, never the history. */

import { type LogHistogram, withValue } from "../../../maths/log-histogram.ts";
import type { Platen } from "../../../model/menu/catalogue.ts";
import type { SpoilReason } from "../../../model/orders/taps.ts";
import { fairDay, hourOf } from "../../../time/fair-day.ts";
import type { Instant } from "../../../time/instants.ts";
import { accountDay } from "../../state/account-day.ts";
import { onHand } from "../../state/counts.ts";
import {
  choiceRow,
  type DayChoice,
  type DayHour,
  type DayPiece,
  type DayTotals,
  EMPTY_CHOICE,
  EMPTY_HOUR,
  EMPTY_PIECE,
  EMPTY_TOTALS,
  NO_TAKINGS,
  type PaidBy,
  pieceRow,
  type Takings,
} from "../../state/day-rows.ts";
import { lineOf } from "../../state/orders.ts";
import { partsOf } from "../../state/payments.ts";
import type { Line } from "../../state/shapes/line.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { PieceKey } from "../../state/shapes/piece.ts";
import type { StallState } from "../../state/state.ts";
import { lineNets } from "../../stock/bill.ts";

export function changeTotals(
  state: StallState,
  at: Instant,
  change: (totals: DayTotals) => Partial<DayTotals>,
): void {
  const day = accountDay(state, at);
  const totals = state.dayTotals.get(day) ?? EMPTY_TOTALS;
  state.dayTotals.set(day, { ...totals, ...change(totals) });
}

/** Changes a day's own row of a piece. */
export function changePiece(
  state: StallState,
  piece: PieceKey,
  at: Instant,
  change: (row: DayPiece) => Partial<DayPiece>,
): void {
  const day = accountDay(state, at);
  const key = pieceRow(day, piece);
  const row = state.dayPieces.get(key) ?? EMPTY_PIECE;
  state.dayPieces.set(key, { ...row, ...change(row) });
  // A day that has any row has its totals, so that the days can be listed by them.
  if (state.dayTotals.get(day) === undefined) state.dayTotals.set(day, EMPTY_TOTALS);
}

type Chosen = Pick<Line, "offer" | "blank" | "design" | "colour" | "size">;

export function changeChoice(
  state: StallState,
  { offer, blank, design, colour, size }: Chosen,
  at: Instant,
  change: (row: DayChoice) => Partial<DayChoice>,
): void {
  const key = choiceRow(accountDay(state, at), { offer, colour, size });
  const row = state.dayChoices.get(key) ?? { offer, blank, design, colour, size, ...EMPTY_CHOICE };
  state.dayChoices.set(key, { ...row, ...change(row) });
}

/** Adds to an hour of the fair's clock. */
export function changeHour(
  totals: DayTotals,
  hour: string,
  change: (row: DayHour) => Partial<DayHour>,
): Pick<DayTotals, "hours"> {
  const row = totals.hours[hour] ?? EMPTY_HOUR;
  return { hours: { ...totals.hours, [hour]: { ...row, ...change(row) } } };
}

export const hourAt = (state: StallState, at: Instant): string =>
  hourOf(at, state.identity?.timeZone ?? "UTC");

/** A count found more or fewer than were expected. */
export function noteCount(
  state: StallState,
  piece: PieceKey,
  field: "opening" | "found",
  pieces: number,
  at: Instant,
): void {
  // The first count of all is what the stall begins with: it finds nothing and misses nothing.
  changePiece(state, piece, at, (row) =>
    field === "opening" ? { opening: row.opening + pieces } : { found: row.found + pieces, countedAt: at },
  );
}

export function noteSpoiled(
  state: StallState,
  piece: PieceKey,
  reason: SpoilReason,
  times: 1 | -1,
  at: Instant,
): void {
  changePiece(state, piece, at, ({ spoiled }) => ({
    spoiled: { ...spoiled, [reason]: (spoiled[reason] ?? 0) + times },
  }));
}

/** Notes of some pieces whether any is free, once what happened to them is done. */
export function noteEmpty(state: StallState, pieces: Iterable<PieceKey>, at: Instant): void {
  for (const piece of pieces) {
    const empty = state.free(piece) <= 0;
    const row = state.dayPieces.get(pieceRow(accountDay(state, at), piece)) ?? EMPTY_PIECE;
    if (empty !== (row.emptyAt !== null))
      changePiece(state, piece, at, () => ({ emptyAt: empty ? at : null }));
  }
}

/** Whether no piece is free to promise. */
export const isOut = (state: StallState, piece: PieceKey): boolean =>
  state.free(piece) <= 0 || onHand(state.count(piece)) <= 0;

/** Counts a ready order's promise and wait, or takes that count back. */
export function noteReady(
  state: StallState,
  { waitsFrom, dueBy }: Order,
  readyAt: Instant,
  times: 1 | -1,
  at: Instant,
): void {
  changeTotals(state, at, (totals) => ({
    waits: waitsFrom === null ? totals.waits : waitIn(totals.waits, readyAt - waitsFrom, times),
    promised: totals.promised + (dueBy === null ? 0 : times),
    kept: totals.kept + (dueBy !== null && readyAt <= dueBy ? times : 0),
  }));
}

const waitIn = (waits: LogHistogram, milliseconds: number, times: 1 | -1): LogHistogram =>
  withValue(waits, milliseconds / 1000, times);

export function noteHandling(state: StallState, platen: Platen, seconds: number, at: Instant): void {
  changeTotals(state, at, ({ handling }) => {
    const before = handling[platen] ?? { garments: 0, seconds: 0 };
    const after = { garments: before.garments + 1, seconds: before.seconds + seconds };
    return { handling: { ...handling, [platen]: after } };
  });
}

type SalePart = { readonly by: PaidBy; readonly amount: number };
type Sale = { readonly parts: readonly SalePart[]; readonly amount: number; readonly at: Instant };

/**
 * The sale of an order; null if it is not sold, or no longer. If the stall notes payments, the payment is the sale;
 * else handing over is. A refunded or exchanged order is no sale any more: the order made in exchange is paid by
 * itself.
 */
export function saleOf({ closed, paid, total }: Order): Sale | null {
  if (closed?.as === "refunded" || closed?.as === "exchanged") return null;
  if (paid !== null) {
    const parts = partsOf(paid).map(({ tender, amount }) => ({ by: tender, amount }));
    return { parts, amount: paid.amount, at: paid.at };
  }
  return closed?.as === "collected"
    ? { parts: [{ by: "not-noted", amount: total }], amount: total, at: closed.at }
    : null;
}

const cameBack = ({ closed }: Order): boolean => closed?.as === "refunded" || closed?.as === "exchanged";

/** Records what a change of an order did to the day's sales and to garments pressed but unsold. */
export function noteSale(state: StallState, before: Order, after: Order, at: Instant): void {
  noteTips(state, before, after, at);
  const [was, is] = [saleOf(before), saleOf(after)];
  if (was !== null && is === null) {
    if (cameBack(after)) giveBack(state, after, was, 1, at);
    else sell(state, before, was, -1, at);
  }
  // The sold garments changed, or more was paid for them.
  if (was !== null && is !== null && (before.lines !== after.lines || before.paid !== after.paid)) {
    sell(state, before, was, -1, at);
    sell(state, after, is, 1, at);
  }
  if (was === null && is !== null) {
    if (cameBack(before)) giveBack(state, before, is, -1, at);
    else sell(state, after, is, 1, at);
  }
  const kept = (order: Order): boolean => order.closed === null || order.closed.as === "collected";
  if (kept(before) !== kept(after)) noteUnsold(state, after, kept(before) ? 1 : -1, at);
}

/** Tips are kept apart from every sale, by tender: they stay when a sale comes back, and go when its payment does. */
function noteTips(state: StallState, { tips: was = [] }: Order, { tips: is = [] }: Order, at: Instant): void {
  if (was.length === 0 && is.length === 0) return;
  const changes = [
    ...was.map(({ tender, amount }) => [tender, -amount] as const),
    ...is.map(({ tender, amount }) => [tender, amount] as const),
  ];
  changeTotals(state, at, ({ tips: before = {} }) => {
    const tips = { ...before };
    for (const [tender, amount] of changes) tips[tender] = (tips[tender] ?? 0) + amount;
    return { tips };
  });
}

/** The takings with a change made for each part of a sale. */
export function withParts(
  takings: DayTotals["takings"],
  parts: readonly SalePart[],
  change: (taken: Takings, part: SalePart) => Partial<Takings>,
): DayTotals["takings"] {
  let after = takings;
  for (const part of parts) {
    const taken = after[part.by] ?? NO_TAKINGS;
    after = { ...after, [part.by]: { ...taken, ...change(taken, part) } };
  }
  return after;
}

function sell(state: StallState, order: Order, sale: Sale, times: 1 | -1, at: Instant): void {
  const { identity } = state;
  // A sale that is taken back on its own day leaves its own hour; on a later day, the hour of that.
  const sameDay =
    identity !== null && fairDay(sale.at, identity.timeZone, identity.openings) === accountDay(state, at);
  const hour = hourAt(state, sameDay ? sale.at : at);
  const net = order.total - order.tax;
  const garments = order.jobs.length;
  const nets = lineNets(order);
  for (const [index, line] of order.lines.entries()) {
    changeChoice(state, line, at, (row) => ({
      garments: row.garments + times * line.quantity,
      amount: row.amount + times * (nets[index] ?? 0),
    }));
  }
  changeTotals(state, at, (totals) => {
    const takings = withParts(totals.takings, sale.parts, (taken, { amount }) => ({
      payments: taken.payments + times,
      amount: taken.amount + times * amount,
    }));
    return {
      takings,
      ...secondsSold(totals, order, times),
      tax: totals.tax + times * order.tax,
      difference: totals.difference + times * (sale.amount - order.total),
      ...changeHour(totals, hour, (row) => ({
        orders: row.orders + times,
        garments: row.garments + times * garments,
        amount: row.amount + times * net,
      })),
    };
  });
}

/** The day's seconds with those of an order more; nothing if it has none. */
function secondsSold(
  { seconds: { garments, less } = { garments: 0, less: 0 } }: DayTotals,
  { lines }: Order,
  times: 1 | -1,
): Pick<DayTotals, "seconds"> {
  const sold = lines.filter(({ asSecond }) => asSecond !== undefined);
  if (sold.length === 0) return {};
  const sum = (of: (line: Line) => number): number => sold.reduce((all, line) => all + times * of(line), 0);
  return {
    seconds: {
      garments: garments + sum(({ quantity }) => quantity),
      less: less + sum(({ quantity, asSecond = 0 }) => quantity * asSecond),
    },
  };
}

function giveBack(state: StallState, order: Order, sale: Sale, times: 1 | -1, at: Instant): void {
  const nets = lineNets(order);
  for (const [index, line] of order.lines.entries()) {
    changeChoice(state, line, at, (row) => ({
      returned: row.returned + times * line.quantity,
      givenBack: row.givenBack + times * (nets[index] ?? 0),
    }));
  }
  changeTotals(state, at, (totals) => {
    const takings = withParts(totals.takings, sale.parts, (taken, { amount }) => ({
      returns: taken.returns + times,
      givenBack: taken.givenBack + times * amount,
    }));
    return {
      takings,
      taxGivenBack: totals.taxGivenBack + times * order.tax,
      differenceGivenBack: totals.differenceGivenBack + times * (sale.amount - order.total),
    };
  });
}

function noteUnsold(state: StallState, order: Order, times: 1 | -1, at: Instant): void {
  for (const job of order.jobs) {
    if (job.stage === "pressed")
      changeChoice(state, lineOf(order, job), at, (row) => ({ unsold: row.unsold + times }));
  }
}
