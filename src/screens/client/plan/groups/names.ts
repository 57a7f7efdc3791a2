/** Reading names out of a request that may hold anything. */

import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import type { Choice, Field } from "../form/field.tsx";
import { SHORT, WORDS } from "../form/writings.ts";

/** The word at a place, or a default if there is none. */
export function wordAt(request: Json, pointer: string, otherwise = ""): string {
  const value = valueAt(request, pointer);
  return typeof value === "string" || typeof value === "number" ? String(value) : otherwise;
}

/** Places of a list's rows, with each row's name. */
export function rowsOf(
  request: Json,
  pointer: string,
  name = "name",
): readonly { readonly at: string; readonly name: string }[] {
  return rowsAt(request, pointer).map((_, index) => {
    const at = `${pointer}/${index}`;
    return { at, name: wordAt(request, `${at}/${name}`, wordAt(request, `${at}/id`, `line ${index + 1}`)) };
  });
}

/** A field in one line. */
export const field = (pointer: string, label: string, help: string, more: Partial<Field> = {}): Field => ({
  pointer,
  label,
  help,
  ...more,
});

export const YES_NO: readonly Choice[] = [
  ["no", false],
  ["yes", true],
];

/** The rows of a list to choose from by name, for a field that holds their id. */
export const idsOf = (request: Json, pointer: string): readonly Choice[] =>
  rowsOf(request, pointer).map(({ at, name }) => [name, wordAt(request, `${at}/id`)]);

/** The first of "offer-1", "offer-2" … that no row of the list has as its `key`. */
export function freeName(request: Json, pointer: string, word: string, key = "id"): string {
  const taken = new Set(rowsAt(request, pointer).map((row) => wordAt(row, `#/${key}`)));
  for (let number = taken.size + 1; ; number++)
    if (!taken.has(`${word}-${number}`)) return `${word}-${number}`;
}

/** The fields of a row's name and short name. */
export const named = (at: string, more = false): Field[] => [
  field(`${at}/name`, "Name", "As people say it; it changes everywhere.", {
    writing: WORDS,
    settles: true,
    more,
  }),
  field(`${at}/id`, "Short name", "For stock sheets: small letters, digits, hyphens.", {
    writing: SHORT,
    settles: true,
    more: true,
  }),
];

/** The plan's names by short name, of each kind apart: a blank and the product on it may share a short name. */
export type Names = Readonly<Record<"blanks" | "designs" | "offers", ReadonlyMap<string, string>>>;

export function namesIn(request: Json): Names {
  const of = (list: keyof Names): ReadonlyMap<string, string> =>
    new Map(rowsOf(request, `#/${list}`).map(({ at, name }) => [wordAt(request, `${at}/id`), name]));
  return { blanks: of("blanks"), designs: of("designs"), offers: of("offers") };
}
