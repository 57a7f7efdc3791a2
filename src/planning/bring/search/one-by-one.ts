import type { Work } from "../../../maths/work.ts";
import { upToAsks } from "../../demand/asks.ts";
import { exchanges, type Limits } from "./exchanges.ts";
import type { FirstGuess } from "./first-guess.ts";
import { type Found, look } from "./local-search.ts";
import { newTrial, outlay, stake, type Trial } from "./score.ts";

/** Asks of the few days on which moves are compared, and the moves compared there at most. */
const FEW_ASKS = 5_000;
const MOST_TRIED = 100;
/** Asks that all the comparisons may live through. */
const MOST_ASKS = 6_000_000;
/** So many of the best of a round may earn nothing on all the days before the search ends. */
const MOST_FAILED = 5;

/**
 * One move at a time, as long as one earns more: the moves that the slopes promise are tried on few of the days, and the
 * best of them on all. Unlike many moves at once, each comes with what makes room for it, which is what counts where
 * packs, budget or van leave little.
 */
export function* oneByOne(
  trial: Trial,
  start: Found,
  guess: Pick<FirstGuess, "lowest" | "stride">,
  limits: Limits,
): Work<Found> {
  const { shop } = trial;
  const few = newTrial(shop, upToAsks(trial.scenarios, FEW_ASKS));
  const onFew = function* (stock: Int32Array): Work<number> {
    return (yield* few.gain(stock)) - stake(shop.goods, stock);
  };
  let best = start;
  let asks = 0;
  for (let better: Found | null = start; better !== null && asks < MOST_ASKS; ) {
    best = better;
    better = null;
    const before = yield* onFew(best.stock);
    const tried: { stock: Int32Array; gain: number }[] = [];
    for (const { steps } of exchanges(shop, best, guess, limits).slice(0, MOST_TRIED)) {
      const stock = Int32Array.from(best.stock);
      for (const { index, to } of steps) stock[index] = to;
      // Garments decorated beforehand share the packs of their parts, so that only the whole list tells what is paid.
      if (outlay(shop.goods, stock) > Math.max(limits.outlayLimit, outlay(shop.goods, best.stock)) + 1e-9)
        continue;
      asks += few.asks;
      tried.push({ stock, gain: (yield* onFew(stock)) - before });
    }
    const hopeful = tried.filter(({ gain }) => gain > 0).sort((a, b) => b.gain - a.gain);
    for (const { stock } of hopeful.slice(0, MOST_FAILED)) {
      const now = yield* look(trial, stock);
      if (now.profit <= best.profit + 1e-9) continue;
      better = now;
      break;
    }
  }
  return best;
}
