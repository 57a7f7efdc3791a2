import type { Scenarios } from "../../demand/asks.ts";
import { DAY_MINUTES } from "../../request/prepared.ts";
import { type Day, listsAt, ruledOut } from "./day.ts";
import { REACTIONS, type Shop } from "./shop.ts";

/** The change from one more, and from one fewer. */
export type Slopes = {
  /** Per kind of goods. */
  readonly more: Float64Array;
  readonly fewer: Float64Array;
  /**
   * Per way: what one more of both its goods would have changed beyond what each alone would, for asks that
   * lacked both; and what taking the last of both at once was counted for twice among the fewer.
   */
  readonly bothMore: Float64Array;
  readonly bothFewer: Float64Array;
};

export function blankSlopes(shop: Shop): Slopes {
  const goods = shop.goods.length;
  const ways = shop.first.length;
  return {
    more: new Float64Array(goods),
    fewer: new Float64Array(goods),
    bothMore: new Float64Array(ways),
    bothFewer: new Float64Array(ways),
  };
}

/** Room for the walk back; made once and used for every day. */
export type Ledger = Slopes & {
  readonly left: Int32Array;
  readonly changed: Int32Array;
  readonly change: Float64Array;
};

export function blankLedger(shop: Shop): Ledger {
  return {
    ...blankSlopes(shop),
    left: new Int32Array(shop.goods.length),
    changed: new Int32Array(64),
    change: new Float64Array(64),
  };
}

/**
 * Walks a lived day backwards and adds to `sums` what one more or one fewer of each kind of goods at
 * opening would have changed in that day's gain.
 *
 * A piece more lies idle until the first ask that failed for want of exactly it; meeting that ask uses up
 * a piece of the other kind, worth what one fewer of that is worth from then on, and frees whatever the
 * customer took instead. A piece fewer is missed by the ask that took the last one. So the worth of a
 * piece before an ask follows from the worths after it, and one walk gives them all (perturbation
 * analysis; how presses' waits shift is left out). Before anything was scarce the worths stay as they are.
 */
export function addSlopes(
  shop: Shop,
  scenarios: Scenarios,
  scenario: number,
  day: Day,
  ledger: Ledger,
  sums: Slopes,
): void {
  const { first, second, spoils, net } = shop;
  const { more, fewer, bothMore, bothFewer, left, changed, change } = ledger;
  const { minute, product, reaction, spoils: spoilt } = scenarios;
  const begin = scenarios.starts[scenario] ?? 0;
  const end = scenarios.starts[scenario + 1] ?? begin;
  const until = day.scarceFrom;
  if (until === end) return;
  more.fill(0);
  fewer.fill(0);
  bothMore.fill(0);
  bothFewer.fill(0);
  left.set(day.left);
  let today = shop.days - 1;
  let { worthUsed } = shop;

  for (let ask = end - 1; ask >= until; ask--) {
    while (shop.restocks && (minute[ask] as number) < today * DAY_MINUTES) {
      // The morning brings the full stock back: what is scarce on one day changes nothing on the day before.
      today--;
      worthUsed = shop.costUsed;
      flush(ledger, sums);
      left.set(day.nights.subarray(today * left.length, (today + 1) * left.length));
    }
    const way = day.taken[ask - begin] as number; // filled for every ask of the day
    const marks = day.seen[ask - begin] as number; // likewise
    const tries = 1 + (spoilt[ask] as number); // in range
    const a = way < 0 ? -1 : (first[way] as number); // one entry a way
    const b = way < 0 ? -1 : (second[way] as number);
    const used = way < 0 ? 0 : spoils[way] ? tries : 1;
    const gain = way < 0 ? 0 : (net[way] as number) - used * (worthUsed[way] as number);
    if (a >= 0) left[a] = (left[a] as number) + used;
    if (b >= 0) left[b] = (left[b] as number) + used;

    const lists = listsAt(shop, marks);
    const list = REACTIONS * (product[ask] as number) + (reaction[ask] as number); // in range
    const last = lists.from[list + 1] as number; // lists are built for every product and reaction
    let changes = 0;
    let at = lists.from[list] as number;
    for (; at < last; at++) {
      const other = lists.ways[at] as number; // in range
      if (other === way) break;
      if (ruledOut(shop, other, marks)) continue;
      const need = spoils[other] ? tries : 1;
      const c = first[other] as number;
      const d = second[other] as number;
      const lacksC = need - (left[c] as number);
      const lacksD = d < 0 ? 0 : need - (left[d] as number);
      if (lacksC === 1 && lacksD === 1) {
        bothMore[other] = (net[other] as number) - need * (worthUsed[other] as number) - gain;
      }
      // Only a piece that alone would have made the difference has a value of its own.
      const lacking = lacksC === 1 && lacksD <= 0 ? c : lacksD === 1 && lacksC <= 0 ? d : -1;
      if (lacking < 0 || changes === changed.length || isChanged(changed, changes, lacking)) continue;
      const partner = lacking === c ? d : c;
      let worth = (net[other] as number) - need * (worthUsed[other] as number) - gain;
      if (need > 1) worth += (need - 1) * (fewer[lacking] as number);
      if (partner >= 0 && partner !== a && partner !== b) worth += need * (fewer[partner] as number);
      if (a >= 0 && a !== partner) worth += used * (more[a] as number);
      if (b >= 0 && b !== partner) worth += used * (more[b] as number);
      changed[changes] = lacking;
      change[changes] = worth;
      changes++;
    }
    if (way >= 0) {
      const lastOfA = (left[a] as number) === used;
      const lastOfB = b >= 0 && (left[b] as number) === used;
      if (lastOfA || lastOfB) {
        const ask = { ways: lists.ways, next: at + 1, last, marks, tries, gain, used, worthUsed };
        const withoutA = lastOfA ? missed(shop, ledger, ask, a, b) : 0;
        if (lastOfB) fewer[b] = missed(shop, ledger, ask, b, a);
        if (lastOfA) fewer[a] = withoutA;
        if (lastOfA && lastOfB) bothFewer[way] = gain;
      }
    }
    for (let index = 0; index < changes; index++) more[changed[index] as number] = change[index] as number; // index < changes
  }
  flush(ledger, sums);
}

