import { deviation, mean, sampleQuantiles } from "../../maths/sample.ts";
import { inCelsius } from "../../maths/units.ts";
import type { OrFaults } from "../../model/basics/faults.ts";
import { ok, refused } from "../../model/basics/result.ts";
import { CLIMBS_FAHRENHEIT_PER_MINUTE, COOLS_FAHRENHEIT_PER_MINUTE } from "../../model/menu/platen-pace.ts";
import type { Combination, OneMore, PressesPlan, PressesRequest } from "../../model/planning/presses.ts";
import { drawDay, handlingIndex, PLATENS, stepsOf } from "./press-day.ts";
import { earningsOf, type GarmentPrices, pricesOf } from "./press-earnings.ts";
import {
  handsUse,
  hourFigures,
  lateness,
  type PressRun,
  type PressSums,
  platenFigures,
} from "./press-figures.ts";
import { type Busiest, busiestHour, capacityPerHour, firstAnswer } from "./press-formula.ts";
import { type PressCrew, pressDay } from "./press-line.ts";
import { pressesFaults } from "./presses-faults.ts";
import { pinchIn, pressesInWords } from "./presses-told.ts";

const CELSIUS_PER_FAHRENHEIT = 5 / 9;
const HEATING_CELSIUS_PER_MINUTE = CLIMBS_FAHRENHEIT_PER_MINUTE * CELSIUS_PER_FAHRENHEIT;
const COOLING_CELSIUS_PER_MINUTE = COOLS_FAHRENHEIT_PER_MINUTE * CELSIUS_PER_FAHRENHEIT;
const HAND_VARIATION = 0.25;
/** How long an earlier job may be passed over to keep the heat. Common practice, no source. */
const HOLD_BACK_SECONDS = 600;

/** Garments simulated over all combinations: the budget that decides how many scenarios are used. */
const GARMENTS = 300_000;
const FEWEST_SCENARIOS = 10;

export type PressesOutcome = OrFaults<PressesPlan>;

/**
 * The number of presses and people to bring. Simulates the same days with every number of presses of each platen kind
 * and of people. Gives for each the pace, the waits, who walks, how late the last garment is and the day's profit; also
 * the worth of one more press or person, and the busiest hour. The days are the given scenarios, as many as the step
 * budget allows; chance is seeded and the same for every combination. Returns every fault of a bad request at once.
 */
export function planPresses(request: PressesRequest): PressesOutcome {
  const faults = pressesFaults(request);
  if (faults.length > 0) return refused(faults);
  const table = request.handling.map((row) => stepsOf(row, inCelsius(row.temperature)));
  const choices = combinationsOf(request);
  const used = affordable(request, choices.length);
  const chances = {
    handVariation: request.handVariation ?? HAND_VARIATION,
    spoilage: request.spoilage ?? 0,
    patience: request.patience ?? null,
  };
  const days = request.scenarios
    .slice(0, used)
    .map((asks, index) => drawDay(asks, request.handling, chances, (request.seed ?? 1) + index * 7919));
  const sums: PressSums = { days, table, closesAt: request.closesAtSeconds };
  const opensItself = request.opensItself ?? false;
  const kinds = PLATENS.map((_, platen) =>
    busiestHour(request.scenarios, platen, table, (ask) => handlingIndex(ask, request.handling), opensItself),
  );
  const prices = pricesOf(request);

  const tried = choices.map((choice): Tried => {
    const crew: PressCrew = {
      ...choice,
      opensItself,
      heatingCelsiusPerSecond: (request.heatingCelsiusPerMinute ?? HEATING_CELSIUS_PER_MINUTE) / 60,
      coolingCelsiusPerSecond: (request.coolingCelsiusPerMinute ?? COOLING_CELSIUS_PER_MINUTE) / 60,
      holdBackSeconds: request.holdBackSeconds ?? HOLD_BACK_SECONDS,
    };
    const run: PressRun = { ...choice, lived: days.map((day) => pressDay(day, table, crew)) };
    return triedOf(run, sums, kinds, prices, chances.handVariation);
  });
  const best = indexOfMost(tried.map(({ combination }) => combination.earns));
  const looked = lookedAt(request, choices) ?? best;
  const chosen = tried[looked];
  if (chosen === undefined) throw new Error("planPresses: no combination");
  const hours = chosen.combination.platens.flatMap((row) =>
    hourFigures(chosen.run, sums, PLATENS.indexOf(row.platen), row.capacityPerHour),
  );
  const pinch = pinchIn(hours, request.closesAtSeconds);
  const oneMore = worthOfOneMore(tried, chosen);
  return ok({
    scenariosGiven: request.scenarios.length,
    scenariosUsed: used,
    combinations: tried.map(({ combination }) => combination),
    best,
    looked,
    oneMore,
    hours,
    pinch,
    says: pressesInWords(chosen.combination, oneMore, pinch, prices.currency),
  });
}

