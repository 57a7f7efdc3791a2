import { performance } from "node:perf_hooks";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { manyServers } from "../../src/maths/waiting.ts";
import type { PitchRequest } from "../../src/model/planning/pitch.ts";
import type { PowerLoad, PowerRequest } from "../../src/model/planning/power.ts";
import type { Handling, PressAsk, PressesRequest } from "../../src/model/planning/presses.ts";
import { planPitch } from "../../src/planning/pitch/pitch.ts";
import { planPower } from "../../src/planning/power/power.ts";
import { planPresses } from "../../src/planning/presses/presses.ts";
import { type Bench, type Figure, median } from "./figure.ts";

const STALL_WATTS = [12, 40, 50, 60, 100, 100, 150, 200, 300, 500, 1000, 1500] as const;

/** Loads of a large stall, a quarter of them not continuous, on circuits of 15 and 20 A. */
function stall(random: Random, count: number, watts: (random: Random) => number): PowerRequest {
  return {
    region: "north-america",
    hours: 9,
    loads: Array.from(
      { length: count },
      (_, index): PowerLoad => ({
        load: `load ${index}`,
        kind: "other",
        watts: watts(random),
        volts: 120,
        continuous: random.chance(0.75),
      }),
    ),
    circuits: Array.from({ length: Math.min(60, count) }, (_, index) => ({
      circuit: `circuit ${index}`,
      volts: 120,
      breakerAmps: random.pick([15, 20, 20]),
    })),
  };
}

/** How many of these plans are proven minimal, and the milliseconds of each. */
function sharing(
  count: number,
  runs: number,
  watts: (random: Random) => number,
): { proven: number; times: number[]; overloaded: number } {
  const times: number[] = [];
  let proven = 0;
  let overloaded = 0;
  for (let seed = 1; seed <= runs; seed++) {
    const request = stall(seededRandom(seed), count, watts);
    const start = performance.now();
    const answer = planPower(request);
    times.push(performance.now() - start);
    if (answer.ok && answer.value.circuitsUsed === answer.value.circuitsAtLeast) proven++;
    if (!answer.ok) continue;
    for (const { breakerAmps, countedAmps, loads } of answer.value.circuits)
      if (countedAmps > breakerAmps + 1e-4 || loads.some(({ amps }) => amps > 0.8 * breakerAmps + 1e-4))
        overloaded++;
  }
  return { proven: proven / runs, times, overloaded };
}

const plain: Handling = {
  settings: "plain",
  platen: "flat",
  temperature: { value: 185, unit: "C" },
  loadSeconds: 24,
  prePressSeconds: 0,
  placeSeconds: 0,
  dwellSeconds: [5],
  peelSeconds: 3,
  unloadSeconds: 4,
  foldSeconds: 8,
};

function poisson(random: Random, perSecond: number, until: number): PressAsk[] {
  const asks: PressAsk[] = [];
  for (let at = 0; ; ) {
    at -= Math.log(1 - random.next()) / perSecond;
    if (at > until) return asks;
    asks.push({ atSeconds: at, platen: "flat", garments: 1 });
  }
}

/** M/M/2 of a textbook (Hillier & Lieberman, county hospital) by simulation: how far from the published 3/8 h. */
function lineError(): number {
  const random = seededRandom(11);
  const handling = {
    ...plain,
    loadSeconds: 1200,
    dwellSeconds: [0],
    peelSeconds: 0,
    unloadSeconds: 0,
    foldSeconds: 0,
  };
  const answer = planPresses({
    closesAtSeconds: 600_000,
    scenarios: Array.from({ length: 120 }, () => poisson(random, 2 / 3600, 600_000)),
    handling: [handling],
    handVariation: 1,
    presses: [{ platen: "flat", most: 2, now: 2 }],
    people: { most: 2, now: 2 },
  });
  if (!answer.ok) return Number.NaN;
  const stay = answer.value.combinations[answer.value.looked]?.platens[0]?.meanWaitSeconds ?? Number.NaN;
  const published = (manyServers(2, 1 / 3, 2)?.meanStay ?? Number.NaN) * 3600;
  return 100 * Math.abs(stay / published - 1);
}

function day(): PressesRequest {
  const random = seededRandom(5);
  return {
    closesAtSeconds: 8 * 3600,
    scenarios: Array.from({ length: 300 }, () => poisson(random, 55 / 3600, 8 * 3600)),
    handling: [plain],
    spoilage: 0.02,
    patience: { medianSeconds: 1200, variation: 0.6 },
    presses: [{ platen: "flat", most: 4 }],
    people: { most: 4 },
  };
}

const length = (value: number, unit: "ft" | "in") => ({ value, unit });
const smallPitch: PitchRequest = {
  pitch: { width: length(10, "ft"), depth: length(10, "ft") },
  queue: { people: 6, where: "outside" },
  pieces: [
    { piece: "counter", kind: "counter", width: length(6, "ft"), depth: length(30, "in") },
    { piece: "press-a", kind: "press", width: length(24, "in"), depth: length(24, "in") },
    { piece: "press-b", kind: "press", width: length(24, "in"), depth: length(24, "in") },
    { piece: "rack", kind: "rack", width: length(4, "ft"), depth: length(18, "in") },
  ],
};

function medianMilliseconds(runs: number, work: () => void): number {
  return median(
    Array.from({ length: runs }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    }),
  );
}

async function run(): Promise<readonly Figure[]> {
  const few = sharing(20, 200, (random) => random.pick(STALL_WATTS));
  const many = sharing(60, 200, (random) => random.pick(STALL_WATTS));
  const hard = sharing(60, 20, (random) => 480 + random.below(720));
  const request = day();
  const figure = (name: string, value: number, unit: string, goal: Figure["goal"] = null): Figure => ({
    bench: "power",
    name,
    figure: value,
    goal,
    unit,
  });
  return [
    figure("20 stall loads: share proven to use the fewest circuits", few.proven, "share", { atLeast: 1 }),
    figure("60 stall loads: share proven to use the fewest circuits", many.proven, "share", { atLeast: 1 }),
    figure(
      "circuits past their breaker, or with one plug past 80 % of it (NEC 210.20(A), 210.23(A)(1))",
      few.overloaded + many.overloaded + hard.overloaded,
      "circuits",
      { atMost: 0 },
    ),
    figure("60 stall loads: median time of a power plan", median(many.times), "ms"),
    figure("60 stall loads: longest time of a power plan", Math.max(...many.times), "ms"),
    figure("60 loads of 4 to 10 A by plate: share proven", hard.proven, "share"),
    figure("60 loads of 4 to 10 A by plate: longest time", Math.max(...hard.times), "ms"),
    figure("simulated M/M/2 against its published stay", lineError(), "per cent", { atMost: 5 }),
    figure(
      "presses and people, 4 x 4 combinations: median time",
      medianMilliseconds(5, () => planPresses(request)),
      "ms",
    ),
    figure(
      "a 10 x 10 ft pitch: median time",
      medianMilliseconds(5, () => planPitch(smallPitch)),
      "ms",
    ),
  ];
}

export const bench: Bench = { name: "power", run };
