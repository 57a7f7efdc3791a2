/** Text with named slots: "{to}" stands for a value. */

/** Returns a slot's value; undefined if there is no such slot. */
export type Slots = (name: string) => string | undefined;

const SLOT = /\{([A-Za-z][A-Za-z0-9_:-]*)\}/g;

/** The names of the slots of a template, in order. */
export const slotsIn = (template: string): readonly string[] =>
  [...template.matchAll(SLOT)].map(([, name]) => name ?? "");

/** The template with its slots filled, each value encoded for its place. */
export function filled(
  template: string,
  slots: Slots,
  encode: (value: string) => string = (value) => value,
): string {
  return template.replaceAll(SLOT, (_, name: string) => {
    const value = slots(name);
    if (value === undefined)
      throw new Error(`the gateway mapping uses the slot {${name}}, which has no value`);
    return encode(value);
  });
}

/** The same for every string inside a JSON value. */
export function filledJson(value: unknown, slots: Slots): unknown {
  if (typeof value === "string") return filled(value, slots);
  if (Array.isArray(value)) return value.map((item) => filledJson(item, slots));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, filledJson(item, slots)]));
}

/** Every string inside a JSON value, with the path to it. */
export function strings(
  value: unknown,
  path: readonly PropertyKey[] = [],
): readonly (readonly [path: readonly PropertyKey[], text: string])[] {
  if (typeof value === "string") return [[path, value]];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, item]) => strings(item, [...path, name]));
}