type Choice = { readonly presses: readonly number[]; readonly people: number };
type Tried = {
  readonly run: PressRun;
  readonly combination: Combination;
  readonly earnings: readonly number[];
};

/** Every number of presses of each kind with every number of people. */
function combinationsOf({ presses, people }: PressesRequest): Choice[] {
  let sets: number[][] = [[]];
  for (const { platen, most } of presses)
    sets = sets.flatMap((set) =>
      Array.from({ length: most }, (_, more) => [
        ...set,
        ...new Array<number>(more + 1).fill(PLATENS.indexOf(platen)),
      ]),
    );
  return sets.flatMap((set) =>
    Array.from({ length: people.most }, (_, more) => ({ presses: set, people: more + 1 })),
  );
}

function affordable({ scenarios }: PressesRequest, combinations: number): number {
  let garments = 0;
  let used = 0;
  for (const asks of scenarios) {
    garments += asks.reduce((sum, ask) => sum + ask.garments, 0);
    if (used >= FEWEST_SCENARIOS && garments * combinations > GARMENTS) break;
    used++;
  }
  return used;
}

function triedOf(
  run: PressRun,
  sums: PressSums,
  kinds: readonly Busiest[],
  prices: GarmentPrices,
  handVariation: number,
): Tried {
  const work = kinds.map((kind) => kind.garmentsPerSecond * kind.handSeconds);
  const allWork = work.reduce((sum, each) => sum + each, 0);
  const platens = [...new Set(run.presses)].map((platen) => {
    const kind = kinds[platen];
    const figures = platenFigures(run, sums, platen);
    if (kind === undefined) throw new Error("planPresses: an unknown platen kind");
    const handsShare = allWork === 0 ? 1 : Math.max(0.01, (work[platen] ?? 0) / allWork);
    const capacity = capacityPerHour(kind, figures.presses, run.people, handsShare);
    const dwellShare = kind.pressSeconds === 0 ? 0 : dwellOf(sums, platen) / kind.pressSeconds;
    return {
      ...figures,
      capacityPerHour: capacity,
      firstAnswer: firstAnswer(kind, figures.presses, capacity, handVariation, Math.min(1, dwellShare)),
    };
  });
  const earnings = earningsOf(run, sums, prices);
  const [low = 0, high = 0] = sampleQuantiles(earnings, [0.05, 0.95]);
  return {
    run,
    earnings,
    combination: {
      presses: platens.map(({ platen, presses }) => ({ platen, presses })),
      people: run.people,
      platens,
      handsUse: handsUse(run, sums.closesAt),
      ...lateness(run, sums.closesAt),
      earns: Math.round(mean(earnings)),
      earnsLow: Math.round(low),
      earnsHigh: Math.round(high),
    },
  };
}

const dwellOf = ({ table }: PressSums, platen: number): number =>
  mean(
    table
      .filter((steps) => steps.platen === platen)
      .map(({ dwells }) => dwells.reduce((sum, dwell) => sum + dwell, 0)),
  );

const indexOfMost = (values: readonly number[]): number => values.indexOf(Math.max(...values));

/** The combination planned so far; null if the request names none. */
function lookedAt({ presses, people }: PressesRequest, choices: readonly Choice[]): number | null {
  if (people.now === undefined || presses.some(({ now }) => now === undefined)) return null;
  const index = choices.findIndex(
    (choice) =>
      choice.people === people.now &&
      presses.every(
        ({ platen, now }) => choice.presses.filter((each) => PLATENS[each] === platen).length === now,
      ),
  );
  return index < 0 ? null : index;
}

/**
 * The worth of one more of each, compared day by day with the same days without it; those beyond the limit are not
 * tried.
 */
function worthOfOneMore(tried: readonly Tried[], chosen: Tried): OneMore[] {
  const key = (presses: readonly number[], people: number): string =>
    `${[...presses].sort().join()} ${people}`;
  const byKey = new Map(tried.map((each) => [key(each.run.presses, each.run.people), each]));
  const { presses, people } = chosen.run;
  const wanted = [
    ...[...new Set(presses)].map((platen) => ({
      more: PLATENS[platen] === "cap" ? ("cap press" as const) : ("flat press" as const),
      at: key([...presses, platen], people),
    })),
    { more: "person" as const, at: key(presses, people + 1) },
  ];
  return wanted.flatMap(({ more, at }): OneMore[] => {
    const other = byKey.get(at);
    if (other === undefined) return [];
    const gains = other.earnings.map((earned, day) => earned - (chosen.earnings[day] ?? 0));
    return [
      { more, earns: Math.round(mean(gains)), standardError: deviation(gains) / Math.sqrt(gains.length) },
    ];
  });
}
