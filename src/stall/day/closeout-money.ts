/** The money side of a day's account, in whole minor units. */

import type { Identity } from "../../fair/reports.ts";
import type { Closeout } from "../../model/accounts/closeout.ts";
import type { Day } from "../../time/fair-day.ts";
import { openFor } from "../state/account-day.ts";
import { type DayRows, NO_TAKINGS, spoiledOf } from "../state/day-rows.ts";
import { blankPrice, goneOf, type PricedPiece, transferPrice } from "./closeout-stock.ts";

const MILLION = 1_000_000;
const HOUR = 60 * 60 * 1000;

type Pieces = { readonly blanks: readonly PricedPiece[]; readonly transfers: readonly PricedPiece[] };

const costOf = (pieces: readonly PricedPiece[], many: (piece: PricedPiece) => number): number =>
  pieces.reduce((sum, piece) => sum + many(piece) * (piece.price?.cost ?? 0), 0);

const total = (pieces: readonly PricedPiece[], many: (piece: PricedPiece) => number): number =>
  pieces.reduce((sum, piece) => sum + many(piece), 0);

/** A share in parts per million of an amount, half a unit and more rounded up. */
const shareOf = (amount: number, partsPerMillion: number): number =>
  Number((BigInt(amount) * BigInt(partsPerMillion) + BigInt(MILLION / 2)) / BigInt(MILLION));

/**
 * Profit is net sales less refunds and costs: pieces used up at cost, fees, wages, card fees. Leftover stock is no cost
 * of this day.
 */
export function moneyOf(
  identity: Identity,
  day: Day,
  { totals, choices, costs }: DayRows,
  { blanks, transfers }: Pieces,
): Closeout["money"] {
  const sales = choices.reduce((sum, { amount }) => sum + amount, 0);
  const givenBack = choices.reduce((sum, choice) => sum + choice.givenBack, 0) + totals.differenceGivenBack;
  const card = totals.takings.card ?? NO_TAKINGS;
  const { fees = [], wages, cardFee } = costs ?? {};
  const spent = {
    blanks: costOf(blanks, goneOf),
    transfers: costOf(transfers, goneOf),
    fees: fees.reduce((sum, { amount }) => sum + amount, 0),
    wages: wages === undefined ? 0 : Math.round(wages.people * wages.hours * wages.hourly),
    cardFees:
      cardFee === undefined
        ? 0
        : shareOf(Math.max(0, card.amount), cardFee.partsPerMillion) + cardFee.each * card.payments,
  };
  const profit =
    sales + totals.difference - givenBack - Object.values(spent).reduce((sum, cost) => sum + cost, 0);
  const openHours = openFor(identity, day) / HOUR;
  return {
    sales,
    difference: totals.difference,
    givenBack,
    tax: totals.tax - totals.taxGivenBack,
    ...spent,
    profit,
    openHours,
    profitPerHour: openHours > 0 ? Math.round(profit / openHours) : null,
  };
}

/** Pieces that earned nothing: spoiled, missing, or pressed for an order that was not kept. */
export function wasteOf(
  { totals, choices, costs }: DayRows,
  { blanks, transfers }: Pieces,
): Closeout["waste"] {
  const spoiled = ({ row }: PricedPiece): number => spoiledOf(row);
  const missing = ({ row }: PricedPiece): number => Math.max(0, -row.found);
  const wasted = (piece: PricedPiece): number => spoiled(piece) + missing(piece);
  const unsoldCost = choices.reduce((sum, { unsold, blank, size, design }) => {
    const each = (blankPrice(costs, blank, size)?.cost ?? 0) + (transferPrice(costs, design)?.cost ?? 0);
    return sum + unsold * each;
  }, 0);
  return {
    blanks: total(blanks, spoiled),
    transfers: total(transfers, spoiled),
    missing: total(blanks, missing) + total(transfers, missing),
    unsold: choices.reduce((sum, { unsold }) => sum + unsold, 0),
    ...(totals.seconds === undefined ? {} : { seconds: totals.seconds }),
    cost: costOf(blanks, wasted) + costOf(transfers, wasted) + unsoldCost,
  };
}
