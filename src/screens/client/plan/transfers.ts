/** From what to bring to the sheets to order. */
import type { Plan } from "../../../model/plan-answer.ts";
import { type Json, rowsAt, valueAt, withValue } from "./pointer.ts";

/** The request for sheets with the plan's counts, and what one more of each is worth, in minor units. */
export function sheetsFor(request: Json, { bring }: Plan): Json {
  return rowsAt(request, "#/designs").reduce((changed: Json, design, index) => {
    const line = bring.transfers.find((one) => one.design === valueAt(design, "#/id"));
    if (line === undefined || line.buy === 0) return changed;
    const counted = withValue(changed, `#/designs/${index}/count`, line.buy);
    return withValue(counted, `#/designs/${index}/valueOfOneMore`, Math.max(0, line.oneMore));
  }, request);
}
