/**
 * Gang sheets: which layouts to order, in how many copies, so that every design's transfers come at least cost;
 * or which mix of transfers to buy for the sheets or the money there is.
 */
import { seededRandom } from "../../maths/random.ts";
import { finished, type Work } from "../../maths/work.ts";
import type { SheetPlan, SheetRefusal, SheetRequest } from "../../model/planning/sheets.ts";
import { costsOf, layoutsInInches, sheetsIn, transfersOf } from "./answer.ts";
import { faultsOf } from "./faults.ts";
import { bestMix } from "./search/affordable.ts";
import { dived, generated } from "./search/columns.ts";
import { oneDesignASheet } from "./search/compare.ts";
import { evenly, evenPlans } from "./search/even.ts";
import { improved, joined } from "./search/improve.ts";
import {
  costOf,
  type GangProblem,
  type Layout,
  problemOf,
  roomCost,
  type SheetRun,
} from "./search/problem.ts";
import { withSpares } from "./search/spares.ts";

/**
 * Plans gang sheets. Lengths come in the request's unit and go out in inches; money is in minor units. The
 * answer says what no plan can beat and how far it is from that. A request that makes no sense is refused with
 * every fault, its pointer, and what would mend it. Nothing is read but the request: same request, same plan.
 */
export function planSheets(request: SheetRequest): SheetPlan | SheetRefusal {
  return finished(planSheetsInSteps(request));
}

/** The same in short steps, for a caller that wants to do something else in between. */
export function* planSheetsInSteps(request: SheetRequest): Work<SheetPlan | SheetRefusal> {
  const faults = faultsOf(request);
  if (faults.length > 0) return { kind: "refused", faults };
  const problem = problemOf(request);
  return request.question.ask === "affordable"
    ? yield* planAffordable(request, problem)
    : yield* planCheapest(request, problem);
}

function* planCheapest(request: SheetRequest, problem: GangProblem): Work<SheetPlan> {
  const plain = yield* oneDesignASheet(problem);
  const limit = roomCost(problem);
  const found = yield* cheapestRuns(request, problem, plain, limit);
  const runs = [...found].sort((a, b) => b.copies - a.copies);

  const values = request.designs.map((design) => design.valueOfOneMore ?? 0);
  const filled = withSpares(problem, runs, values);
  const cost = costsOf(problem, filled);
  const transfers = transfersOf(request, filled);
  const plainCost = costOf(problem, plain);
  return {
    kind: "plan",
    currency: request.currency,
    ask: "least-cost",
    layouts: layoutsInInches(request, problem, filled),
    sheets: sheetsIn(filled),
    cost,
    transfers,
    value: transfers.reduce((sum, { spare }, at) => sum + spare * (values[at] ?? 0), 0),
    bound: {
      measure: "cost",
      limit: Math.min(limit, cost.total),
      gap: limit > 0 ? Math.max(0, cost.total / limit - 1) : 0,
      proven: limit >= cost.total,
    },
    oneDesignASheet: {
      sheets: sheetsIn(plain),
      cost: plainCost,
      savedSheets: sheetsIn(plain) - sheetsIn(filled),
      savedMoney: plainCost - cost.total,
    },
    stepsUsed: request.steps - Math.max(0, problem.steps.left),
    notes: limit < cost.total ? [NOT_PROVEN] : [],
  };
}

