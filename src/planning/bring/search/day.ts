import type { Scenarios } from "../../demand/asks.ts";
import { DAY_MINUTES } from "../../request/prepared.ts";
import { REACTIONS, type Shop } from "./shop.ts";

/** Where one ask came out: a way (0 and up), or why not. */
export const SOLD_OUT = -1;
const TOO_LONG_A_WAIT = -2;

/** The results of one simulated day; its arrays are reused for the next. */
export type Day = {
  /** Per ask of the day: the way it was met by, SOLD_OUT or TOO_LONG_A_WAIT. */
  readonly taken: Int32Array;
  /** For each request: minutes until the garment was ready; meaningful only if one was taken. */
  readonly wait: Float32Array;
  /** Per ask: one bit for each platen whose wait was beyond the customer's patience, and BUSY. */
  readonly seen: Uint8Array;
  /** For each kind of goods: the number left at the end. */
  readonly left: Int32Array;
  /** With restocking, for each day and kind of goods: the number left at its end. */
  readonly nights: Int32Array;
  /** The cost of what was bought between days. */
  restocked: number;
  /** The pitch's part of the takings, and what is paid beyond it to reach the least fee. */
  toPitch: number;
  pitchTopUp: number;
  /**
   * The first request of the day that took the last of something or did not get its first way; the number of requests
   * if none did.
   */
  scarceFrom: number;
};

const BUSY = 128;

export function blankDay(shop: Shop, scenarios: Scenarios): Day {
  let most = 1;
  for (let at = 0; at < scenarios.count; at++) {
    most = Math.max(most, (scenarios.starts[at + 1] ?? 0) - (scenarios.starts[at] ?? 0));
  }
  return {
    taken: new Int32Array(most),
    wait: new Float32Array(most),
    seen: new Uint8Array(most),
    left: new Int32Array(shop.goods.length),
    nights: new Int32Array(shop.restocks ? shop.days * shop.goods.length : 0),
    restocked: 0,
    toPitch: 0,
    pitchTopUp: 0,
    scarceFrom: 0,
  };
}

/**
 * Lives one scenario through, day by day, first come first served: each ask takes the first way on its customer's list
 * that the stock allows and whose press is not too far behind. Fills `day`; gives what the sales leave
 * after tax, fees, the pitch and the worth of the goods they used (not after what the stock cost).
 */
export function simulateDay(
  shop: Shop,
  scenarios: Scenarios,
  scenario: number,
  stock: Int32Array,
  day: Day,
): number {
  const { first, second, platen, spoils, net, worthUsed, presses } = shop;
  const { toPitch, costUsed, busyWait, busyFrom, calm, busy } = shop;
  const { taken, wait, seen, left } = day;
  const { minute: minutes, product, reaction, patience: patiences, spoils: spoilt } = scenarios;
  const begin = scenarios.starts[scenario] ?? 0;
  const end = scenarios.starts[scenario + 1] ?? begin;
  const freeAt = presses.map(({ count }) => new Float64Array(count));
  /** Per platen kind: when its first press is free. */
  const firstFree = new Float64Array(presses.length);
  const limited = presses.length > 0;
  const closing = shop.days > 1;
  const last = shop.days - 1;
  let today = shop.restocks ? 0 : last;
  let gain = 0;
  let restocked = 0;
  let paid = 0;
  let scarceFrom = end;
  left.set(stock);

  for (let ask = begin; ask < end; ask++) {
    const minute = minutes[ask] as number; // in range: begin <= ask < end
    while (today < last && minute >= (today + 1) * DAY_MINUTES) {
      day.nights.set(left, today * left.length);
      left.set(stock);
      today++;
    }
    let marks = 0;
    if (limited) {
      const patience = patiences[ask] as number; // in range
      for (let press = 0; press < firstFree.length; press++) {
        const behind = (firstFree[press] as number) - minute; // one entry a platen kind
        if (behind > patience) marks |= 1 << press;
        if (behind > busyWait) marks |= BUSY;
      }
    }
    if ((closing ? minute % DAY_MINUTES : minute) >= busyFrom) marks |= BUSY;
    const { from, ways } = marks & BUSY ? busy : calm;
    const tries = 1 + (spoilt[ask] as number); // in range
    const list = REACTIONS * (product[ask] as number) + (reaction[ask] as number); // in range
    const listEnd = from[list + 1] as number; // lists are built for every product and reaction
    const start = from[list] as number;
    let outcome = SOLD_OUT;
    let scarce = true;
    for (let at = start; at < listEnd; at++) {
      const way = ways[at] as number; // in range
      const need = spoils[way] ? tries : 1;
      const a = first[way] as number; // every way has a first kind of goods
      const b = second[way] as number; // -1 or goods
      if ((left[a] as number) < need || (b >= 0 && (left[b] as number) < need)) continue;
      const press = platen[way] as number; // one entry a way
      if (press >= 0 && marks & (1 << press)) {
        outcome = TOO_LONG_A_WAIT;
        continue;
      }
      const restOfA = (left[a] as number) - need;
      left[a] = restOfA;
      scarce = at > start || restOfA === 0;
      if (b >= 0) {
        const restOfB = (left[b] as number) - need;
        left[b] = restOfB;
        if (restOfB === 0) scarce = true;
      }
      if (today < last) restocked += need * (costUsed[way] as number);
      gain += (net[way] as number) - need * ((today < last ? costUsed : worthUsed)[way] as number);
      paid += toPitch[way] as number;
      if (press < 0) wait[ask - begin] = 0;
      else {
        wait[ask - begin] = workPress(freeAt[press], minute, (need * (presses[press]?.seconds ?? 0)) / 60);
        firstFree[press] = soonest(freeAt[press]);
      }
      outcome = way;
      break;
    }
    if (scarce && scarceFrom === end) scarceFrom = ask;
    taken[ask - begin] = outcome;
    seen[ask - begin] = marks;
  }
  // A last day without a customer still begins with the full stock.
  for (; today < last; today++) {
    day.nights.set(left, today * left.length);
    left.set(stock);
  }
  day.restocked = restocked;
  day.toPitch = paid;
  day.pitchTopUp = Math.max(0, shop.pitchAtLeast - paid);
  day.scarceFrom = scarceFrom;
  return gain - day.pitchTopUp;
}

function soonest(freeAt: Float64Array | undefined): number {
  if (freeAt === undefined) return 0;
  let least = freeAt[0] ?? 0;
  for (let at = 1; at < freeAt.length; at++) least = Math.min(least, freeAt[at] ?? least);
  return least;
}

/** Puts a garment on the press that is free first; gives the minutes until it is done. */
function workPress(freeAt: Float64Array | undefined, minute: number, minutes: number): number {
  if (freeAt === undefined) return 0;
  let at = 0;
  for (let other = 1; other < freeAt.length; other++)
    if ((freeAt[other] ?? 0) < (freeAt[at] ?? 0)) at = other;
  const done = Math.max(minute, freeAt[at] ?? 0) + minutes;
  freeAt[at] = done;
  return done - minute;
}

/** Whether the day's wait at the press ruled this way out. */
export function ruledOut(shop: Shop, way: number, marks: number): boolean {
  const press = shop.platen[way] ?? -1;
  return press >= 0 && (marks & (1 << press)) !== 0;
}

export function listsAt(shop: Shop, marks: number): Shop["calm"] {
  return marks & BUSY ? shop.busy : shop.calm;
}
