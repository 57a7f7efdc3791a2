/** The edit as it stands, kept in this browser at every keystroke until it was saved. */

import { Rules } from "../../../../model/menu/rules.ts";
import type { Json } from "../../kit/json-pointer.ts";
import { local } from "../../kit/texts-kept.ts";

export type Draft = {
  /** The menu the edit began from, as it was saved; null where there was none. */
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

/** What a menu has before anything was typed. */
export const EMPTY_MENU: Json = {
  currency: "USD",
  language: "en",
  presses: [{ id: "A", platen: "flat", garmentSeconds: 75 }],
  blanks: [],
  designs: [],
  offers: [],
  rules: Rules.parse({}) as Json, // parsed rules are JSON
};
