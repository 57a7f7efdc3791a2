/** From what to bring to the sheets to order. */
import type { Plan } from "../../../model/planning/plan-answer.ts";
import { type Json, rowsAt, valueAt, withValue } from "../kit/json-pointer.ts";

/**
 * The request for sheets with the plan's counts, and what one more of each is worth, in minor units. A design
 * that the sheets do not know yet is added without its size, which the planner then asks for; one of which
 * none is bought goes.
 */
export function sheetsFor(
  request: Json,
  { bring, currency }: Plan,
  names: ReadonlyMap<string, string>,
): Json {
  const known = rowsAt(request, "#/designs").flatMap((design): Json[] => {
    const line = bring.transfers.find((one) => one.design === valueAt(design, "#/id"));
    if (line === undefined) return [design];
    if (line.buy === 0) return [];
    const counted = withValue(design, "#/count", line.buy);
    return [withValue(counted, "#/valueOfOneMore", Math.max(0, line.oneMore))];
  });
  const ids = new Set(rowsAt(request, "#/designs").map((design) => valueAt(design, "#/id")));
  const fresh = bring.transfers
    .filter(({ design, buy }) => buy > 0 && !ids.has(design))
    .map(({ design, buy, oneMore }) => ({
      id: design,
      name: names.get(design) ?? design,
      count: buy,
      valueOfOneMore: Math.max(0, oneMore),
    }));
  return withValue(withValue(request, "#/designs", [...known, ...fresh]), "#/currency", currency);
}
