/**
 * Gang sheets, measured. With `--instances FILE`: published two-dimensional bin-packing instances (a JSON file
 * with `instances`: name, bin [width, height], items [width, height, quantity], bestKnownBins, rotationAllowed)
 * against the best known numbers and a general packing library. Always: seeded ganging problems against the
 * exact integer optimum by HiGHS over all full layouts.
 */
import { readFile } from "node:fs/promises";
// By its file: the plain import of this package gives no exports to Node (types: ../maxrects-packer.d.ts).
import { MaxRectsPacker } from "maxrects-packer/dist/maxrects-packer.mjs";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { finished } from "../../src/maths/work.ts";
import { PACKING_STEPS, packSheets } from "../../src/planning/packing/packing.ts";
import type { Piece } from "../../src/planning/packing/shapes.ts";
import { layoutsOf } from "../../src/planning/sheets/search/layouts.ts";
import { problemOf } from "../../src/planning/sheets/search/problem.ts";
import { planSheets } from "../../src/planning/sheets/sheets.ts";
import { gangingProblem } from "../planning/ganging.ts";
import { cheapestByHighs } from "../planning/optimum.ts";
import { type Bench, type Figure, median } from "./figure.ts";

type Instance = {
  readonly name: string;
  readonly bin: readonly [number, number];
  readonly items: readonly (readonly [number, number, number])[];
  readonly bestKnownBins: number;
  readonly rotationAllowed: boolean;
};

/** Runs of each instance, each with its own seed: shares are over all runs, comparisons take the worst run. */
const RUNS = 5;
const RANDOM_STARTS = 50;
const GANGING_PROBLEMS = 50;
const HIGHS_SECONDS = 60;

async function instancesGiven(): Promise<readonly Instance[]> {
  const at = process.argv.indexOf("--instances");
  const file = at < 0 ? undefined : process.argv[at + 1];
  if (file === undefined) return [];
  const read = JSON.parse(await readFile(file, "utf8")) as { instances: Instance[] }; // a file of this shape is asked for
  return read.instances;
}

/** Sheets the library uses: one default run, or pieces added in an order drawn by chance. */
function byLibrary(
  { bin, rotationAllowed }: Instance,
  pieces: readonly Piece[],
  random: Random | null,
): number {
  const options = { smart: false, pot: false, square: false, allowRotation: rotationAllowed };
  const packer = new MaxRectsPacker(bin[0], bin[1], 0, options);
  const sizes = pieces.map(({ width, height }) => ({ width, height, key: random?.next() ?? 0 }));
  if (random === null)
    packer.addArray(sizes.map(({ width, height }) => ({ width, height, data: null })) as never);
  else for (const { width, height } of sizes.sort((a, b) => a.key - b.key)) packer.add(width, height, null);
  return packer.bins.length;
}

function published(instances: readonly Instance[]): Figure[] {
  let atBest = 0;
  let mostAbove = 0;
  let proven = 0;
  let worseThanRun = 0;
  let worseThanStarts = 0;
  const milliseconds: number[] = [];
  for (const instance of instances) {
    const pieces = instance.items.flatMap(([width, height, quantity]) =>
      Array.from({ length: quantity }, (): Piece => ({ width, height, mayTurn: instance.rotationAllowed })),
    );
    const sheet = { width: instance.bin[0], height: instance.bin[1] };
    const random = seededRandom(1);
    const times: number[] = [];
    let starts = Number.POSITIVE_INFINITY;
    let single = Number.POSITIVE_INFINITY;
    let most = 0;
    for (let run = 0; run < RUNS; run++) {
      const began = performance.now();
      const packing = packSheets(pieces, sheet, { cuts: "free", steps: PACKING_STEPS, seed: run + 1 });
      times.push(performance.now() - began);
      if (packing.kind !== "packed") throw new Error(`${instance.name}: a piece is larger than the sheet`);
      const used = packing.sheets.length;
      if (packing.proven) proven += 1 / RUNS;
      if (used <= instance.bestKnownBins) atBest += 1 / RUNS;
      most = Math.max(most, used);
      single = byLibrary(instance, pieces, null);
      for (let start = 0; start < RANDOM_STARTS / RUNS; start++) {
        starts = Math.min(starts, byLibrary(instance, pieces, random));
      }
    }
    milliseconds.push(median(times));
    mostAbove = Math.max(mostAbove, most - instance.bestKnownBins);
    if (most > single) worseThanRun += 1;
    if (most > starts) worseThanStarts += 1;
  }
  const of = (name: string, figure: number, goal: Figure["goal"], unit: string): Figure => ({
    bench: "sheets",
    name,
    figure,
    goal,
    unit,
  });
  return [
    of(
      `published packings at the best known number (${instances.length} x ${RUNS} seeds)`,
      atBest / instances.length,
      { atLeast: 0.95 },
      "share",
    ),
    of("published packings: most sheets above the best known", mostAbove, { atMost: 1 }, "sheets"),
    of("published packings proven to be the fewest", proven / instances.length, null, "share"),
    of("instances with more sheets than one run of the library", worseThanRun, { atMost: 0 }, "instances"),
    of(
      `instances with more sheets than ${RANDOM_STARTS} random starts of it`,
      worseThanStarts,
      { atMost: 0 },
      "instances",
    ),
    of("time per published packing, median", median(milliseconds), { atMost: 200 }, "ms"),
    of("time per published packing, longest", Math.max(...milliseconds), { atMost: 3000 }, "ms"),
  ];
}

async function ganging(): Promise<Figure[]> {
  const above: number[] = [];
  const milliseconds: number[] = [];
  let solved = 0;
  let proven = 0;
  for (let seed = 1; seed <= GANGING_PROBLEMS; seed++) {
    const request = gangingProblem(seed);
    const times: number[] = [];
    let plan = planSheets(request);
    for (let run = 0; run < RUNS; run++) {
      const began = performance.now();
      plan = planSheets(request);
      times.push(performance.now() - began);
    }
    if (plan.kind !== "plan") throw new Error(`ganging problem ${seed} was refused`);
    milliseconds.push(median(times));
    if (plan.bound.proven) proven += 1;
    const { list, complete } = finished(layoutsOf(problemOf(request)));
    if (!complete) throw new Error(`ganging problem ${seed} has layouts that are not known`);
    const optimum = await cheapestByHighs(request, list, plan.cost.total, HIGHS_SECONDS);
    if (optimum.status !== "Optimal") continue;
    solved += 1;
    above.push(100 * (plan.cost.total / optimum.cost - 1));
  }
  const of = (name: string, figure: number, goal: Figure["goal"], unit: string): Figure => ({
    bench: "sheets",
    name,
    figure,
    goal,
    unit,
  });
  return [
    of("ganging problems the integer program solved to the end", solved, null, `of ${GANGING_PROBLEMS}`),
    of(
      "cost above the integer optimum, mean",
      above.reduce((sum, gap) => sum + gap, 0) / above.length,
      { atMost: 0.5 },
      "%",
    ),
    of("cost above the integer optimum, worst", Math.max(...above), { atMost: 3 }, "%"),
    of("ganging plans proven best by the planner itself", proven, null, `of ${GANGING_PROBLEMS}`),
    of("time per ganging plan, median", median(milliseconds), null, "ms"),
    of("time per ganging plan, longest", Math.max(...milliseconds), null, "ms"),
  ];
}

export const bench: Bench = {
  name: "sheets",
  run: async () => {
    const instances = await instancesGiven();
    return [...(instances.length > 0 ? published(instances) : []), ...(await ganging())];
  },
};
