/** The languages of the conversation: one file each, listed here. */
import { spellingOf } from "../../model/basics/region.ts";
import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import { EN_SENTENCES, en } from "./en.ts";
import { es } from "./es.ts";
import type { Sentences, Wording } from "./shape.ts";

export const WORDINGS: Readonly<Record<Language, Wording>> = { en, es };

export const LANGUAGES = Object.keys(WORDINGS) as readonly Language[]; // the keys of a literal

/** The sentences in the language of a conversation, English as the stall's region spells it. */
export const sentencesOf = (
  { menu }: { readonly menu: Pick<Menu, "currency"> },
  { language }: { readonly language: Language },
): Sentences => (language === "en" ? EN_SENTENCES[spellingOf(menu.currency)] : WORDINGS[language].sentences);
