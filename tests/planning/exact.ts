import loadHighs from "highs";
import { stake } from "../../src/planning/bring/search/score.ts";
import { REACTIONS, type Shop } from "../../src/planning/bring/search/shop.ts";
import type { Scenarios } from "../../src/planning/demand/asks.ts";

/**
 * The plan as one linear program, solved by HiGHS, to hold the planner's search against: stock in the
 * first stage, and in every scenario the sales that earn most, chosen knowing all the day's asks.
 */
export type Exact = {
  /** The best expected profit before fixed costs, and the (fractional) stock that earns it. */
  readonly optimum: (limits: { readonly budget?: number }) => {
    readonly profit: number;
    readonly stock: Float64Array;
  };
  /** The expected profit of a given stock with the same hindsight. */
  readonly score: (stock: ArrayLike<number>) => number;
};

type Task = { readonly way: number; readonly need: number; asked: number };

export async function exactly(shop: Shop, scenarios: Scenarios): Promise<Exact> {
  const highs = await loadHighs();
  const days = Array.from({ length: scenarios.count }, (_, scenario) => tasksOf(shop, scenarios, scenario));
  const gain = ({ way, need }: Task) => (shop.net[way] ?? 0) - need * (shop.worthUsed[way] ?? 0);
  const solve = (program: string) => {
    const answer = highs.solve(program);
    if (answer.Status !== "Optimal") throw new Error(`HiGHS: ${answer.Status}`);
    return answer;
  };

  return {
    optimum: ({ budget }) => {
      const objective: string[] = [];
      const rows: string[] = [];
      const bounds: string[] = [];
      shop.goods.forEach((one, index) => {
        objective.push(`- ${(scenarios.count * (one.cost - one.worth)).toFixed(6)} x${index}`);
        bounds.push(`${one.minimum} <= x${index} <= ${Math.min(one.maximum, 1e6)}`);
      });
      if (budget !== undefined)
        rows.push(`${shop.goods.map((one, index) => `+ ${one.cost} x${index}`).join(" ")} <= ${budget}`);
      days.forEach((tasks, day) => {
        const uses = new Map<number, string[]>();
        tasks.forEach((task, index) => {
          const name = `q${day}_${index}`;
          objective.push(`+ ${gain(task).toFixed(6)} ${name}`);
          bounds.push(`0 <= ${name} <= ${task.asked}`);
          for (const goods of goodsOf(shop, task.way)) {
            const row = uses.get(goods) ?? [];
            row.push(`+ ${task.need} ${name}`);
            uses.set(goods, row);
          }
        });
        for (const [goods, row] of uses) rows.push(`${row.join(" ")} - x${goods} <= 0`);
      });
      const answer = solve(programOf(objective, rows, bounds));
      const stock = Float64Array.from(shop.goods, (_, index) => primal(answer, `x${index}`));
      return { profit: answer.ObjectiveValue / scenarios.count, stock };
    },
    score: (stock) => {
      let sum = 0;
      for (const tasks of days) {
        if (tasks.length === 0) continue;
        const uses = new Map<number, string[]>();
        tasks.forEach((task, index) => {
          for (const goods of goodsOf(shop, task.way)) {
            const row = uses.get(goods) ?? [];
            row.push(`+ ${task.need} q${index}`);
            uses.set(goods, row);
          }
        });
        const rows = [...uses].map(([goods, row]) => `${row.join(" ")} <= ${stock[goods] ?? 0}`);
        const objective = tasks.map((task, index) => `+ ${gain(task).toFixed(6)} q${index}`);
        sum += solve(
          programOf(
            objective,
            rows,
            tasks.map(({ asked }, index) => `0 <= q${index} <= ${asked}`),
          ),
        ).ObjectiveValue;
      }
      return sum / scenarios.count - stake(shop.goods, stock);
    },
  };
}

/** The asks of one day, gathered by way and by how many tries they take. */
function tasksOf(shop: Shop, scenarios: Scenarios, scenario: number): readonly Task[] {
  const tasks = new Map<string, Task>();
  const end = scenarios.starts[scenario + 1] ?? 0;
  for (let ask = scenarios.starts[scenario] ?? 0; ask < end; ask++) {
    const way = shop.calm.ways[shop.calm.from[REACTIONS * (scenarios.product[ask] ?? 0)] ?? 0] ?? 0;
    const need = shop.spoils[way] ? 1 + (scenarios.spoils[ask] ?? 0) : 1;
    const key = `${way}x${need}`;
    const task = tasks.get(key);
    if (task === undefined) tasks.set(key, { way, need, asked: 1 });
    else task.asked++;
  }
  return [...tasks.values()];
}

function goodsOf(shop: Shop, way: number): readonly number[] {
  const first = shop.first[way] ?? 0;
  const second = shop.second[way] ?? -1;
  return second < 0 ? [first] : [first, second];
}

/** A linear program in the LP format HiGHS reads; long lines are folded, since the format limits them. */
function programOf(objective: readonly string[], rows: readonly string[], bounds: readonly string[]): string {
  return [
    "Maximize",
    " obj:",
    ...objective,
    "Subject To",
    ...rows.map((row, index) => `c${index}: ${row.replaceAll(" + ", "\n + ")}`),
    "Bounds",
    ...bounds,
    "End",
  ].join("\n");
}

function primal(answer: { readonly Columns: Readonly<Record<string, object>> }, name: string): number {
  const column = answer.Columns[name];
  return column !== undefined && "Primal" in column && typeof column.Primal === "number" ? column.Primal : 0;
}
