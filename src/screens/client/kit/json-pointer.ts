/** Reading and writing one place of a request by its RFC 6901 pointer, "#/offers/0/price". */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json };
export type Requested = { readonly [name: string]: Json };

const stepsOf = (pointer: string): string[] =>
  pointer
    .replace(/^#?\/?/, "")
    .split("/")
    .filter((step) => step !== "")
    .map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));

export const isRecord = (value: Json | undefined): value is Requested =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The value at a pointer, or undefined. */
export function valueAt(request: Json, pointer: string): Json | undefined {
  let value: Json | undefined = request;
  for (const step of stepsOf(pointer)) {
    if (Array.isArray(value)) value = value[Number(step)];
    else if (isRecord(value)) value = value[step];
    else return undefined;
  }
  return value;
}

/** The rows at a pointer; empty if there is no list. */
export function rowsAt(request: Json, pointer: string): readonly Json[] {
  const value = valueAt(request, pointer);
  return Array.isArray(value) ? value : [];
}

/** The request with another value there; undefined takes a field out. What is on the way and missing is made. */
export function withValue(request: Json, pointer: string, value: Json | undefined): Json {
  return changed(request, stepsOf(pointer), value) ?? {};
}

function changed(
  from: Json | undefined,
  [step, ...rest]: readonly string[],
  value: Json | undefined,
): Json | undefined {
  if (step === undefined) return value;
  if (Array.isArray(from)) {
    const copy = [...from];
    copy[Number(step)] = changed(copy[Number(step)], rest, value) ?? null;
    return copy;
  }
  const fields = isRecord(from) ? from : {};
  const made = changed(fields[step], rest, value);
  const others = Object.fromEntries(Object.entries(fields).filter(([name]) => name !== step));
  return made === undefined ? others : { ...fields, [step]: made };
}
