/**
 * Gang sheets, measured. With `--instances FILE`: published two-dimensional bin-packing instances (a JSON file
 * with `instances`: name, bin [width, height], items [width, height, quantity], bestKnownBins, rotationAllowed)
 * against the best known numbers and a general packing library. Always: seeded shops against plans made without
 * the planner, and problems of few large pieces against the exact integer optimum by HiGHS over all full layouts.
 */
import { readFile } from "node:fs/promises";
// By its file: the plain import of this package gives no exports to Node (types: ../maxrects-packer.d.ts).
import { MaxRectsPacker } from "maxrects-packer/dist/maxrects-packer.mjs";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { SheetRequest } from "../../src/model/planning/sheets.ts";
import { problemOf } from "../../src/planning/sheets/search/problem.ts";
import { planSheets } from "../../src/planning/sheets/sheets.ts";
import { gangingProblem } from "../planning/ganging.ts";
import { cheapestByHighs } from "../planning/optimum.ts";
import { brokenRules } from "../planning/verify.ts";
import { type Bench, type Figure, median } from "./figure.ts";
import { everyLayout } from "./sheets/every-layout.ts";
import { referencePlans } from "./sheets/reference.ts";
import { inventedShop } from "./sheets/shops.ts";

type Instance = {
  readonly name: string;
  readonly bin: readonly [number, number];
  readonly items: readonly (readonly [number, number, number])[];
  readonly bestKnownBins: number;
  readonly rotationAllowed: boolean;
};

const RANDOM_STARTS = 50;
const SHOPS = 200;
const GANGING_PROBLEMS = 50;
const HIGHS_SECONDS = 10;

async function instancesGiven(): Promise<readonly Instance[]> {
  const at = process.argv.indexOf("--instances");
  const file = at < 0 ? undefined : process.argv[at + 1];
  if (file === undefined) return [];
  const read = JSON.parse(await readFile(file, "utf8")) as { instances: Instance[] }; // a file of this shape is asked for
  return read.instances;
}

/** Sheets the library uses: in its own order, or pieces added in an order drawn by chance. */
function byLibrary({ bin, items, rotationAllowed }: Instance, random: Random | null): number {
  const options = { smart: false, pot: false, square: false, allowRotation: rotationAllowed };
  const packer = new MaxRectsPacker(bin[0], bin[1], 0, options);
  const sizes = items.flatMap(([width, height, quantity]) =>
    Array.from({ length: quantity }, () => ({ width, height, key: random?.next() ?? 0 })),
  );
  if (random === null)
    packer.addArray(sizes.map(({ width, height }) => ({ width, height, data: null })) as never);
  else for (const { width, height } of sizes.sort((a, b) => a.key - b.key)) packer.add(width, height, null);
  return packer.bins.length;
}

const of = (name: string, figure: number, goal: Figure["goal"], unit: string): Figure => ({
  bench: "sheets",
  name,
  figure,
  goal,
  unit,
});

/** The plan, how long it took, and the rules it breaks. */
function timed(request: SheetRequest) {
  const began = performance.now();
  const plan = planSheets(request);
  const milliseconds = performance.now() - began;
  if (plan.kind !== "plan") throw new Error(JSON.stringify(plan.faults));
  return { plan, milliseconds, broken: brokenRules(request, plan).length };
}

/** The published instances as requests: every sheet costs 1, so that the cost is the number of sheets. */
function published(instances: readonly Instance[]): Figure[] {
  let atBest = 0;
  let mostAbove = 0;
  let broken = 0;
  let worseThanStarts = 0;
  const times: number[] = [];
  for (const instance of instances) {
    const [width, height] = instance.bin;
    const run = timed(
      SheetRequest.parse({
        designs: instance.items.map(([wide, high, count], at) => {
          const id = `design-${at + 1}`;
          return { id, name: id, width: wide, height: high, count, mayTurn: instance.rotationAllowed };
        }),
        sheets: [
          { id: "bin", name: "bin", width, height, margin: 0, gap: 0, prices: [{ copies: 1, price: 1 }] },
        ],
      }),
    );
    const random = seededRandom(1);
    const starts = Array.from({ length: RANDOM_STARTS }, (_, at) =>
      byLibrary(instance, at === 0 ? null : random),
    );
    const above = run.plan.cost.total - instance.bestKnownBins;
    if (above <= 0) atBest += 1;
    mostAbove = Math.max(mostAbove, above);
    if (run.plan.cost.total > Math.min(...starts)) worseThanStarts += 1;
    broken += run.broken;
    times.push(run.milliseconds);
  }
  return [
    of(
      `published packings at the best known number, of ${instances.length}`,
      atBest,
      { atLeast: instances.length - 1 },
      "instances",
    ),
    of("published packings: most sheets above the best known", mostAbove, { atMost: 1 }, "sheets"),
    of("published packings: broken rules", broken, { atMost: 0 }, "rules"),
    of(
      `published packings with more sheets than ${RANDOM_STARTS} starts of a library`,
      worseThanStarts,
      { atMost: 0 },
      "instances",
    ),
    of("time per published packing, longest", Math.max(...times), { atMost: 2000 }, "ms"),
  ];
}

async function shops(): Promise<Figure[]> {
  const above: number[] = [];
  const times: number[] = [];
  let broken = 0;
  for (let seed = 1; seed <= SHOPS; seed++) {
    const request = inventedShop(seed);
    const run = timed(request);
    const patterns = run.plan.layouts.map(({ sheet, pieces }) => ({
      size: request.sheets.findIndex(({ id }) => id === sheet),
      counts: request.designs.map(({ id }) => pieces.filter(({ design }) => design === id).length),
    }));
    const { packer, program } = await referencePlans(request, patterns, run.plan.cost.total);
    above.push(100 * Math.max(0, run.plan.cost.total / Math.min(packer, program) - 1));
    times.push(run.milliseconds);
    broken += run.broken;
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return [
    of(`cost above the best reference over ${SHOPS} shops, mean`, mean(above), { atMost: 0.3 }, "%"),
    of("cost above the best reference, worst shop", Math.max(...above), { atMost: 2 }, "%"),
    of("broken rules over all shops", broken, { atMost: 0 }, "rules"),
    of("time per shop, median", median(times), null, "ms"),
    of("time per shop, longest", Math.max(...times), null, "ms"),
  ];
}

async function ganging(): Promise<Figure[]> {
  const above: number[] = [];
  for (let seed = 1; seed <= GANGING_PROBLEMS; seed++) {
    const request = gangingProblem(seed);
    const { plan } = timed(request);
    const all = everyLayout(problemOf(request));
    if (all === null) continue;
    const optimum = await cheapestByHighs(request, all, plan.cost.total, HIGHS_SECONDS);
    if (optimum.status === "Optimal") above.push(100 * (plan.cost.total / optimum.cost - 1));
  }
  const mean = above.reduce((sum, gap) => sum + gap, 0) / above.length;
  return [
    of(
      "few large pieces: problems an integer program over all layouts solved",
      above.length,
      null,
      `of ${GANGING_PROBLEMS}`,
    ),
    of("few large pieces: cost above that optimum, mean", mean, { atMost: 0.3 }, "%"),
    of("few large pieces: cost above that optimum, worst", Math.max(...above), { atMost: 2 }, "%"),
  ];
}

export const bench: Bench = {
  name: "sheets",
  run: async () => {
    const instances = await instancesGiven();
    return [...(instances.length > 0 ? published(instances) : []), ...(await shops()), ...(await ganging())];
  },
};
