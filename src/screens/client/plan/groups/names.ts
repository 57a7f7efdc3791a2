/** Reading names out of a request that may hold anything. */
import { type Json, valueAt } from "../pointer.ts";

/** The word at a place, or what to say where there is none. */
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
  const list = valueAt(request, pointer);
  if (!Array.isArray(list)) return [];
  return list.map((_, index) => {
    const at = `${pointer}/${index}`;
    return { at, name: wordAt(request, `${at}/${name}`, wordAt(request, `${at}/id`, `line ${index + 1}`)) };
  });
}
