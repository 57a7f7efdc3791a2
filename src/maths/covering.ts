/**
 * The fractional covering problem: columns a_j at cost c_j, bought in any amount, cover a need d at least cost.
 * Its dual prices bound every whole-number answer from below (Gilmore and Gomory 1961, Operations Research 9,
 * 849-859, for patterns of a cutting problem).
 */
export type Column = { readonly amounts: readonly number[]; readonly cost: number };

export type Covering = {
  /** A lower bound of every covering's cost: valid even if the iterations ran out, only weaker then. */
  readonly bound: number;
  /** A price for one unit of each need; no column is worth more than it costs at these prices. */
  readonly prices: readonly number[];
  /** The columns that the best fractional covering uses, and how much of each. */
  readonly bought: readonly { readonly column: Column; readonly amount: number }[];
};

/**
 * Revised simplex with an explicit basis inverse, started from one column for every need alone, which the
 * columns must contain. `need` entries are at least 0, amounts at least 0, costs above 0.
 */
export function coverFractionally(
  columns: readonly Column[],
  need: readonly number[],
  mostIterations = 2000,
): Covering {
  const rows = need.length;
  const basis = aloneColumns(columns, rows);
  const values = Float64Array.from(basis, ({ amounts }, row) => (need[row] ?? 0) / (amounts[row] ?? 1));
  const inverse = new Float64Array(rows * rows);
  basis.forEach(({ amounts }, row) => {
    inverse[row * rows + row] = 1 / (amounts[row] ?? 1);
  });
  const prices = new Float64Array(rows);
  const direction = new Float64Array(rows);

  for (let iteration = 0; iteration < mostIterations; iteration++) {
    prices.fill(0);
    for (let row = 0; row < rows; row++) {
      const cost = basis[row]?.cost ?? 0;
      for (let at = 0; at < rows; at++)
        prices[at] = (prices[at] ?? 0) + cost * (inverse[row * rows + at] ?? 0);
    }
    const entering = mostWanted(columns, prices);
    if (entering === null) break;
    for (let row = 0; row < rows; row++) {
      let sum = 0;
      for (let at = 0; at < rows; at++) sum += (inverse[row * rows + at] ?? 0) * (entering.amounts[at] ?? 0);
      direction[row] = sum;
    }
    let leaving = -1;
    let ratio = Number.POSITIVE_INFINITY;
    for (let row = 0; row < rows; row++) {
      const step = direction[row] ?? 0;
      if (step > 1e-10 && (values[row] ?? 0) / step < ratio) {
        ratio = (values[row] ?? 0) / step;
        leaving = row;
      }
    }
    if (leaving < 0) break;
    pivot(inverse, values, direction, leaving, ratio);
    basis[leaving] = entering;
  }

  let steepest = 0;
  for (let row = 0; row < rows; row++) prices[row] = Math.max(0, prices[row] ?? 0);
  for (const { amounts, cost } of columns) steepest = Math.max(steepest, worth(amounts, prices) / cost);
  const scaled = Array.from(prices, (price) => (steepest > 1 ? price / steepest : price));
  const bought = basis.flatMap((column, row) => {
    const amount = values[row] ?? 0;
    return amount > 1e-9 && column.cost > 0 ? [{ column, amount }] : [];
  });
  return { bound: worth(need, scaled), prices: scaled, bought };
}

/** For every need a column that covers it and nothing else. */
function aloneColumns(columns: readonly Column[], rows: number): Column[] {
  const alone: Column[] = [];
  let found = 0;
  for (const column of columns) {
    let only = -1;
    for (let row = 0; row < rows; row++) {
      if ((column.amounts[row] ?? 0) === 0) continue;
      only = only === -1 ? row : -2;
      if (only === -2) break;
    }
    if (only < 0 || alone[only]) continue;
    alone[only] = column;
    found += 1;
    if (found === rows) return alone;
  }
  throw new Error("coverFractionally: every need must have a column that covers it alone");
}

/** The column whose worth most exceeds its cost, as a share of it, or a surplus with a negative price; else null. */
function mostWanted(columns: readonly Column[], prices: Float64Array): Column | null {
  let best: Column | null = null;
  let most = 1 + 1e-9;
  for (const column of columns) {
    const share = worth(column.amounts, prices) / column.cost;
    if (share > most) {
      most = share;
      best = column;
    }
  }
  if (best !== null) return best;
  for (let row = 0; row < prices.length; row++) {
    if ((prices[row] ?? 0) < -1e-9)
      return { cost: 0, amounts: Array.from(prices, (_, at) => (at === row ? -1 : 0)) };
  }
  return null;
}

function worth(amounts: readonly number[], prices: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < amounts.length; at++) sum += (amounts[at] ?? 0) * (prices[at] ?? 0);
  return sum;
}

function pivot(
  inverse: Float64Array,
  values: Float64Array,
  direction: Float64Array,
  leaving: number,
  ratio: number,
): void {
  const rows = values.length;
  const divisor = direction[leaving] ?? 1;
  for (let at = 0; at < rows; at++)
    inverse[leaving * rows + at] = (inverse[leaving * rows + at] ?? 0) / divisor;
  for (let row = 0; row < rows; row++) {
    const step = direction[row] ?? 0;
    if (row === leaving || step === 0) continue;
    for (let at = 0; at < rows; at++) {
      inverse[row * rows + at] = (inverse[row * rows + at] ?? 0) - step * (inverse[leaving * rows + at] ?? 0);
    }
    values[row] = (values[row] ?? 0) - step * ratio;
  }
  values[leaving] = ratio;
}
