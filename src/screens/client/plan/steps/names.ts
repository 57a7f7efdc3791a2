/** The plan's names of products, blanks and designs, by their short names. */
import type { Day } from "../day/first.ts";
import { rowsOf, wordAt } from "../groups/names.ts";

export const namesIn = ({ plan }: Day): ReadonlyMap<string, string> =>
  new Map(
    ["#/blanks", "#/designs", "#/offers"].flatMap((list) =>
      rowsOf(plan, list).map(({ at, name }) => [wordAt(plan, `${at}/id`), name] as const),
    ),
  );
