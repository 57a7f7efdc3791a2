/** The progress of a set-up, step by step. Pure: takes a menu as typed and its faults, returns words for each step. */
import type { Fault } from "../../../model/basics/faults.ts";
import { type Json, rowsAt } from "../kit/json-pointer.ts";

export type Step = {
  /** The part of the page. */
  readonly part: "blanks" | "designs" | "offers" | "presses" | "rules" | "check";
  readonly name: string;
  readonly isDone: boolean;
  readonly says: string;
};

/** Each step with the lists of the menu that it asks for; only the first must hold something. */
const LISTS = [
  [["blanks"], "Garments"],
  [["designs"], "Designs"],
  [["offers", "bundles", "wishes"], "Products"],
  [["presses"], "Presses"],
] as const;

const toMend = (count: number): string => `${count} to fix`;

/** `unsaved` says how many changes are not saved yet. */
export function checklist(menu: Json, faults: readonly Fault[], unsaved: number): readonly Step[] {
  const wrongIn = (lists: readonly string[]): number =>
    faults.filter(({ pointer }) => lists.includes(pointer.split("/")[1] ?? "")).length;
  const steps = LISTS.map(([lists, name]): Step => {
    const [part] = lists;
    const count = rowsAt(menu, `#/${part}`).length;
    // An empty list is a fault of its own, but "add one" says it better.
    const wrong = count === 0 ? 0 : wrongIn(lists);
    const says = count === 0 ? "Add one" : wrong > 0 ? toMend(wrong) : String(count);
    return { part, name, isDone: count > 0 && wrong === 0, says };
  });
  const rules = faults.length - LISTS.reduce((sum, [lists]) => sum + wrongIn(lists), 0);
  return [
    ...steps,
    { part: "rules", name: "Rules", isDone: rules === 0, says: rules === 0 ? "Set" : toMend(rules) },
    {
      part: "check",
      name: "Check",
      isDone: faults.length === 0 && unsaved === 0,
      says: faults.length > 0 ? toMend(faults.length) : unsaved > 0 ? "Save" : "Ready to sell",
    },
  ];
}
