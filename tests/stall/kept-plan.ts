/** A kept plan of an invented fair: ten garments sold, nothing owned. */
import type { z } from "zod";
import { KeptPlan } from "../../src/model/planning/kept-plan.ts";

export const keptPlan = (given: Partial<z.input<typeof KeptPlan>> = {}): KeptPlan =>
  KeptPlan.parse({
    name: "Low Meadow",
    day: null,
    costs: {},
    profit: { likely: 20_000, low: 5000, high: 40_000 },
    garments: { likely: 10, low: 5, high: 15 },
    waitMinutes: { median: 4, p90: 9 },
    spoiled: 0.2,
    left: { blanks: 3, transfers: 0 },
    owned: {},
    hours: [],
    sold: [],
    ...given,
  });

/** Hours of a day from 10:00 on, with the same sales in each: as likely, and the low and the high of nine days in ten. */
export const evenHours = (
  count: number,
  [likely, low, high]: readonly [number, number, number],
  day?: number,
) =>
  Array.from({ length: count }, (_, before) => ({
    ...(day === undefined ? {} : { day }),
    from: `${10 + before}:00`,
    minutes: 60,
    soldBy: { likely: likely * (before + 1), low: low * (before + 1), high: high * (before + 1) },
  }));
