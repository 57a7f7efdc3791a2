import { costEach, priceOfAll } from "../../request/price.ts";
import type { FirstGuess } from "./first-guess.ts";
import type { Slopes } from "./marginal-values.ts";
import { nearest, stepDown, stepUp } from "./pieces.ts";
import { outlay, type Paid, paidFor, vanLoad } from "./score.ts";
import type { Goods, Shop } from "./shop.ts";

type Step = { readonly index: number; readonly to: number };

/** Steps to take together, and what the slopes say that they earn. */
type Move = { readonly steps: readonly Step[]; readonly gain: number };

/** Never more to pay, and never more in the van, than this. */
export type Limits = { readonly outlayLimit: number; readonly vanLimit: number };

/** Another count of one kind of goods: what it should earn, at least as far as one piece tells, and what it takes. */
type Change = Step & {
  readonly gain: number;
  readonly paid: number;
  readonly load: number;
};

type At = { readonly stock: Int32Array; readonly slopes: Slopes };

/** Steps that make room for a move, or use the room that it makes: at most so many of each. */
const MOST_STEPS = 24;
const MOST_SWAPS = 100;
/** The most that one move covers of the distance to slope 0. */
const REACH = 0.5;
/** The part of the newsvendor's curvature that a pack meets, which is steepest at its own best count. */
const CURVED = 0.5;

/**
 * The moves within the limits that could earn something, the most likely first: another count of one kind of goods, or
 * of the two that a way needs. What is beyond the limits is offered with what makes room for it, and what makes room
 * with what is put there: so a pack of one kind goes for a pack of another, or for some transfers.
 */
export function exchanges(
  shop: Shop,
  best: At,
  guess: Pick<FirstGuess, "lowest" | "stride">,
  limits: Limits,
): Move[] {
  const { goods } = shop;
  const valued = valuing(goods, best, guess.stride);
  const room = {
    paid: Math.max(0, limits.outlayLimit - outlay(goods, best.stock)),
    load: Math.max(0, limits.vanLimit - vanLoad(goods, best.stock)),
  };
  const fits = (paid: number, load: number) => paid <= room.paid + 1e-9 && load <= room.load + 1e-9;
  const leads = leadsFrom(shop, best, guess, valued);
  const isShort = leads.some(({ paid, load }) => !fits(paid, load));

  /** As many fewer of this as make enough room. */
  const fewer = (index: number, isEnough: (change: Change) => boolean): Change | null => {
    const one = goods[index];
    let to = best.stock[index] ?? 0;
    for (let steps = 0; one !== undefined && one.made === undefined && steps < MOST_STEPS; steps++) {
      const next = stepDown(one, to);
      if (next === to || next < (guess.lowest[index] ?? 0)) return null;
      to = next;
      const change = valued(index, to);
      if (isEnough(change)) return change;
    }
    return null;
  };

  /** The step that is best for the room it makes or takes, after those chosen. */
  const nextStep = (
    chosen: ReadonlyMap<number, Change>,
    total: Totals,
    step: typeof stepUp,
  ): Change | null => {
    let found: Change | null = null;
    let bestRate = step === stepUp ? 0 : Number.NEGATIVE_INFINITY;
    for (const [index, one] of goods.entries()) {
      if (one.made !== undefined) break; // decorated garments come last
      const before = chosen.get(index);
      const from = before?.to ?? best.stock[index] ?? 0;
      const to = step(one, from);
      if (to === from || to > one.maximum || to < (guess.lowest[index] ?? 0)) continue;
      if (before && before.to > (best.stock[index] ?? 0) !== to > from) continue;
      const change = valued(index, to);
      const paid = change.paid - (before?.paid ?? 0);
      const load = change.load - (before?.load ?? 0);
      const helps =
        step === stepUp
          ? fits(total.paid + paid, total.load + load)
          : (total.paid > room.paid && paid < 0) || (total.load > room.load && load < 0);
      if (!helps) continue;
      const share = Math.abs(paid) / limits.outlayLimit + Math.abs(load) / limits.vanLimit;
      const rate = (change.gain - (before?.gain ?? 0)) / Math.max(1e-9, share);
      if (rate > bestRate) [found, bestRate] = [change, rate];
    }
    return found;
  };

  const withRoom = (lead: Lead): Move | null => {
    const chosen = new Map<number, Change>(lead.changes.map((change) => [change.index, change]));
    const total: Totals = { gain: lead.gain, paid: lead.paid, load: lead.load };
    const choose = (change: Change) => {
      const before = chosen.get(change.index);
      total.gain += change.gain - (before?.gain ?? 0);
      total.paid += change.paid - (before?.paid ?? 0);
      total.load += change.load - (before?.load ?? 0);
      chosen.set(change.index, change);
    };
    for (let steps = 0; !fits(total.paid, total.load); steps++) {
      const change = steps < MOST_STEPS ? nextStep(chosen, total, stepDown) : null;
      if (change === null) return null;
      choose(change);
    }
    const makesRoom = [...chosen.values()].some(({ index, to }) => to < (best.stock[index] ?? 0));
    for (let steps = 0; isShort && makesRoom && steps < MOST_STEPS; steps++) {
      const change = nextStep(chosen, total, stepUp);
      if (change === null) break;
      choose(change);
    }
    return { steps: [...chosen.values()], gain: total.gain };
  };

  return [...leads, ...swaps(leads, fewer, goods.length, fits)]
    .flatMap((lead) => withRoom(lead) ?? [])
    .sort((a, b) => b.gain - a.gain);
}

