/** What the set-up page shows beside the menu as typed: faults, changes, progress. Pure. */
import { checklist } from "./checklist.ts";
import { placeAsked } from "./form/names.ts";
import { changesOf } from "./saving/changes.ts";
import { checkMenu } from "./saving/checking.ts";
import { type State, things } from "./state.ts";

function readyWords(toMend: number, unsaved: number): string {
  if (toMend > 0) return `${things(toMend)} still to fix; the bar below lists them.`;
  return unsaved > 0
    ? "Nothing is wrong. Save it, then try it."
    : "Saved and ready to sell. Try an order before the fair opens.";
}

function unsavedWords(saving: boolean, unsaved: number, toMend: number): string {
  if (saving) return "Saving…";
  if (unsaved === 0) return "Saved.";
  const changes = unsaved === 1 ? "1 change" : `${unsaved} changes`;
  return `${changes}, not saved yet${toMend > 0 ? `; fix ${toMend} first` : ""}.`;
}

export function shownOf({ draft, tried, left, breaks, needs, saving }: State) {
  const checked = checkMenu(draft.menu);
  const changes = changesOf(draft.base, draft.menu);
  const faults = new Map<string, string>();
  const told = tried
    ? [...checked.faults, ...breaks]
    : checked.faults.filter(({ pointer }) => left.has(pointer));
  for (const { pointer, detail } of told) {
    const place = placeAsked(draft.menu, pointer);
    faults.set(place, `${faults.get(place) ?? ""} ${detail}.`.trim());
  }
  const priced = changes.some(({ pointer }) => pointer.endsWith("/price"));
  const toMend = checked.faults.length;
  return {
    checked,
    /** The messages beside fields, by pointer. */
    faults,
    changes,
    /** Open orders that keep the price they were given. */
    pricedBefore: priced ? needs.orders.map(({ number }) => number) : [],
    steps: checklist(draft.menu, checked.faults, changes.length),
    readyWords: readyWords(toMend, changes.length),
    unsavedWords: unsavedWords(saving, changes.length, toMend + breaks.length),
    canSave: !saving && changes.length > 0,
  };
}
export type Shown = ReturnType<typeof shownOf>;
