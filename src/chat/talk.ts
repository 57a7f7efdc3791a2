import type { Language } from "../model/words.ts";

/** Placeholder shape until the conversation is merged. */
export type Talk = { readonly language: Language };

export const newTalk = (language: Language): Talk => ({ language });
