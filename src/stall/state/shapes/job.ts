/** A garment of an order on its way to being pressed. */

import type { PressId } from "../../../model/basics/ids.ts";
import type { Lost, SpoilReason } from "../../../model/orders/taps.ts";
import type { Day } from "../../../time/fair-day.ts";
import type { Instant } from "../../../time/instants.ts";

/** The temperature a platen is set to, and when it is expected to reach it. */
export type PlatenHeat = { readonly fahrenheit: number; readonly readyAt: Instant };

/** A job's place in line: lower goes first. A job on a press keeps its turn, so that returning it costs nothing. */
export type Turn = number;

type JobAt =
  | { readonly stage: "to-pay" }
  /** Outside the line until somebody comes to the counter, pays, or texts the order's code. */
  | { readonly stage: "to-claim" }
  | { readonly stage: "waiting"; readonly turn: Turn; readonly overtaken: number }
  /** Lacks a blank or a transfer: keeps its turn, promises nothing. */
  | { readonly stage: "short"; readonly turn: Turn; readonly overtaken: number }
  /** Reserved for one press, whose tablet may have lost its signal: no other press gets it. */
  | {
      readonly stage: "reserved";
      readonly turn: Turn;
      readonly overtaken: number;
      readonly press: PressId;
      /** The stall asked the press to give it back, and has no answer yet. */
      readonly askedBack?: true;
    }
  | {
      readonly stage: "pressing";
      readonly turn: Turn;
      readonly overtaken: number;
      readonly press: PressId;
      /** From when its time counts: fetching the garment and folding the last one belong to it. */
      readonly countsFrom: Instant;
    }
  | { readonly stage: "pressed"; readonly press: PressId; readonly turn: Turn };

export type Job = JobAt & {
  /** Which garment of the order, from 1. */
  readonly n: number;
  /** Which line of the order it belongs to, from 0. */
  readonly line: number;
  readonly since: Instant;
  /** How it was just spoiled, for as long as it is not on a press again: that can be taken back. */
  readonly spoiled?: {
    readonly lost: Lost;
    readonly reason: SpoilReason;
    readonly at: Instant;
    readonly day: Day;
  };
  /** Presses that had it reserved, fell silent and so lost it: it may be pressed there already. */
  readonly letGo?: readonly { readonly press: PressId; readonly silentSince: Instant }[];
};
