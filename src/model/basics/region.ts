/** The English spelling on screens and in texts, by the currency of the stall. */
import type { Currency } from "./money.ts";

export type Spelling = "american" | "british";

// Where prices are in these, English is spelt the American way.
const AMERICAN: ReadonlySet<string> = new Set<Currency>(["USD"]);

/** The spelling of English that people at a stall with this currency are used to. */
export const spellingOf = (currency: string): Spelling => (AMERICAN.has(currency) ? "american" : "british");

/** The spelling for a reader's language tag (BCP 47), if there is no stall to go by. */
export const spellingIn = (languageTag: string): Spelling =>
  /^en-US\b/i.test(languageTag) ? "american" : "british";

/** Beginnings of words that the two write differently. */
const BRITISH: ReadonlyMap<string, string> = new Map([
  ["colour", "color"],
  ["centre", "center"],
  ["organiser", "organizer"],
  ["recognise", "recognize"],
  ["cancelled", "canceled"],
  ["centimetre", "centimeter"],
  ["millimetre", "millimeter"],
  ["metre", "meter"],
]);
const WORDS = new RegExp(`\\b(${[...BRITISH.keys()].join("|")})`, "gi");

/** A sentence of the screens, written in British spelling, as this spelling has it. Never what people typed. */
export function spelt(sentence: string, spelling: Spelling): string {
  if (spelling === "british") return sentence;
  return sentence.replace(WORDS, (word) => {
    const american = BRITISH.get(word.toLowerCase()) ?? word;
    return /^[A-Z]/.test(word) ? `${american.charAt(0).toUpperCase()}${american.slice(1)}` : american;
  });
}
