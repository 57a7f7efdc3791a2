/** The English spelling of this page: the stall's, by its currency, or the browser's language if there is no stall. */
import { spelt as respelt, type Spelling, spellingIn, spellingOf } from "../../../model/basics/region.ts";

let spelling: Spelling = "british";

/** The page's stall sells in this currency. */
export function spellAs(currency: string): void {
  spelling = spellingOf(currency);
}

/** The page belongs to no stall, and its reader to this language (BCP 47). */
export function spellIn(languageTag: string): void {
  spelling = spellingIn(languageTag);
}

/** A sentence of the page, written in British spelling, as this page spells. Never what people typed. */
export const spelt = (sentence: string): string => respelt(sentence, spelling);