/** Adds the values of a day to the sums, and clears them for the day before. */
function flush(ledger: Ledger, sums: Slopes): void {
  for (const part of ["more", "fewer", "bothMore", "bothFewer"] as const) {
    addTo(sums[part], ledger[part]);
    ledger[part].fill(0);
  }
}

function addTo(sum: Float64Array, part: Float64Array): void {
  for (let index = 0; index < sum.length; index++)
    sum[index] = (sum[index] as number) + (part[index] as number); // same length
}

function isChanged(changed: Int32Array, count: number, goods: number): boolean {
  for (let index = 0; index < count; index++) if (changed[index] === goods) return true;
  return false;
}

type Met = {
  readonly ways: Int32Array;
  /** The first way on the list after the one taken, and the end of the list. */
  readonly next: number;
  readonly last: number;
  readonly marks: number;
  readonly tries: number;
  readonly gain: number;
  readonly used: number;
  readonly worthUsed: Float64Array;
};

/**
 * The change if this request cannot take the last of `gone`: its gain is lost, its partner freed, another way found.
 */
function missed(shop: Shop, ledger: Ledger, ask: Met, gone: number, partner: number): number {
  const { more, fewer, left } = ledger;
  let worth = -ask.gain;
  if (ask.used > 1) worth += (ask.used - 1) * (more[gone] as number);
  for (let at = ask.next; at < ask.last; at++) {
    const other = ask.ways[at] as number; // in range
    if (ruledOut(shop, other, ask.marks)) continue;
    const need = shop.spoils[other] ? ask.tries : 1;
    const c = shop.first[other] as number; // one entry a way
    const d = shop.second[other] as number; // -1 or goods
    if ((left[c] as number) - (c === gone ? 1 : 0) < need) continue;
    if (d >= 0 && (left[d] as number) - (d === gone ? 1 : 0) < need) continue;
    worth += (shop.net[other] as number) - need * (ask.worthUsed[other] as number);
    if (c !== partner) worth += need * (fewer[c] as number);
    if (d >= 0 && d !== partner) worth += need * (fewer[d] as number);
    if (partner < 0 || partner === c || partner === d) return worth;
    break;
  }
  return partner < 0 ? worth : worth + ask.used * (more[partner] as number);
}
