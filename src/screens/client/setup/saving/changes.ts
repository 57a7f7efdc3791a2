/** The differences between two menus, worded so that a person sees what an edit will do. */

import { isRecord, type Json } from "../../kit/json-pointer.ts";
import { isNamedList, type Named, same } from "../../kit/merging.ts";
import { spelt } from "../../kit/spelling.ts";
import { fieldAt, nameAt, valueWords } from "../form/names.ts";
import { isList, LISTS } from "../form/sections.ts";

export type Change = { readonly pointer: string; readonly says: string };

/** Every place at which `after` differs from `before`, in page order. */
export function changesOf(before: Json, after: Json): readonly Change[] {
  const found: Change[] = [];
  const tell = (pointer: string, words: string): void => {
    found.push({ pointer, says: `${nameAt(after, pointer)}: ${words}` });
  };

  const compare = (at: string, was: Json | undefined, now: Json | undefined): void => {
    if (same(was, now)) return;
    const field = at.split("/").at(-1);
    // A menu without answers has none in any language.
    if (at.startsWith("#/answers") && fieldAt(after, at) === undefined && (was ?? now) !== undefined) {
      if (was === undefined) return compare(at, {}, now);
      if (now === undefined) return compare(at, was, {});
    }
    if (isRecord(was) && isRecord(now) && fieldAt(after, at) === undefined) {
      for (const name of new Set([...Object.keys(was), ...Object.keys(now)]))
        compare(`${at}/${name}`, was[name], now[name]);
      return;
    }
    const [earlier, later] = [was ?? [], now ?? []];
    if (isList(field) && isNamedList(earlier) && isNamedList(later))
      return compareLists(at, field, earlier, later);
    if (field === "offered")
      return tell(at.replace(/\/offered$/, ""), now === false ? "taken off sale" : "on sale again");
    if (fieldAt(after, at) === undefined && (typeof was === "object" || typeof now === "object"))
      return tell(at, "changed");
    const from = valueWords(before, at, was);
    tell(
      at,
      `${from} becomes ${valueWords(after, at, now)}${field === "price" ? ", for new orders only" : ""}`,
    );
  };

  const compareLists = (
    at: string,
    list: keyof typeof LISTS,
    was: readonly Named[],
    now: readonly Named[],
  ): void => {
    now.forEach((entry, index) => {
      const earlier = was.find(({ id }) => id === entry.id);
      if (earlier === undefined) tell(`${at}/${index}`, "new");
      else compare(`${at}/${index}`, earlier, entry);
    });
    for (const { id, name } of was)
      if (!now.some((entry) => entry.id === id))
        found.push({
          pointer: at,
          says: `${spelt(LISTS[list].one)} ${name ?? id}: taken out; those after it move up a number`,
        });
  };

  compare("#", before, after);
  return found;
}