function* planAffordable(request: SheetRequest, problem: GangProblem): Work<SheetPlan> {
  const { question } = request;
  if (question.ask !== "affordable") throw new Error("planAffordable: another question was asked");
  const valued = request.designs.some((design) => design.valueOfOneMore !== undefined);
  const values = request.designs.map((design) => (valued ? (design.valueOfOneMore ?? 0) : 1));
  const means = { sheets: question.sheets ?? 20_000, money: question.money ?? Number.POSITIVE_INFINITY };
  const plain = yield* oneDesignASheet(problem);
  const even = yield* evenPlans(problem, request.seed);
  const seed = seededRandom(request.seed);
  const known = [plain, ...even.map(({ runs }) => runs)].flat().map(({ layout }) => layout);
  const many = problem.wanted.length > MOST_DESIGNS_IN_PROGRAM;
  const layouts = many ? known : yield* generated(problem, known, 0, seed, problem.steps.left / 3);
  const mix = yield* bestMix(problem, layouts, values, means, seed);
  const runs = [...mix.runs].sort((a, b) => b.copies - a.copies);
  const proven = mix.value >= mix.limit - 1e-6;
  return {
    kind: "plan",
    currency: request.currency,
    ask: "affordable",
    layouts: layoutsInInches(request, problem, runs),
    sheets: sheetsIn(runs),
    cost: costsOf(problem, runs),
    transfers: transfersOf(request, runs),
    value: mix.value,
    bound: { measure: "value", limit: mix.limit, gap: mix.limit > 0 ? 1 - mix.value / mix.limit : 0, proven },
    oneDesignASheet: null,
    stepsUsed: request.steps - Math.max(0, problem.steps.left),
    notes: [
      ...(valued ? [] : ["No design has a value, so every wanted transfer counts the same."]),
      ...(runs.length === 0 ? ["Nothing can be bought with that: the cheapest order costs more."] : []),
      ...(proven ? [] : [NOT_PROVEN]),
    ],
  };
}

const NOT_PROVEN = "Not every layout was looked at: the plan is good, not proven best.";

/**
 * The cheapest plan found. First even plans by the packer, improved one or two layouts at a time; then whole copies of
 * the layouts of column generation, improved likewise. Ends early at a plan that costs no more than `limit`.
 */
function* cheapestRuns(
  request: SheetRequest,
  problem: GangProblem,
  plain: readonly SheetRun[],
  limit: number,
): Work<readonly SheetRun[]> {
  const cost = (runs: readonly SheetRun[]) => costOf(problem, runs);
  const whole = allTogether(request, problem);
  if (whole) return whole;
  const even = yield* evenPlans(problem, request.seed);
  let best: readonly SheetRun[] = plain;
  const consider = (runs: readonly SheetRun[]) => {
    if (cost(runs) < cost(best)) best = runs;
  };
  for (const { runs } of even) consider(runs);
  const [first] = even;
  if (first && limit < cost(best)) {
    const strong = evenly(problem, first.size, first.copies, request.steps * STRONG_SHARE, request.seed);
    if (strong) consider(strong.runs);
  }
  const bettering = { together: 2, patience: 20_000, budget: request.steps / 40 } as const;
  const starts = [best, plain, ...even.slice(0, 4).map(({ runs }) => runs)];
  for (const start of new Set(starts)) {
    if (limit >= cost(best)) return best;
    consider(yield* improved(problem, start, bettering));
  }
  if (problem.steps.left <= 0 || problem.wanted.length > MOST_DESIGNS_IN_PROGRAM) return best;
  const random = seededRandom(request.seed);
  let pool: Layout[] = [best, plain, ...even.map(({ runs }) => runs)].flat().map(({ layout }) => layout);
  for (const setUp of new Set([0, problem.extraLayoutPrice])) {
    pool = yield* generated(problem, pool, setUp, random, problem.steps.left / 4);
    const dive = yield* dived(problem, pool, setUp);
    if (dive) consider(yield* improved(problem, dive, bettering));
  }
  consider(yield* improved(problem, best, { together: 3, patience: 100_000, budget: request.steps / 10 }));
  return best;
}

/** More pieces than this are too many to pack at once as well as can be. */
const MOST_PIECES_TOGETHER = 120;
const STEPS_TOGETHER = 16_000_000;

/** If every sheet costs the same whatever is on it and few pieces are wanted, the plan is one packing of them all. */
function allTogether(request: SheetRequest, problem: GangProblem): readonly SheetRun[] | null {
  const [size, ...others] = problem.sizes;
  const pieces = problem.wanted.reduce((sum, want) => sum + want, 0);
  if (!size || others.length > 0 || !size.prices.flat || problem.extraLayoutPrice > 0) return null;
  if (pieces > MOST_PIECES_TOGETHER) return null;
  const plan = evenly(problem, size, 1, STEPS_TOGETHER, request.seed);
  return plan && joined(problem, plan.runs);
}

/** The fractional program takes the square of the designs; beyond this many it is not worth it. */
const MOST_DESIGNS_IN_PROGRAM = 60;

/** The share of all steps that goes to packing the most hopeful even plan as well as can be. */
const STRONG_SHARE = 0.3;
