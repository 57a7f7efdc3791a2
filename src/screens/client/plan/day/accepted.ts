/** The plan that a stall was filled from, kept in this browser until the stall's fair is closed out and the next one planned. */
import type { DayCosts } from "../../../../model/accounts/closeout.ts";
import { local } from "../../kit/texts-kept.ts";
import type { Day } from "./first.ts";

export type AcceptedHere = {
  readonly day: Day;
  readonly costs: DayCosts;
  /** What the plan expected; sums in minor units. */
  readonly expected: {
    readonly profit: number;
    readonly profitLow: number;
    readonly profitHigh: number;
    readonly garments: number;
    readonly blanksLeft: number;
    readonly waitMinutes: number;
  };
};

const nameOf = (place: string): string => `accepted plan ${place}`;

/** `place` is "fair/stall". */
export function keepAccepted(place: string, accepted: AcceptedHere): void {
  local.setItem(nameOf(place), JSON.stringify(accepted));
}

export function acceptedAt(place: string): AcceptedHere | null {
  const text = local.getItem(nameOf(place));
  return text === null ? null : (JSON.parse(text) as AcceptedHere); // only written above
}
