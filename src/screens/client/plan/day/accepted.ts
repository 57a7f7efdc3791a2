/** All figures of the plan that a stall was filled from, kept in this browser to begin the next plan from. */
import { local } from "../../kit/texts-kept.ts";
import type { Day } from "./first.ts";

const nameOf = (place: string): string => `accepted plan ${place}`;

/** `place` is "fair/stall". */
export const keepAccepted = (place: string, day: Day): void =>
  local.setItem(nameOf(place), JSON.stringify({ day }));

export function acceptedDay(place: string): Day | null {
  const text = local.getItem(nameOf(place));
  return text === null ? null : (JSON.parse(text) as { readonly day: Day }).day; // only written above
}
