/** Why the stall would not: typed values with the facts; wording is somebody else's. */
import type { Fault } from "../basics/faults.ts";
import type { ColourId, OfferId, PressId, SizeId } from "../basics/ids.ts";
import type { Left } from "../basics/problem.ts";
import type { Result } from "../basics/result.ts";
import type { OrderStage } from "./order.ts";

/** Milliseconds since 1970, UTC. */
type Instant = number;

export type Refusal =
  | { readonly code: "no-such-stall" }
  | { readonly code: "no-menu" }
  | { readonly code: "no-such-offer"; readonly offer: string; readonly line: number }
  | {
      readonly code: "no-such-choice";
      readonly offer: OfferId;
      readonly what: "colour" | "size" | "wish";
      readonly given: string;
      readonly line: number;
    }
  | {
      readonly code: "sold-out";
      readonly offer: OfferId;
      readonly colour: ColourId;
      readonly size: SizeId;
      readonly left: readonly Left[];
    }
  | { readonly code: "too-many"; readonly most: number; readonly of: "line" | "order" | "open-orders" }
  | { readonly code: "web-share"; readonly left: readonly Left[] }
  | { readonly code: "web-off" }
  | { readonly code: "not-open"; readonly opens: Instant | null }
  | { readonly code: "line-too-long"; readonly closes: Instant; readonly minutes: number }
  | { readonly code: "paused"; readonly reason: string }
  /** The organiser has stopped all orders of the fair, or pressing. */
  | { readonly code: "fair-stopped"; readonly reason: string }
  | { readonly code: "nothing-held" }
  | { readonly code: "no-such-order"; readonly number: number }
  | { readonly code: "no-such-job"; readonly job: string }
  | { readonly code: "no-such-press"; readonly press: string }
  | { readonly code: "press-down"; readonly press: PressId }
  | { readonly code: "wrong-stage"; readonly what: string; readonly stage: string; readonly needs: string }
  /** A press may be at work on a garment of the order: it was asked back, and the order ends when it is given back. */
  | {
      readonly code: "reserved";
      readonly number: number;
      readonly job: string;
      readonly press: PressId;
      readonly as: OrderStage;
    }
  /** A press has a garment of the order, or may have it: it cannot be changed any more. */
  | { readonly code: "on-press"; readonly number: number; readonly job: string; readonly press: PressId }
  /** The discount is larger than the price. */
  | { readonly code: "above-price"; readonly number: number }
  | { readonly code: "not-paid"; readonly number: number }
  /** No text goes to an order's customer: the number has not written, has opted out, or has had its limit for today. */
  | {
      readonly code: "cannot-text";
      readonly number: number;
      readonly why: "not-written" | "opted-out" | "day-limit";
    }
  | { readonly code: "wrong-word" }
  | { readonly code: "number-taken"; readonly number: number }
  | { readonly code: "stock"; readonly faults: readonly Fault[] }
  | { readonly code: "menu"; readonly faults: readonly Fault[] }
  | { readonly code: "menu-changed" }
  | { readonly code: "no-such-design"; readonly design: string }
  | { readonly code: "no-picture-room"; readonly mostBytes: number; readonly most: number };

/**
 * Why a call was not even looked at: an old key, an idempotency key used before, a stall that has moved, a file
 * that cannot be read.
 */
export type WriteRefusal =
  | { readonly code: "old-key" }
  | { readonly code: "key-reused" }
  /** The stall has moved to another address, which takes everything from now on. */
  | { readonly code: "moved"; readonly to: string }
  | { readonly code: "unreadable-file"; readonly fault: FileFault };

/** Why a stall's file cannot be read: its journal is not one that a stall wrote. */
export type FileFault =
  | { readonly code: "not-opened" }
  | { readonly code: "stock-below-nothing"; readonly piece: string; readonly pieces: number }
  | { readonly code: "entry-missing"; readonly sequence: number }
  /** `error` is the message of the failed event, for whoever fixes the file. */
  | { readonly code: "event-does-not-fit"; readonly sequence: number; readonly error: string };

/** An object's answer to a call: a value, or a refusal. */
export type Answer<T> = Result<T, Refusal | WriteRefusal>;

export const wrongStage = (what: string, stage: OrderStage | string, needs: string): Refusal => ({
  code: "wrong-stage",
  what,
  stage,
  needs,
});
