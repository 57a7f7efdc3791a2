/** Promises and pulls over simulated fair days; the scenario is the file beside this one. */
import { readFileSync } from "node:fs";
import { type FairDay, fairDay } from "../simulation/fair-day.ts";
import type { Lived } from "../simulation/floor.ts";
import type { Bench, Figure } from "./figure.ts";

const scenario = JSON.parse(readFileSync(new URL("./waits/scenario.json", import.meta.url), "utf8"));

const waitOf = ({ placedAt, readyAt }: Lived): number => (readyAt - placedAt) / 1000;
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

function kept(orders: readonly Lived[], quote: (order: Lived) => number) {
  const waits = sum(orders.map(waitOf));
  return {
    kept: sum(orders.map((order) => (waitOf(order) <= quote(order) ? 1 : 0))) / orders.length,
    over: sum(orders.map((order) => Math.max(0, quote(order) - waitOf(order)))) / waits,
  };
}
const exact = ({ quotedSeconds }: Lived): number => quotedSeconds;
const rounded = ({ dueBy, placedAt }: Lived): number => (dueBy - placedAt) / 1000;

async function measure(): Promise<readonly Figure[]> {
  const days: FairDay[] = Array.from({ length: scenario.days }, (_, n) =>
    fairDay(scenario, scenario.seed + n),
  );
  const orders = days.flatMap((day) => day.orders);
  const before = kept(orders, exact);
  const after = kept(orders, rounded);
  if (process.env["DETAIL"]) {
    const show = (name: string, some: readonly Lived[]) => {
      const e = kept(some, exact),
        r = kept(some, rounded);
      console.log(
        name.padEnd(24),
        String(some.length).padStart(7),
        (sum(some.map(waitOf)) / some.length / 60).toFixed(1),
        e.kept.toFixed(3),
        e.over.toFixed(3),
        r.kept.toFixed(3),
        r.over.toFixed(3),
      );
    };
    for (const p of [1, 2, 3])
      show(
        `presses ${p}`,
        days.filter((d) => d.presses === p).flatMap((d) => d.orders),
      );
    for (const g of [1, 2, 3, 4])
      for (const p of [1, 2, 3])
        show(
          `garments ${g} presses ${p}`,
          days
            .filter((d) => d.presses === p)
            .flatMap((d) => d.orders)
            .filter((o) => o.garments === g),
        );
    for (const [lo, hi] of [
      [0, 3],
      [3, 6],
      [6, 12],
      [12, 25],
      [25, 60],
      [60, 999],
    ] as const)
      show(
        `quote ${lo}-${hi} min`,
        orders.filter((o) => o.quotedSeconds >= lo * 60 && o.quotedSeconds < hi * 60),
      );
    for (let h = 0; h < 8; h++)
      show(
        `hour ${h}`,
        orders.filter((o) => Math.floor((o.placedAt - Date.parse("2027-06-12T14:00:00Z")) / 3600000) === h),
      );
    console.log("turned away", sum(days.map((d) => d.turnedAway)));
  }
  const bench = "waits";
  return [
    {
      bench,
      name: "promises kept, before rounding",
      figure: before.kept,
      goal: { atLeast: 0.87 },
      unit: "share",
    },
    {
      bench,
      name: "over-quote, before rounding",
      figure: before.over,
      goal: { atMost: 0.35 },
      unit: "of all waits",
    },
    { bench, name: "promises kept, as quoted", figure: after.kept, goal: { atMost: 0.95 }, unit: "share" },
    { bench, name: "over-quote, as quoted", figure: after.over, goal: null, unit: "of all waits" },
  ];
}

export const bench: Bench = { name: "waits", run: measure };
