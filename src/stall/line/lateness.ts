/** Orders that will miss their promise, so that their customers are told in time. */
import type { Instant } from "../../time/instants.ts";
import { stoppedSince } from "../state/opening.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { Order } from "../state/shapes/order.ts";
import type { StallState } from "../state/state.ts";
import { secondsLeft } from "./quote.ts";

/** Orders checked each time, from the head of the line: a fixed cost, however long the line. */
const NEAR = 8;
/** Orders checked when a press stops or a person leaves. */
const FAR = 100;

const MOVES_THE_LINE: ReadonlySet<StallEvent["type"]> = new Set([
  "pulled",
  "pressed",
  "spoiled",
  "returned",
  "press-up",
  "resumed",
]);
const SLOWS_THE_LINE: ReadonlySet<StallEvent["type"]> = new Set(["press-down", "hands-set"]);

function untold(state: StallState, most: number): readonly (Order & { readonly dueBy: Instant })[] {
  if (stoppedSince(state.status) !== null) return [];
  return state.orderIndex.underWay.first(most).flatMap(({ number }) => {
    const order = state.order(number);
    if (order === undefined || order.toldLate) return [];
    const { dueBy } = order;
    return dueBy === null ? [] : [{ ...order, dueBy }];
  });
}

/** When to check for late orders again, at the latest; null if nobody near the head has a promise. */
export function nextPromise(state: StallState): Instant | null {
  const promised = untold(state, NEAR).map(({ dueBy }) => dueBy);
  // Just after the promise: at the very instant nobody is late yet, and the alarm would ring again at once.
  return promised.length === 0 ? null : Math.min(...promised) + 1;
}

/** The orders now expected after their promise, each returned once; checked if something moved or if `asked`. */
export function runningLate(
  state: StallState,
  events: readonly StallEvent[],
  asked: boolean,
  now: Instant,
): readonly StallEvent[] {
  const { menu } = state;
  const slower = events.some(({ type }) => SLOWS_THE_LINE.has(type));
  const moved = asked || slower || events.some(({ type }) => MOVES_THE_LINE.has(type));
  if (menu === null || !moved) return [];
  return untold(state, slower ? FAR : NEAR).flatMap((order): StallEvent[] =>
    now + secondsLeft(state, menu, order, now) * 1000 > order.dueBy
      ? [{ type: "ran-late", number: order.number }]
      : [],
  );
}
