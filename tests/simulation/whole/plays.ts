/** Plays seeds in a row for a test, and says how to play a failing one again. */
import { run } from "./run.ts";
import { shrink } from "./shrink.ts";

const SHRINKING_RUNS = 60;

/** The fault of the first failing seed, shortened; null if every rule held. */
export async function firstFault(from: number, seeds: number): Promise<string | null> {
  for (let seed = from; seed < from + seeds; seed++) {
    const { fault } = await run(seed);
    if (fault === null) continue;
    const shrunk = await shrink(seed, fault, SHRINKING_RUNS);
    return `${shrunk.fault.message}\nagain: npm run simulate -- --seed ${seed} --acts ${shrunk.acts.join(",")}`;
  }
  return null;
}
