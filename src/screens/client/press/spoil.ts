/** What was lost with a spoiled garment, and why. */
import type { Lost, SpoilReason } from "../../../model/orders/taps.ts";

export type SpoilNote = { readonly lost: Lost; readonly reason: SpoilReason };

/** The question about one garment, as far as it was answered. */
export type SpoilQuestion = {
  readonly press: string;
  readonly job: string;
  readonly lost: Lost | null;
  readonly reason: SpoilReason | null;
  readonly missing: boolean;
};

export const askSpoiled = (press: string, job: string): SpoilQuestion => ({
  press,
  job,
  lost: null,
  reason: null,
  missing: false,
});

export const LOST: readonly (readonly [Lost, string])[] = [
  ["both", "Blank and transfer"],
  ["transfer", "Only the transfer"],
  ["blank", "Only the blank"],
];

export const WHY: readonly (readonly [SpoilReason, string])[] = [
  ["crooked", "Crooked"],
  ["scorched", "Scorched"],
  ["wrong-size", "Wrong size"],
  ["peeled-badly", "Peeled badly"],
  ["other", "Something else"],
];
