/** The page's state: the draft, what came of the last tap, and the texts counted while it is open. */
import type { Throughput } from "../../../model/fair/throughput.ts";
import type { Draft, Mistake } from "./draft.ts";

type Counts = { readonly came: number; readonly went: number; readonly unsigned: number };

export type State = {
  readonly draft: Draft;
  readonly mistakes: readonly Mistake[];
  /** The result of the last save or try; null: nothing to say. */
  readonly said: string | null;
  readonly busy: boolean;
  /** Whether the draft is what the fair uses. */
  readonly saved: boolean;
  /** The number for a try, as it is typed. */
  readonly tryTo: string;
  readonly tried: string | null;
  /** At the first look and now; null until the fair was asked. */
  readonly counts: { readonly first: Counts; readonly now: Counts } | null;
};

export const firstState = (draft: Draft, saved: boolean): State => ({
  draft,
  mistakes: [],
  said: null,
  busy: false,
  saved,
  tryTo: "",
  tried: null,
  counts: null,
});

/** What is typed is no longer what the fair uses. */
export const edited = (state: State, draft: Draft): State => ({ ...state, draft, saved: false, said: null });

/** The fair's counts of texts, beside those of the first look. */
export function counted(state: State, { total, texts }: Pick<Throughput, "total" | "texts">): State {
  const now = { came: total.textsIn, went: total.textsOut, unsigned: texts.badSignatures };
  return { ...state, counts: { first: state.counts?.first ?? now, now } };
}

/** What the fair's counts say about a try by texting the number. */
export function countWords({ counts }: Pick<State, "counts">): string {
  if (counts === null) return "";
  const { first, now } = counts;
  const [came, went, unsigned] = [
    now.came - first.came,
    now.went - first.went,
    now.unsigned - first.unsigned,
  ];
  if (unsigned > 0)
    return `${unsigned} came with a signature that does not fit. Compare the secret and “How it signs” with the gateway’s pages.`;
  if (came <= 0) return "None has come in since you opened this page.";
  return `${came} came in since you opened this page, ${went} went out.`;
}
