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
import { proveByBranching } from "./search/branching.ts";
import { cheapestRuns } from "./search/cheapest.ts";
import { oneDesignASheet } from "./search/compare.ts";
import { divedStarts } from "./search/dives.ts";
import { floorsOf } from "./search/floors.ts";
import { type Layouts, layoutsOf } from "./search/layouts.ts";
import { packedAt } from "./search/pool.ts";
import { costOf, type Problem, pause, problemOf, type Run } from "./search/problem.ts";
import { proveCheapest } from "./search/proof.ts";
import { searchOf } from "./search/search.ts";
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
  const layouts = yield* layoutsOf(problem);
  return request.question.ask === "affordable"
    ? yield* planAffordable(request, problem, layouts)
    : yield* planCheapest(request, problem, layouts);
}

function* planCheapest(request: SheetRequest, problem: Problem, layouts: Layouts): Work<SheetPlan> {
  const plain = oneDesignASheet(problem, layouts);
  const floors = floorsOf(problem, layouts);
  const search = searchOf(problem, layouts, floors.duals);
  const random = seededRandom(request.seed);
  const even = yield* evenStarts(problem, layouts);
  const starts: (readonly Run[])[] = [plain, ...even, ...(yield* divedStarts(search, random))];
  let runs = yield* cheapestRuns(search, starts, random);
  let limit = Math.ceil(floors.whole - 1e-6);
  if (layouts.complete) {
    ({ runs, limit } = yield* proveCheapest(search, runs, floors));
    if (limit < costOf(problem, runs))
      ({ runs, limit } = yield* proveByBranching(problem, layouts.list, runs, limit));
  } else if (layouts.hopeful) {
    // Layouts that may not fit can only make the bound lower than it need be; plans with them are not taken.
    const hopeful = layouts.hopeful.map((handful) => ({ ...handful, placed: [] }));
    limit = Math.max(limit, (yield* proveByBranching(problem, hopeful, runs, floors.whole)).limit);
  }
  runs = [...runs].sort((a, b) => b.copies - a.copies);

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
    notes: notesFor(layouts),
  };
}

function* planAffordable(request: SheetRequest, problem: Problem, layouts: Layouts): Work<SheetPlan> {
  const { question } = request;
  if (question.ask !== "affordable") throw new Error("planAffordable: another question was asked");
  const valued = request.designs.some((design) => design.valueOfOneMore !== undefined);
  const values = request.designs.map((design) => (valued ? (design.valueOfOneMore ?? 0) : 1));
  const means = { sheets: question.sheets ?? 20_000, money: question.money ?? Number.POSITIVE_INFINITY };
  const mix = yield* bestMix(problem, layouts, values, means, seededRandom(request.seed));
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
      ...notesFor(layouts),
    ],
  };
}

/** Plans in which every layout has the same number of copies; the only kind tried where layouts are too many. */
function* evenStarts(problem: Problem, layouts: Layouts): Work<Run[][]> {
  if (layouts.hopeful) return [];
  const most = Math.max(...problem.wanted);
  const starts: Run[][] = [];
  for (const size of problem.sizes) {
    for (let copies = most; copies >= 1; copies = Math.min(copies - 1, Math.floor(copies / 1.25))) {
      yield* pause(problem);
      const order = size.prices.exactly(copies);
      if (!order) continue;
      const runs = packedAt(problem, size, copies).map((layout) => ({ layout, copies }));
      const missing = problem.wanted.some(
        (want, at) => runs.reduce((sum, run) => sum + copies * (run.layout.counts[at] ?? 0), 0) < want,
      );
      if (!missing) starts.push(runs);
    }
  }
  starts.sort((a, b) => costOf(problem, a) - costOf(problem, b));
  return starts.slice(0, 4);
}

function notesFor(layouts: Layouts): string[] {
  if (layouts.complete) return [];
  if (layouts.hopeful)
    return ["Of some layouts it stayed open whether they fit, so the plan cannot be proven best."];
  return [
    "So many pieces fit a sheet that not every layout was looked at: the plan is good, not proven best.",
  ];
}
