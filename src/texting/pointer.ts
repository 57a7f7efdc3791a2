/** RFC 6901: the value a JSON Pointer names. */

/** The value at a pointer ("" is the whole), or undefined if there is none. */
export function valueAt(whole: unknown, pointer: string): unknown {
  if (pointer === "") return whole;
  if (!pointer.startsWith("/")) return undefined;
  let value = whole;
  for (const token of pointer.slice(1).split("/")) {
    const name = token.replaceAll("~1", "/").replaceAll("~0", "~");
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
    if (Array.isArray(value) && !/^(?:0|[1-9][0-9]*)$/.test(name)) return undefined;
    value = (value as Record<string, unknown>)[name]; // an object with that property of its own
  }
  return value;
}
