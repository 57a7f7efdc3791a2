/**
 * Run as a process of its own: draws and plans the large invented fair, and prints the most memory it
 * held (heap and array buffers, in MiB), above what an empty process holds, and the most in all.
 */

import { newTrial } from "../../src/planning/bring/search/score.ts";
import { bestStock, daysOf } from "./days.ts";
import { inventedFair } from "./invented.ts";

const held = () => {
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 2 ** 20;
};
const empty = held();
let most = empty;
const days = daysOf(
  inventedFair({ seed: 7, blanks: 4, colours: 3, sizes: 5, designs: 6, passersBy: 6000, scenarios: 1000 }),
  1000,
);
most = Math.max(most, held());
const trial = newTrial(days.shop, days.scenarios);
const watched = {
  ...trial,
  *slopes(...given: Parameters<typeof trial.slopes>) {
    const gain = yield* trial.slopes(...given);
    most = Math.max(most, held());
    return gain;
  },
};
bestStock({ ...days, trial: watched });
console.log(
  JSON.stringify({ above: most - empty, held: most, resident: process.resourceUsage().maxRSS / 1024 }),
);
