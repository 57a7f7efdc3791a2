/**
 * `npm run simulate -- --seeds 20000 [--from 1]` plays that many fairs and stops at the first that breaks a rule;
 * `npm run simulate -- --seed N [--acts 3,17,25]` plays one again, or some of its acts.
 */
import { parseArgs } from "node:util";
import { planOf } from "./plan.ts";
import { ACTS, run } from "./run.ts";
import { shrink } from "./shrink.ts";

const { values } = parseArgs({
  options: {
    seed: { type: "string" },
    acts: { type: "string" },
    seeds: { type: "string", default: "1000" },
    from: { type: "string", default: "1" },
  },
});
const SHRINKING_RUNS = 300;
const say = (line: string): void => void process.stdout.write(`${line}\n`);

async function one(seed: number, acts: string | undefined): Promise<boolean> {
  const kept = acts === undefined ? null : new Set(acts.split(",").map(Number));
  const { trace, fault } = await run(seed, ({ index }) => kept === null || kept.has(index));
  if (fault === null) {
    say(`seed ${seed}: every rule held; trace ${trace}`);
    return true;
  }
  say(`seed ${seed}, act ${fault.act}: ${fault.message}`);
  return false;
}

async function explain(seed: number): Promise<void> {
  const { fault } = await run(seed);
  if (fault === null)
    throw new Error(`seed ${seed} failed and then did not: the simulation is not repeatable`);
  say(`\nseed ${seed}, act ${fault.act}: ${fault.message}\nmaking it shorter ...`);
  const shrunk = await shrink(seed, fault, SHRINKING_RUNS);
  const acts = new Set(shrunk.acts);
  for (const act of planOf(seed, ACTS)) if (acts.has(act.index)) say(`  ${act.index} ${act.kind}`);
  say(`${shrunk.fault.message}\nagain: npm run simulate -- --seed ${seed} --acts ${shrunk.acts.join(",")}`);
}

if (values.seed !== undefined) {
  process.exitCode = (await one(Number(values.seed), values.acts)) ? 0 : 1;
} else {
  const [from, seeds] = [Number(values.from), Number(values.seeds)];
  const began = performance.now();
  for (let seed = from; seed < from + seeds; seed++) {
    const { fault } = await run(seed);
    if (fault !== null) {
      await explain(seed);
      process.exitCode = 1;
      break;
    }
    const done = seed - from + 1;
    if (done % 50 === 0 || done === seeds)
      say(
        `${done} of ${seeds} fairs, every rule held; ${((performance.now() - began) / done).toFixed(0)} ms each`,
      );
  }
}
