/** Promises and pulls over simulated days of the real `step`; the scenario is the file beside this one. */
import { readFileSync } from "node:fs";
import { type Backlog, drain } from "../simulation/drain.ts";
import { type FairDays, fairDay } from "../simulation/fair-day.ts";
import type { Lived } from "../simulation/floor.ts";
import { OPENS } from "../simulation/stall.ts";
import type { Bench, Figure } from "./figure.ts";

type Seeded = { readonly days: number; readonly seed: number };
type Scenario = FairDays &
  Seeded & {
    readonly mixed: Partial<FairDays> & { readonly days: number };
    readonly drain: Backlog & Seeded;
  };

const scenario = JSON.parse(
  readFileSync(new URL("./waits/scenario.json", import.meta.url), "utf8"),
) as Scenario; // the file beside this one is written to this shape
/** Kinds of fair day: the first eight are known faults of earlier quotes, the others were written by somebody who had read no code. */
type Regime = Omit<FairDays, "hours" | "breakdownMinutes"> & {
  readonly name: string;
  readonly told: boolean;
};
const regimes = JSON.parse(
  readFileSync(new URL("./waits/regimes.json", import.meta.url), "utf8"),
) as readonly Regime[]; // as above
const REGIME_DAYS = 60;
const HOUR = 3_600_000;

const waitOf = ({ placedAt, readyAt }: Lived): number => (readyAt - placedAt) / 1000;
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const exact = ({ quotedSeconds }: Lived): number => quotedSeconds;
const asQuoted = ({ dueBy, placedAt }: Lived): number => (dueBy - placedAt) / 1000;

/** The share of promises kept, and the sum of max(0, quote - wait) over the sum of the waits. */
function judged(orders: readonly Lived[], quote: (order: Lived) => number) {
  const kept = orders.filter((order) => waitOf(order) <= quote(order)).length / orders.length;
  const over = sum(orders.map((order) => Math.max(0, quote(order) - waitOf(order))));
  return { kept, over: over / sum(orders.map(waitOf)) };
}

const live = (days: FairDays & Seeded): readonly Lived[] =>
  Array.from({ length: days.days }, (_, day) => fairDay(days, days.seed + day)).flatMap(
    ({ orders }) => orders,
  );

const figure = (name: string, value: number, goal: Figure["goal"], unit: string): Figure => ({
  bench: "waits",
  name,
  figure: value,
  goal,
  unit,
});

function promises(): readonly Figure[] {
  const orders = live(scenario);
  const before = judged(orders, exact);
  const after = judged(orders, asQuoted);
  const mixed = judged(live({ ...scenario, ...scenario.mixed }), exact);
  return [
    figure("promises kept, before rounding", before.kept, { atLeast: 0.87 }, "share"),
    figure("the same, not by quoting long", before.kept, { atMost: 0.95 }, "share"),
    figure("over-quote, before rounding", before.over, { atMost: 0.35 }, "of waits"),
    figure("promises kept, as quoted", after.kept, { atLeast: 0.87 }, "share"),
    figure("the same, not by quoting long", after.kept, { atMost: 0.95 }, "share"),
    figure("over-quote, as quoted", after.over, null, "of waits"),
    figure("promises kept where two temperatures are mixed", mixed.kept, null, "share"),
    figure("over-quote where two temperatures are mixed", mixed.over, null, "of waits"),
  ];
}

/** The promises kept on the same day if the crew had reported every change at once. */
const asTold = (regime: Regime): Regime => ({
  ...regime,
  changes: (regime.changes ?? []).map((change) => ({ ...change, told: true })),
  ...(regime.breakdowns === undefined
    ? {}
    : { breakdowns: regime.breakdowns.map((breakdown) => ({ ...breakdown, told: true })) }),
});

/** Each regime by the share kept, the worst first. */
function inEveryRegime(): readonly Figure[] {
  const days = (regime: Regime) =>
    judged(
      live({ ...regime, hours: 8, breakdownMinutes: 10, days: REGIME_DAYS, seed: scenario.seed }),
      exact,
    );
  const judgedRegimes = regimes
    .map((regime) => ({ regime, ...days(regime) }))
    .sort((one, other) => one.kept - other.kept);
  const over = sum(judgedRegimes.map((each) => each.over)) / judgedRegimes.length;
  return [
    ...judgedRegimes.flatMap(({ regime, kept, over: long }) => [
      figure(`kept: ${regime.name}`, kept, { atLeast: regime.told ? 0.87 : 0.8 }, "share"),
      ...(regime.told ? [figure("the same, not by quoting long", kept, { atMost: 0.95 }, "share")] : []),
      ...(regime.told
        ? []
        : [figure("the same, had it been told", days(asTold(regime)).kept, null, "share")]),
      figure(`over-quote: ${regime.name}`, long, null, "of waits"),
    ]),
    figure("over-quote, on average over the regimes", over, { atMost: 0.35 }, "of waits"),
  ];
}

/** Garments an hour and the 90th-percentile wait of a backlog, over seeded days that both rules share. */
function drained(presses: number, rules: Readonly<Record<string, unknown>>) {
  const days = Array.from({ length: scenario.drain.days }, (_, day) =>
    drain(scenario.drain, scenario, scenario.drain.seed + day, presses, rules),
  );
  const garments = sum(days.flatMap(({ orders }) => orders.map((order) => order.garments)));
  const hours = sum(days.map(({ endsAt }) => (endsAt - OPENS) / HOUR));
  const waits = days.flatMap(({ orders }) => orders.map(waitOf)).sort((one, other) => one - other);
  return { perHour: garments / hours, ninetieth: waits[Math.ceil(waits.length * 0.9) - 1] ?? Number.NaN };
}

function pulls(): readonly Figure[] {
  return scenario.drain.presses.flatMap((presses) => {
    const own = drained(presses, {});
    const inOrder = drained(presses, { overtakenMost: 0 });
    const where = `${presses} ${presses === 1 ? "press" : "presses"}, two temperatures`;
    return [
      figure(`garments an hour by the pull rule, ${where}`, own.perHour, null, "garments/h"),
      figure(
        "the same, to first come first served",
        own.perHour / inOrder.perHour,
        { atLeast: 1.1 },
        "ratio",
      ),
      figure("90th-percentile wait, to the same", own.ninetieth / inOrder.ninetieth, { atMost: 1 }, "ratio"),
    ];
  });
}

export const bench: Bench = {
  name: "waits",
  run: () => Promise.resolve([...promises(), ...inEveryRegime(), ...pulls()]),
};
