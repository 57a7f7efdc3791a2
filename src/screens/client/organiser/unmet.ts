/** Asks that were not met, and why, in few words. */
import type { Tally } from "../../../model/fair/throughput.ts";

type Unmet = Pick<Tally, "unmet" | "unmetSoldOut" | "unmetClosed" | "unmetWait">;

/** "5 sold out, 2 long wait"; empty if no request was turned away. */
export function reasonsWords({ unmetSoldOut, unmetClosed, unmetWait }: Unmet): string {
  const reasons = [
    [unmetSoldOut, "sold out"],
    [unmetWait, "long wait"],
    [unmetClosed, "closed"],
  ] as const;
  return reasons
    .filter(([count]) => count > 0)
    .map(([count, reason]) => `${count} ${reason}`)
    .join(", ");
}

/** "7 (5 sold out, 2 long wait)"; only the number if there are no reasons. */
export function unmetWords(tally: Unmet): string {
  const reasons = reasonsWords(tally);
  return reasons === "" ? String(tally.unmet) : `${tally.unmet} (${reasons})`;
}
