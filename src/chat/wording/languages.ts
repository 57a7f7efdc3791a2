/** The languages of the conversation: one file each, listed here. */
import type { Language } from "../../model/basics/words.ts";
import { en } from "./en.ts";
import { es } from "./es.ts";
import type { Sentences, Wording } from "./shape.ts";

export const WORDINGS: Readonly<Record<Language, Wording>> = { en, es };

export const LANGUAGES = Object.keys(WORDINGS) as readonly Language[]; // the keys of a literal

export const sentencesOf = (language: Language): Sentences => WORDINGS[language].sentences;
