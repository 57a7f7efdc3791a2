/** The faults of a menu as typed, in the words of the person who types it. */
import type { z } from "zod";
import { type Fault, pointer } from "../../../../model/basics/faults.ts";
import { Menu } from "../../../../model/menu/catalogue.ts";
import { menuFaults } from "../../../../model/menu/menu-faults.ts";
import type { Json } from "../../kit/json-pointer.ts";

export type Checked = { readonly menu: Menu | null; readonly faults: readonly Fault[] };

const MISSING = "is still to be filled in";

function words(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      if (issue.input === undefined || issue.input === null || issue.input === "") return MISSING;
      if (issue.path.at(-1) === "price") return "must be a price, e.g. 24.50";
      return issue.expected === "int" ? "must be a whole number, like 12" : "must be a number, like 12";
    case "too_small":
      if (issue.origin === "string") return MISSING;
      return issue.origin === "array"
        ? "needs at least one; add it below"
        : `must be ${issue.minimum} or more`;
    case "too_big":
      if (issue.origin === "string") return `may have at most ${issue.maximum} letters; shorten it`;
      return issue.origin === "array"
        ? `may have at most ${issue.maximum}; take some out`
        : `must be ${issue.maximum} or less`;
    case "invalid_value":
      return "pick one from the list";
    default:
      return issue.message;
  }
}

/** The menu of the form, if it is valid, and every fault that prevents saving. */
export function checkMenu(form: Json): Checked {
  const parsed = Menu.safeParse(form, { reportInput: true });
  if (!parsed.success) {
    const faults = parsed.error.issues.map((issue) => ({
      pointer: pointer(issue.path),
      detail: words(issue),
    }));
    return { menu: null, faults };
  }
  return { menu: parsed.data, faults: menuFaults(parsed.data) };
}
