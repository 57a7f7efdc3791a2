import type { Goods } from "./shop.ts";

/** The count nearest to `rough` that can be bought: owned pieces, and whole packs beyond them. */
export function nearest(one: Goods, rough: number): number {
  if (rough <= one.owned) return Math.round(rough);
  return one.owned + Math.round((rough - one.owned) / one.pack) * one.pack;
}

/** One piece more, or one pack more beyond what is owned. */
export function stepUp(one: Goods, pieces: number): number {
  return pieces < one.owned ? pieces + 1 : pieces + one.pack;
}

/** One piece or pack fewer; never below 0. */
export function stepDown(one: Goods, pieces: number): number {
  return pieces <= one.owned ? Math.max(0, pieces - 1) : pieces - one.pack;
}
