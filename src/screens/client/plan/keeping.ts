/** The day's requests, kept in this browser at every keystroke so that a reload loses nothing, and in files. */
import pitch from "../../../../examples/pitch.json";
import plan from "../../../../examples/plan.json";
import power from "../../../../examples/power.json";
import presses from "../../../../examples/presses.json";
import sheets from "../../../../examples/sheets.json";
import { PARTS, type Part } from "./messages.ts";
import type { Json } from "./pointer.ts";

export type Day = Readonly<Record<Part, Json>>;

/** The sensible example everybody starts from: an invented fair. */
export const EXAMPLE: Day = { plan, sheets, presses, power, pitch };

const PLACE = "planned day";

export function keepDay(day: Day): void {
  localStorage.setItem(PLACE, JSON.stringify(day));
}

export function keptDay(): Day {
  const kept = localStorage.getItem(PLACE);
  const read = kept === null ? null : dayIn(kept);
  return read ?? EXAMPLE;
}

/** The day in a file's text: all the requests, or one plan request beside the others of `rest`; null where it is neither. */
export function dayIn(text: string, rest: Day = EXAMPLE): Day | null {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof read !== "object" || read === null || Array.isArray(read)) return null;
  const found = read as Readonly<Record<string, Json>>; // JSON holds nothing else
  if ("offers" in found) return { ...rest, plan: found };
  if (!PARTS.some((part) => part in found)) return null;
  return {
    plan: found["plan"] ?? rest.plan,
    sheets: found["sheets"] ?? rest.sheets,
    presses: found["presses"] ?? rest.presses,
    power: found["power"] ?? rest.power,
    pitch: found["pitch"] ?? rest.pitch,
  };
}
