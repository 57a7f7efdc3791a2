import { deviation, mean } from "../maths/sample.ts";
import type { MendableFault, OrFaults } from "../model/basics/faults.ts";
import { ok, refused } from "../model/basics/result.ts";
import type { Plan } from "../model/planning/plan-answer.ts";
import type { PlanRequest } from "../model/planning/plan-request.ts";
import { mannerRow, type Tried, tryManners } from "./bring/ahead.ts";
import { bringLines } from "./bring/bring-lines.ts";
import { boughtBySheet, finishedBySheet, pricedBySheet } from "./bring/by-sheet.ts";
import { cartonList } from "./bring/carton-list.ts";
import { demandTold } from "./bring/demand-told.ts";
import { smallerMenu } from "./bring/smaller-menu.ts";
import { drawingScenarios } from "./demand/demand.ts";
import { standingAlone, statedLine } from "./demand/stated.ts";
import { canItPay, soldByProduct } from "./money/money.ts";
import { questionSheet } from "./money/questions.ts";
import { partFaults, planParts } from "./plan-parts.ts";
import { prepare } from "./request/prepare.ts";
import { sheetsToBuy } from "./request/prepare-stock.ts";
import type { Prepared } from "./request/prepared.ts";
import { taughtBy } from "./taught.ts";
import { honestly, inThreeSentences } from "./words/summary.ts";

export type PlanOutcome = OrFaults<Plan>;

/** The progress of a plan; `steps` counts simulated requests, so that it means the same on any machine. */
export type PlanProgress = { readonly stage: PlanStage; readonly steps: number };
type PlanStage = "demand" | "what to bring" | "smaller menu" | "money" | "other parts";

/**
 * Plans a day at a fair: what to bring, whether to press on site or print ahead, and whether it makes money. Pure: the
 * same request gives the same plan. Returns every fault of a request that contradicts itself, with its pointer and how
 * to fix it.
 */
export function planFair(request: PlanRequest, onProgress?: (progress: PlanProgress) => void): PlanOutcome {
  const work = planInSteps(request);
  for (let step = work.next(); ; step = work.next()) {
    if (step.done === true) return step.value;
    onProgress?.(step.value);
  }
}

/** Like `plan`, in steps of some milliseconds, for a caller that does other work between them. */
export function* planInSteps(request: PlanRequest): Generator<PlanProgress, PlanOutcome, void> {
  const preparation = prepare(request);
  if (!preparation.ok) return preparation;
  let prepared = preparation.value;
  const amiss = partFaults(request);
  if (amiss.length > 0) return refused(amiss);
  const sheets = sheetsToBuy(request);
  const alone = standingAlone(prepared);
  const apart = new Set(alone.map(({ offer }) => offer));
  const told = tally();
  yield { stage: "demand", steps: 0 };
  const scenarios = yield* told("demand", drawingScenarios(prepared, request.scenarios, apart));
  if (sheets !== undefined) {
    const priced = yield* told("what to bring", pricedBySheet({ prepared, scenarios, alone }, sheets));
    if (!priced.ok) return priced;
    prepared = priced.value;
  }
  const tried: Tried[] = [];
  for (const one of yield* told("what to bring", tryManners(prepared, scenarios, alone))) {
    if (sheets === undefined) tried.push(one);
    else {
      const bought = yield* told("what to bring", boughtBySheet({ prepared, scenarios, alone }, sheets, one));
      if (!bought.ok) return bought;
      tried.push(bought.value);
    }
  }
  const chosen =
    request.way === undefined ? bestOf(tried) : tried.find(({ manner }) => manner === request.way);
  if (chosen === undefined) return refused([noSuchWay(request, prepared)]);
  let best = chosen;
  if (sheets !== undefined) {
    const bought = yield* told(
      "what to bring",
      finishedBySheet({ prepared, scenarios, alone }, sheets, chosen),
    );
    if (!bought.ok) return bought;
    best = bought.value;
    tried[tried.indexOf(chosen)] = best;
  }
  const most = bestOf(tried);
  const manner = best.strategy;
  const menu = yield* told("smaller menu", smallerMenu(prepared, scenarios, alone, manner, best.brought));
  const money = yield* told("money", canItPay(prepared, scenarios, alone, manner, best));
  const bring = bringLines(alone, best, scenarios);
  const demand = demandTold(prepared, scenarios, apart, best.measured);
  const manners = tried.map((one) => mannerRow(alone, one));
  const parts = yield* told(
    "other parts",
    planParts(request, { bring, demand, manners, best: best.manner, sheets: best.sheets }),
  );
  if (!parts.ok) return parts;

  const plan: Plan = {
    name: request.name ?? "A day at the fair",
    day: request.day ?? null,
    currency: prepared.currency,
    seed: request.seed,
    scenarios: scenarios.count,
    demand,
    bring,
    stated: alone.map((one, at) =>
      statedLine(prepared, one, best.brought.aloneQuantities[at] ?? 0, best.brought.aloneDearer),
    ),
    manners,
    best: best.manner,
    earnsMost: most.manner,
    summary: inThreeSentences({ bring, money, scenarios: scenarios.count, currency: prepared.currency }),
    advice: adviceOn(prepared, tried, best, most),
    smallerMenu: menu,
    money,
    sold: soldOf(prepared, soldByProduct(prepared, alone, best)),
    cartons: cartonList(prepared, bring),
    questions: questionSheet({ money, scenarios: scenarios.count, currency: prepared.currency }),
    cautions: cautions(bring.pieces),
    taught: taughtBy(request),
    parts: parts.value,
  };
  return ok(plan);
}

