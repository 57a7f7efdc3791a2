/** A language's part of answering questions: the words they are recognised by, and the answers. */
import type { AnswerSubject } from "../../model/menu/answers.ts";
import type { Say } from "../fitting/fit.ts";
import type { Paying } from "../wording/shape.ts";

/** The subjects people ask about: those a stall may answer in its own words, and those only the moment can answer. */
export type Subject = AnswerSubject | "price" | "wait";

/** How a question about a subject is recognised. Words are in small letters without accents. */
export type Asking = {
  /** Any one of these is enough. */
  readonly words?: string;
  /** These are enough if all the other words say nothing. */
  readonly alone?: string;
  /** Words in this order, at most four others between two of them; a slash parts those of which one is enough. */
  readonly patterns?: readonly string[];
  /** With one of these, something else is asked. */
  readonly not?: string;
};

export type QuestionWords = {
  readonly subjects: Readonly<Record<Subject, Asking>>;
  /** Say nothing in a question. */
  readonly fillers: string;
  /** Words that mark a question: without one, a text that reads as an order is an order. */
  readonly cues: string;
};

/** A price in a list: "Longtail tee", "from $24". */
type Priced = { readonly name: string; readonly price: string };

export type AnswerSentences = {
  readonly payment: (facts: { readonly paying: Paying; readonly byLink: boolean }) => Say;
  readonly place: (facts: { readonly stall: string; readonly fair: string }) => Say;
  /** `closes` is null while the stall is closed; `opens` is null if the next opening is unknown. */
  readonly hours: (facts: { readonly closes: string | null; readonly opens: string | null }) => Say;
  readonly children: (facts: { readonly sizes: readonly string[]; readonly smallest: string }) => Say;
  readonly ownGarment: (facts: { readonly name: string; readonly more: string | null }) => Say;
  readonly fabric: (facts: {
    readonly blanks: readonly { readonly name: string; readonly fabric: string }[];
  }) => Say;
  readonly exchange: () => Say;
  readonly shipping: () => Say;
  readonly askStall: () => Say;
  readonly price: (facts: { readonly prices: readonly Priced[]; readonly plusTax: boolean }) => Say;
  readonly wait: (facts: { readonly minutes: number; readonly paused: boolean }) => Say;
  /** Asks for a choice of the list that was sent last. */
  readonly goOn: string;
  readonly fabrics: Readonly<Record<"cotton" | "polyester" | "blend" | "other", string>>;
};

export type AnswerWording = { readonly words: QuestionWords; readonly sentences: AnswerSentences };