/** Pairs each move that does not fit with the fewest pieces of one other kind that make room for it; the most promising pair first. */
function swaps(
  leads: readonly Lead[],
  fewer: (index: number, fits: (change: Change) => boolean) => Change | null,
  goods: number,
  fits: (paid: number, load: number) => boolean,
): Lead[] {
  const found = leads
    .filter(({ paid, load }) => !fits(paid, load))
    .flatMap((up) =>
      Array.from({ length: goods }, (_, index) => index).flatMap((index): Lead[] => {
        if (up.changes.some((change) => change.index === index)) return [];
        const down = fewer(index, ({ paid, load }) => fits(up.paid + paid, up.load + load));
        return down === null ? [] : [joined([...up.changes, down], up.extra)];
      }),
    );
  return found.sort((a, b) => b.gain - a.gain).slice(0, MOST_SWAPS);
}

type Totals = { gain: number; paid: number; load: number };
type Lead = Readonly<Totals> & { readonly changes: readonly Change[]; readonly extra: number };
/** Changes taken together, and what they earn beyond each alone. */
function joined(changes: readonly Change[], extra: number): Lead {
  const sum = (of: (change: Change) => number) => changes.reduce((total, change) => total + of(change), 0);
  return {
    changes,
    extra,
    gain: sum(({ gain }) => gain) + extra,
    paid: sum(({ paid }) => paid),
    load: sum(({ load }) => load),
  };
}
type Valued = (index: number, to: number) => Change;

/**
 * What another count changes. The slopes are those of a single piece; over a pack they bend as from the piece before to
 * the piece after, but less and less.
 */
function valuing(goods: readonly Goods[], { stock, slopes }: At, stride: Float64Array): Valued {
  const now = paidFor(goods, stock);
  const changed = Int32Array.from(stock);
  const paidMore = (one: Goods, index: number, from: number, to: number): Paid => {
    if (one.made === undefined) {
      const [before, after] = [Math.max(0, from - one.owned), Math.max(0, to - one.owned)];
      const paid = priceOfAll(one, after) - priceOfAll(one, before);
      return { outlay: paid, stake: paid - one.worth * (after - before) };
    }
    changed[index] = to;
    const then = paidFor(goods, changed);
    changed[index] = from;
    return { outlay: then.outlay - now.outlay, stake: then.stake - now.stake };
  };
  return (index, to) => {
    const one = goods[index];
    const from = stock[index] ?? 0;
    const paid = one === undefined ? { outlay: 0, stake: 0 } : paidMore(one, index, from, to);
    const [more, fewer] = [slopes.more[index] ?? 0, slopes.fewer[index] ?? 0];
    const count = Math.abs(to - from);
    const most = count * (to > from ? more : fewer) - paid.stake;
    const bend = CURVED / (stride[index] ?? 1);
    return {
      index,
      to,
      gain: most - (bend * count * (count - 1)) / 2,
      paid: paid.outlay,
      load: (to - from) * (one?.vanShare ?? 0),
    };
  };
}

/** The single moves: one piece or pack more or fewer, a likely number of them, or a blank together with its transfer. */
function leadsFrom(
  shop: Shop,
  { stock, slopes }: At,
  guess: Pick<FirstGuess, "lowest" | "stride">,
  valued: Valued,
): Lead[] {
  const { goods } = shop;
  const leads: Lead[] = [];
  const isAllowed = (index: number, to: number) =>
    to !== stock[index] && to <= (goods[index]?.maximum ?? 0) && to >= (guess.lowest[index] ?? 0);
  const offer = (steps: readonly Step[], extra = 0) => {
    if (!steps.every(({ index, to }) => isAllowed(index, to))) return;
    leads.push(
      joined(
        steps.map(({ index, to }) => valued(index, to)),
        extra,
      ),
    );
  };
  const stepped = (index: number, step: typeof stepUp): Step => {
    const one = goods[index];
    return { index, to: one === undefined ? -1 : step(one, stock[index] ?? 0) };
  };
  goods.forEach((one, index) => {
    const from = stock[index] ?? 0;
    // The fewest pieces that cost less each than those bought now.
    const cheaper = one.breaks.find((step) => step.from > from - one.owned);
    if (cheaper) offer([{ index, to: one.owned + Math.ceil(cheaper.from / one.pack) * one.pack }]);
    for (const step of [stepUp, stepDown]) {
      const next = stepped(index, step);
      offer([next]);
      const slope = step === stepUp ? (slopes.more[index] ?? 0) : -(slopes.fewer[index] ?? 0);
      const most = Math.max(from, next.to);
      const each = most <= one.owned ? 0 : costEach(one, most - one.owned) - one.worth;
      const to = nearest(one, from + REACH * (guess.stride[index] ?? 0) * (slope - each));
      if (step === stepUp ? to > next.to : to < next.to) offer([{ index, to }]);
    }
  });
  for (const [step, both] of [
    [stepUp, slopes.bothMore],
    [stepDown, slopes.bothFewer],
  ] as const)
    both.forEach((extra, way) => {
      const [first, second] = [shop.first[way] ?? -1, shop.second[way] ?? -1];
      if (extra > 0 && second >= 0) offer([stepped(first, step), stepped(second, step)], extra);
    });
  return leads;
}
