/** The bar that stays in sight: what was changed and not saved, what it would break, what is still to mend. */
import type { Fault } from "../../../../model/basics/faults.ts";
import { ordersWords } from "../../crew/in-use.ts";
import { byId, element } from "../../kit/dom.ts";
import { reveal } from "../form/rows.ts";
import type { Change } from "./changes.ts";

export type Review = {
  readonly changes: readonly Change[];
  readonly faults: readonly Fault[];
  /** What the stall says the edit would break. */
  readonly breaks: readonly Fault[];
  /** Open orders that keep the price they were given. */
  readonly pricedBefore: readonly number[];
  readonly saving: boolean;
};

const MOST_SHOWN = 40;

function list(
  title: string,
  entries: readonly { readonly pointer: string; readonly says: string }[],
): HTMLElement | null {
  if (entries.length === 0) return null;
  const more = entries.length - MOST_SHOWN;
  return element(
    "div",
    {},
    element("h3", {}, title),
    element(
      "ul",
      {},
      ...entries
        .slice(0, MOST_SHOWN)
        .map(({ pointer, says }) =>
          element(
            "li",
            {},
            element("button", { type: "button", class: "link", onclick: () => reveal(pointer) }, says),
          ),
        ),
      more > 0 ? element("li", {}, `and ${more} more`) : null,
    ),
  );
}

/** Where a fault is, as a person finds it: "#/offers/0/price" in the offer's own name. */
export const faultWords = (nameAt: (pointer: string) => string) => (fault: Fault) => {
  const where = nameAt(fault.pointer);
  return { pointer: fault.pointer, says: where === "" ? fault.detail : `${where}: ${fault.detail}` };
};

export function showReview(
  { changes, faults, breaks, pricedBefore, saving }: Review,
  nameAt: (pointer: string) => string,
): void {
  const told = faultWords(nameAt);
  byId("review").replaceChildren(
    ...[
      list("Still to mend", faults.map(told)),
      list("Would break", breaks.map(told)),
      list("Not saved yet", changes),
      pricedBefore.length === 0
        ? null
        : element("p", {}, `Open orders keep their price: ${ordersWords(pricedBefore)}.`),
    ].filter((part) => part !== null),
  );
  const dirty = changes.length > 0;
  byId("unsaved").textContent = saving
    ? "Saving…"
    : !dirty
      ? "All is saved."
      : `${changes.length === 1 ? "1 change" : `${changes.length} changes`}, not saved yet${faults.length + breaks.length > 0 ? `; ${faults.length + breaks.length} to mend first` : ""}.`;
  byId<HTMLButtonElement>("save").disabled = saving || !dirty;
  byId<HTMLButtonElement>("discard").hidden = !dirty;
}
