/** The present edit, kept in this browser at every keystroke until it is saved. */

import { Rules } from "../../../../model/menu/rules.ts";
import type { Json } from "../../kit/json-pointer.ts";
import { local } from "../../kit/texts-kept.ts";

export type Draft = {
  /** The saved menu that the edit started from; null if there was none. */
  readonly base: Json;
  /** The entity tag of that one. */
  readonly tag: string | null;
  readonly menu: Json;
};

const nameOf = (place: string): string => `setup ${place}`;

export function keepDraft(place: string, draft: Draft | null): void {
  if (draft === null) local.removeItem(nameOf(place));
  else local.setItem(nameOf(place), JSON.stringify(draft));
}

export function keptDraft(place: string): Draft | null {
  const kept = local.getItem(nameOf(place));
  return kept === null ? null : (JSON.parse(kept) as Draft); // written above only
}

/** A menu before anything is typed. */
export const EMPTY_MENU: Json = {
  currency: "USD",
  language: "en",
  presses: [{ id: "A", platen: "flat", garmentSeconds: 75 }],
  blanks: [],
  designs: [],
  offers: [],
  rules: Rules.parse({}) as Json, // parsed rules are JSON
};
