import {
  negativeBinomialChance,
  negativeBinomialQuantile,
  poissonChance,
  poissonQuantile,
} from "../../maths/counts.ts";
import { normalBelow, normalLoss, normalQuantile } from "../../maths/normal.ts";
import type { StatedDemand } from "../../model/planning/plan-given.ts";

/** The planner's view of a distribution of demand, in garments. */
export type Demand = {
  readonly mean: number;
  /** Whether only listed values can occur; then the best quantities are listed values. */
  readonly discrete: boolean;
  /** Least demand whose cumulative probability reaches the share (0 < share < 1). */
  readonly quantile: (share: number) => number;
  /** Probability of at most this much. */
  readonly atMost: (garments: number) => number;
  /** Expected demand that a stock of this much leaves unmet. */
  readonly unmet: (stock: number) => number;
};

/**
 * The distribution a request states. Unmet demand is the loss function of the textbooks: for the normal
 * deviation x (density(z) - z (1 - below(z))), for counts the sum of what lies above.
 * A normal demand is taken as the books take it, with its tail below zero.
 */
export function demandOf(stated: StatedDemand, shareOf: (given: string | number) => number): Demand {
  switch (stated.kind) {
    case "normal":
      return {
        mean: stated.mean,
        discrete: false,
        quantile: (share) => stated.mean + stated.deviation * normalQuantile(share),
        atMost: (garments) => normalBelow((garments - stated.mean) / stated.deviation),
        unmet: (stock) => stated.deviation * normalLoss((stock - stated.mean) / stated.deviation),
      };
    case "uniform": {
      const width = stated.high - stated.low;
      const inside = (garments: number) => Math.min(stated.high, Math.max(stated.low, garments));
      return {
        mean: (stated.low + stated.high) / 2,
        discrete: false,
        quantile: (share) => stated.low + share * width,
        atMost: (garments) => (inside(garments) - stated.low) / width,
        unmet: (stock) => (stated.high - inside(stock)) ** 2 / (2 * width) + Math.max(0, stated.low - stock),
      };
    }
    case "poisson":
      return counted(
        stated.mean,
        (share) => poissonQuantile(share, stated.mean),
        (count) => poissonChance(count, stated.mean),
      );
    case "negative-binomial": {
      const chance = stated.mean / stated.deviation ** 2;
      const successes = (stated.mean * chance) / (1 - chance);
      return counted(
        stated.mean,
        (share) => negativeBinomialQuantile(share, successes, chance),
        (count) => negativeBinomialChance(count, successes, chance),
      );
    }
    case "table":
      return listed(stated.rows.map((row) => ({ garments: row.garments, chance: shareOf(row.chance) })));
    case "observed": {
      const days = [...stated.days].sort((a, b) => a - b);
      return listed(days.map((garments) => ({ garments, chance: 1 / days.length })));
    }
    default:
      return stated satisfies never;
  }
}

function counted(mean: number, quantile: Demand["quantile"], chance: (count: number) => number): Demand {
  return {
    mean,
    discrete: true,
    quantile,
    atMost: (garments) => {
      let sum = 0;
      for (let count = 0; count <= garments; count++) sum += chance(count);
      return Math.min(1, sum);
    },
    unmet: (stock) => {
      // mean - stock + expected leftover, so that only the counts below the stock are summed.
      let leftOver = 0;
      for (let count = 0; count < stock; count++) leftOver += (stock - count) * chance(count);
      return mean - stock + leftOver;
    },
  };
}

type Row = { readonly garments: number; readonly chance: number };

function listed(rows: readonly Row[]): Demand {
  const whole = rows.reduce((sum, row) => sum + row.chance, 0);
  const expected = (value: (garments: number) => number) =>
    rows.reduce((sum, row) => sum + (row.chance / whole) * value(row.garments), 0);
  return {
    mean: expected((garments) => garments),
    discrete: true,
    quantile: (share) => {
      let sum = 0;
      for (const row of rows) {
        sum += row.chance / whole;
        if (sum >= share - 1e-12) return row.garments;
      }
      return rows.at(-1)?.garments ?? 0;
    },
    atMost: (garments) => expected((value) => (value <= garments ? 1 : 0)),
    unmet: (stock) => expected((value) => Math.max(0, value - stock)),
  };
}
