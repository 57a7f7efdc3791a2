/** Help is data: subjects, their questions, and the lines that answer each. */

/** A line of an answer: a sentence or two, a command to type, or a way to a page. */
export type Line = string | { readonly run: string } | { readonly to: string; readonly says: string };

export type HelpSubject = {
  /** In its address: /help/ID. */
  readonly id: string;
  readonly title: string;
  /** For whom it is, in one sentence. */
  readonly lead: string;
  readonly answers: readonly (readonly [question: string, ...lines: readonly Line[]])[];
};

/** The place of a question on its page, made of its words. */
export const placeOf = (question: string): string =>
  question
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-|-$/g, "");
