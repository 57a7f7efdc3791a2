/** The garment being put together, and making it fit its offer's choices. */
import type { Menu } from "../../model/menu/catalogue.ts";
import { rangesOf } from "./range.ts";
import type { Draft, Step, Talk } from "./talk.ts";

/** The garment being put together. */
export const draftOf = ({ step }: Talk): Draft | null => draftAt(step);

const draftAt = (step: Step): Draft | null =>
  step.at === "choosing" || step.at === "which" || step.at === "instead" ? step.draft : null;

/** The garment being put together at a step, once something of it was said; null before that. */
export function begunAt(step: Step): Draft | null {
  const draft = draftAt(step);
  return draft !== null && Object.values(draft).some((part) => part !== null) ? draft : null;
}

/** A draft without parts that its offer lacks, and with parts of which the offer has only one. */
export function fitting(menu: Menu, draft: Draft): Draft {
  const range = draft.offer === null ? undefined : rangesOf(menu).get(draft.offer);
  if (range === undefined) return draft;
  const only = <Id>(choices: readonly { readonly id: Id }[], id: Id | null): Id | null =>
    choices.length === 1 ? (choices[0]?.id ?? null) : choices.some((choice) => choice.id === id) ? id : null;
  return { ...draft, colour: only(range.colours, draft.colour), size: only(range.sizes, draft.size) };
}
