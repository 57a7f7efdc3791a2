/** How well the spans of lessons contain the truth. */
import { learntFrom, sharesFrom } from "../../src/lessons/learnt.ts";
import type { Learnt } from "../../src/model/accounts/learnt.ts";
import { type LivedFair, wishNames } from "./wishes.ts";

export type Judged = {
  /** The share of nine-in-ten spans that hold the truth. */
  readonly sizes: number;
  readonly colours: number;
  readonly offers: number;
  readonly ordersPerHundred: number;
  readonly spoilage: number;
  /** The share of fairs in which the size mix from asks is nearer to the truth than that from sales. */
  readonly asksNearer: number;
  /** Mean distance (half the sum of differences) of the size mix from the truth. */
  readonly fromAsks: number;
  readonly fromSales: number;
};

type Span = { readonly low: number; readonly high: number };
const holds = ({ low, high }: Span, truth: number): boolean => low <= truth && truth <= high;

function held(shares: Learnt["offers"], names: readonly string[], truth: readonly number[]): boolean[] {
  return names.map((name, index) => {
    // A choice nobody asked for has no row: its span is that of no requests at all.
    const all = sharesFrom(names.map((id) => ({ id, asks: shares.find((row) => row.id === id)?.asks ?? 0 })));
    const row = all.find(({ id }) => id === name);
    return row !== undefined && holds(row, truth[index] ?? 0);
  });
}

/** Half the sum of the differences of two mixes. */
function distance(counts: readonly number[], truth: readonly number[]): number {
  const shares = sharesFrom(counts.map((asks, index) => ({ id: String(index), asks })));
  return shares.reduce((sum, { share }, index) => sum + Math.abs(share - (truth[index] ?? 0)), 0) / 2;
}

const shareOf = (hits: readonly boolean[]): number => hits.filter(Boolean).length / hits.length;
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export function judged(fairs: readonly LivedFair[]): Judged {
  const each = fairs.map(({ truth, lessons, soldBySize, askedBySize }) => {
    const learnt = learntFrom([lessons]);
    const { ordersPerHundred, spoilage } = learnt;
    return {
      sizes: held(learnt.sizes[0]?.shares ?? [], wishNames.sizes, truth.sizes),
      colours: held(learnt.colours[0]?.shares ?? [], wishNames.colours, truth.colours),
      offers: held(learnt.offers, wishNames.offers, truth.offers),
      rate: ordersPerHundred !== null && holds(ordersPerHundred, truth.perHundred),
      // The truth is in spoiled for each good one; the span in spoiled of all tries.
      spoilage: spoilage !== null && holds(spoilage, truth.spoilage / (1 + truth.spoilage)),
      fromAsks: distance(askedBySize, truth.sizes),
      fromSales: distance(soldBySize, truth.sizes),
    };
  });
  return {
    sizes: shareOf(each.flatMap(({ sizes }) => sizes)),
    colours: shareOf(each.flatMap(({ colours }) => colours)),
    offers: shareOf(each.flatMap(({ offers }) => offers)),
    ordersPerHundred: shareOf(each.map(({ rate }) => rate)),
    spoilage: shareOf(each.map(({ spoilage }) => spoilage)),
    asksNearer: shareOf(each.map(({ fromAsks, fromSales }) => fromAsks < fromSales)),
    fromAsks: mean(each.map(({ fromAsks }) => fromAsks)),
    fromSales: mean(each.map(({ fromSales }) => fromSales)),
  };
}
