/**
 * The fractional covering problem: columns a_j at cost c_j, bought in any amount, cover a need d at least cost.
 * Its dual prices bound every whole-number answer from below (Gilmore and Gomory 1961, Operations Research 9,
 * 849-859, for patterns of a cutting problem).
 */
export type Column = { readonly amounts: readonly number[]; readonly cost: number };

export type Covering = {
  /** No covering costs less than this: valid even where the iterations ran out, only weaker then. */
  readonly bound: number;
  /** A price for one unit of each need; no column is worth more than it costs at these prices. */
  readonly prices: readonly number[];
  /** How much of which columns the best fractional covering found buys. */
  readonly bought: readonly { readonly column: Column; readonly amount: number }[];
};

/**
 * Revised simplex with an explicit basis inverse, started from one column for every need alone, which the
 * columns must contain. `need` entries are at least 0.
 */
export function coverFractionally(
  columns: readonly Column[],
  need: readonly number[],
  mostIterations = 2000,
): Covering {
  const rows = need.length;
  const basis: Column[] = [];
  for (let row = 0; row < rows; row++) {
    const alone = columns.find(({ amounts }) =>
      amounts.every((many, at) => (at === row ? many > 0 : many === 0)),
    );
    if (!alone) throw new Error(`coverFractionally: no column covers need ${row} alone`);
    basis.push(alone);
  }
  const inverse = basis.map((column, row) =>
    need.map((_, at) => (at === row ? 1 / (column.amounts[row] ?? 1) : 0)),
  );
  const values = basis.map((column, row) => (need[row] ?? 0) / (column.amounts[row] ?? 1));
  const slack = need.map(
    (_, row): Column => ({ cost: 0, amounts: need.map((_, at) => (at === row ? -1 : 0)) }),
  );
  let prices = need.map(() => 0);

  for (let iteration = 0; iteration < mostIterations; iteration++) {
    prices = need.map((_, at) =>
      basis.reduce((sum, column, row) => sum + column.cost * (inverse[row]?.[at] ?? 0), 0),
    );
    let entering: Column | null = null;
    let worst = -1e-9;
    for (const list of [columns, slack]) {
      for (const column of list) {
        const reduced = column.cost - worth(column.amounts, prices);
        if (reduced < worst * Math.max(1, column.cost)) {
          worst = reduced / Math.max(1, column.cost);
          entering = column;
        }
      }
    }
    if (!entering) break;
    const amounts = entering.amounts;
    const direction = inverse.map((line) => worth(amounts, line));
    let leaving = -1;
    let ratio = Number.POSITIVE_INFINITY;
    direction.forEach((step, row) => {
      if (step > 1e-10 && (values[row] ?? 0) / step < ratio) {
        ratio = (values[row] ?? 0) / step;
        leaving = row;
      }
    });
    if (leaving < 0) break;
    pivot(inverse, values, direction, leaving, ratio);
    basis[leaving] = entering;
  }

  const positive = prices.map((price) => Math.max(0, price));
  const steepest = columns.reduce(
    (most, { amounts, cost }) => Math.max(most, worth(amounts, positive) / cost),
    0,
  );
  const scaled = positive.map((price) => (steepest > 0 ? price / steepest : 0));
  const bought = basis.flatMap((column, row) => {
    const amount = values[row] ?? 0;
    return amount > 1e-9 && !slack.includes(column) ? [{ column, amount }] : [];
  });
  return { bound: worth(need, scaled), prices: scaled, bought };
}

function worth(amounts: readonly number[], prices: readonly number[]): number {
  let sum = 0;
  for (let at = 0; at < amounts.length; at++) sum += (amounts[at] ?? 0) * (prices[at] ?? 0);
  return sum;
}

function pivot(
  inverse: number[][],
  values: number[],
  direction: readonly number[],
  leaving: number,
  ratio: number,
): void {
  const line = inverse[leaving] ?? [];
  const divisor = direction[leaving] ?? 1;
  for (let at = 0; at < line.length; at++) line[at] = (line[at] ?? 0) / divisor;
  inverse.forEach((other, row) => {
    const step = direction[row] ?? 0;
    if (row === leaving || step === 0) return;
    for (let at = 0; at < other.length; at++) other[at] = (other[at] ?? 0) - step * (line[at] ?? 0);
    values[row] = (values[row] ?? 0) - step * ratio;
  });
  values[leaving] = ratio;
}
