/** Which language a customer writes. */
import type { Language } from "../../model/basics/words.ts";
import type { Talk } from "../talk/talk.ts";
import { tokens } from "../understand/tokens.ts";
import { LANGUAGES, WORDINGS } from "../wording/languages.ts";
import type { TurnInput } from "./turn.ts";

const VOCABULARY = LANGUAGES.map((language) => {
  const { names, commands, marks } = WORDINGS[language].words;
  return {
    language,
    names: new Set(names),
    telling: new Set([...commands.hello, ...commands.menu, ...commands.thanks, ...marks]),
  };
});

/**
 * The talk in the language the customer chose: by naming it, by words that only that language has, or, as
 * long as they have not, by what the browser prefers.
 */
export function spoken(talk: Talk, { text, language }: TurnInput): Talk {
  const words = tokens(text).flatMap((token) => (token.type === "word" ? [token.text] : []));
  const chosen = chosenBy(words, talk);
  if (chosen !== null) return { ...talk, language: chosen, languageChosen: true };
  return talk.languageChosen || language === undefined ? talk : { ...talk, language };
}

function chosenBy(words: readonly string[], talk: Talk): Language | null {
  const named = VOCABULARY.find(({ names }) => words.length <= 3 && words.some((word) => names.has(word)));
  if (named !== undefined) return named.language;
  const scores = VOCABULARY.map(({ language, telling }) => ({
    language,
    score: words.filter((word) => telling.has(word)).length,
  }));
  const own = scores.find(({ language }) => language === talk.language)?.score ?? 0;
  const best = scores.reduce((most, other) => (other.score > most.score ? other : most));
  return best.score > own ? best.language : null;
}