/** Sales by name; what sells on one day in a hundred at most is left out. */
function soldOf({ products, offers, blanks }: Prepared, sold: readonly number[]): Plan["sold"] {
  return products.flatMap(({ offer, colour, size }, at) => {
    const garments = Math.round(100 * (sold[at] ?? 0)) / 100;
    const one = offers[offer];
    const blank = blanks[one?.blank ?? -1];
    if (one === undefined || blank === undefined || garments === 0) return [];
    return [
      {
        offer: one.id,
        colour: blank.colours.names[colour] ?? "",
        size: blank.sizes.names[size] ?? "",
        garments,
      },
    ];
  });
}

function noSuchWay({ way = "mixed" }: PlanRequest, { presses }: Prepared): MendableFault {
  return {
    pointer: "#/way",
    detail:
      way === "mixed" && presses.length === 0
        ? "no press is listed, so nothing is gained by printing some ahead"
        : "nothing on the menu has a transfer that could be pressed beforehand",
    mend: "choose pressing on site, or leave the way out",
  };
}

/** A less simple way must earn more by this part of what sales leave before it is worth its trouble. */
const WORTH_THE_TROUBLE = 0.01;

/** The most profitable way; of equals the simplest, which comes first. */
function bestOf(tried: readonly Tried[]): Tried {
  return tried.reduce((most, one) => {
    const gain = mean(one.profits) - mean(most.profits);
    return gain > WORTH_THE_TROUBLE * mean(most.measured.gain) ? one : most;
  });
}

/** Adds up the steps of one piece of work after another and names the stage they belong to. */
function tally() {
  let steps = 0;
  return function* <Result>(
    stage: PlanStage,
    work: Generator<number, Result, void>,
  ): Generator<PlanProgress, Result, void> {
    for (let step = work.next(); ; step = work.next()) {
      if (step.done === true) return step.value;
      steps += step.value;
      yield { stage, steps };
    }
  };
}

function adviceOn(prepared: Prepared, tried: readonly Tried[], best: Tried, most: Tried): string {
  const told = (one: Tried) => {
    const error = deviation(one.profits) / Math.sqrt(Math.max(1, one.profits.length));
    return honestly(mean(one.profits), error, prepared.currency);
  };
  const others = tried.filter((one) => one !== best).map((one) => `${WORDS[one.manner]} ${told(one)}`);
  const beside = others.length === 0 ? "" : `; ${others.join(", ")}`;
  const after = mean(best.profits) < 0 ? " Even so the day is expected to lose money." : "";
  const start = best === most ? SENTENCES[best.manner] : `You chose ${WORDS[best.manner]}`;
  return `${start}: ${told(best)} expected${beside}.${after}`;
}

const WORDS: Readonly<Record<Tried["manner"], string>> = {
  "press-on-site": "pressing everything on site",
  "print-ahead": "printing everything ahead",
  mixed: "a mixed plan",
};
const SENTENCES: Readonly<Record<Tried["manner"], string>> = {
  "press-on-site": "Press on site",
  "print-ahead": "Print everything ahead",
  mixed: "Print the sure sellers ahead and press the rest",
};

/** Cautions with every plan: what it does not know, and where lifting and heat can hurt. */
function cautions(pieces: number): string[] {
  return [
    "These are estimates from the figures given; the crowd decides. Look at the low end before spending money you cannot lose.",
    "A platen at working heat burns on touch: keep the public and children out of reach, and never leave a press closed or unattended.",
    "Power, tents, fire cover and the load in a vehicle are for the local code, the organiser and licensed people.",
    ...(pieces > 300
      ? ["A full carton is heavy: lift in pairs, stack low, and keep the vehicle within its rated load."]
      : []),
  ];
}

/** The opening stock if the plan is accepted: counts by sku and by design. */
export function openingStock(plan: Plan): {
  skus: { sku: string; counted: number }[];
  transfers: { design: string; counted: number }[];
} {
  return {
    skus: plan.bring.skus.map(({ sku, bring }) => ({ sku, counted: bring })),
    transfers: plan.bring.transfers.map(({ design, bring }) => ({ design, counted: bring })),
  };
}
