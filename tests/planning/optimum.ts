/**
 * The cheapest plan over a list of layouts as an integer program, solved by HiGHS (registry package `highs`
 * 1.15.3, MIT): copies of each layout in each line of the price table, a set-up for each layout used.
 */
import highsLoader from "highs";
import type { SheetRequest } from "../../src/model/planning/sheets.ts";

/** The number of transfers of each design on one sheet of a size. */
export type Pattern = { readonly size: number; readonly counts: readonly number[] };

export type Optimum = { readonly status: string; readonly cost: number };

/** The least cost, extra layouts included. `most` is a cost known to be possible; it only helps the solver. */
export async function cheapestByHighs(
  request: SheetRequest,
  layouts: readonly Pattern[],
  most: number,
  seconds: number,
): Promise<Optimum> {
  const highs = await highsLoader();
  const extra = request.extraLayoutPrice;
  const terms: string[] = [];
  const rows: string[] = [];
  const generals: string[] = [];
  const binaries: string[] = [];
  const makes: string[][] = request.designs.map(() => []);
  const largest = Math.max(...request.designs.map((design) => design.count));
  layouts.forEach((layout, at) => {
    const size = request.sheets[layout.size];
    if (!size) return;
    const used: string[] = [];
    size.prices.forEach((line, tier) => {
      const low = Math.max(line.copies, size.minimumCopies);
      const next = size.prices[tier + 1]?.copies ?? Number.POSITIVE_INFINITY;
      const high = Math.min(next - 1, Math.max(low, largest));
      if (high < low) return;
      const x = `x${at}_${tier}`;
      const y = `y${at}_${tier}`;
      terms.push(`${line.price} ${x} + ${extra} ${y}`);
      rows.push(`${x} - ${high} ${y} <= 0`, `${x} - ${low} ${y} >= 0`);
      generals.push(x);
      binaries.push(y);
      used.push(y);
      layout.counts.forEach((many, design) => {
        if (many > 0) makes[design]?.push(`${many} ${x}`);
      });
    });
    if (used.length > 1) rows.push(`${used.join(" + ")} <= 1`);
  });
  makes.forEach((list, design) => {
    rows.push(`${list.join(" + ")} >= ${request.designs[design]?.count ?? 0}`);
  });
  const objective = terms.join("\n + ");
  if (Number.isFinite(most)) rows.push(`${objective} <= ${most + extra}`);
  const program = `Minimize\n ${objective}\nSubject To\n ${rows.join("\n ")}\nBounds\n ${generals.map((x) => `0 <= ${x}`).join("\n ")}\nGeneral\n ${generals.join("\n ")}\nBinary\n ${binaries.join("\n ")}\nEnd\n`;
  const solution = highs.solve(program, { time_limit: seconds, mip_rel_gap: 0, mip_abs_gap: 0.5 });
  return { status: solution.Status, cost: Math.round(solution.ObjectiveValue) - extra };
}
