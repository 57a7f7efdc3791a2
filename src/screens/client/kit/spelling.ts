/**
 * How this page spells English: as its stall does, by the currency. Until that is known, and where there is no stall, as
 * the browser's language does.
 */
import { spelt as respelt, type Spelling, spellingIn, spellingOf } from "../../../model/basics/region.ts";

let spelling: Spelling = spellingIn(globalThis.navigator?.language ?? "en");

/** The page's stall sells in this currency. */
export function spellAs(currency: string): void {
  spelling = spellingOf(currency);
}

/** A sentence of the page, written in British spelling, as this page spells. Never what people typed. */
export const spelt = (sentence: string): string => respelt(sentence, spelling);
