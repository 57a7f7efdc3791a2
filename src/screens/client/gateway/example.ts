/** An example from a gateway's documentation, JSON or a form, as fields to choose from. */
import type { Json } from "../kit/json-pointer.ts";

/** One value of an example. `place`: its JSON Pointer (RFC 6901), or the name of a form's field. */
export type Field = { readonly place: string; readonly value: string };

export type Example = { readonly fields: readonly Field[] } & (
  | { readonly body: "json"; readonly value: Json }
  | { readonly body: "form"; readonly text: string }
);

const stepOf = (name: string | number): string =>
  `/${String(name).replaceAll("~", "~0").replaceAll("/", "~1")}`;

function fieldsIn(value: Json, place: string): readonly Field[] {
  if (typeof value === "string" || typeof value === "number") return [{ place, value: String(value) }];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, item]) => fieldsIn(item, place + stepOf(name)));
}

function jsonIn(text: string): Json | undefined {
  try {
    return JSON.parse(text) as Json; // what was parsed as JSON is JSON
  } catch {
    return undefined;
  }
}

/** Reads a pasted example; null if it is neither JSON with fields nor a form. A form may have a field a line. */
export function readExample(pasted: string): Example | null {
  const text = pasted.trim();
  const value = jsonIn(text);
  if (typeof value === "object" && value !== null)
    return { body: "json", value, fields: fieldsIn(value, "") };
  const form = text.replaceAll(/\s*\n\s*&?/g, "&");
  if (value !== undefined || !/^[^=&{}<>\s]+=/.test(form)) return null;
  const fields = [...new Map(new URLSearchParams(form))].map(([place, found]) => ({ place, value: found }));
  return { body: "form", text: form, fields };
}

/** The example with some of its values replaced. Numbers that are replaced become words. */
export function withValues(value: Json, replaced: (field: Field) => string | undefined, place = ""): Json {
  if (typeof value === "string" || typeof value === "number")
    return replaced({ place, value: String(value) }) ?? value;
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map((item, n) => withValues(item, replaced, place + stepOf(n)));
  return Object.fromEntries(
    Object.entries(value).map(([name, item]) => [name, withValues(item, replaced, place + stepOf(name))]),
  );
}

/** Words that say only that a value is a number, as in "from": {"number": …}. */
const GENERAL = /^(?:number|phone|value|address|\d+)$/i;

/** Usual names of the fields of a text. */
const USUAL: Readonly<Record<string, RegExp>> = {
  from: /^(?:from|sender|source|originator|by$)/i,
  to: /^(?:to$|to[^a-z]|to[A-Z]|destination|recipient|receiver|for$)/,
  text: /^(?:text|message|body|content|words)$/i,
  id: /(?:^id|[_-]id|Id|ID)$/,
  at: /^(?:at$|time|date|when|sent|received)/i,
  status: /status|state|fate/i,
};

function usualName({ place }: Field): string {
  const names = place.split("/");
  const last = names.at(-1) ?? "";
  return GENERAL.test(last) ? (names.findLast((name) => !GENERAL.test(name)) ?? last) : last;
}

/**
 * For each role the chosen place if the example still has it, else the first field whose name says so and that no other
 * role has. A guess shows what is asked for; its reader corrects it with one tap.
 */
export function guessed<Role extends string>(
  example: Example | null,
  roles: readonly Role[],
  before: Readonly<Partial<Record<Role, string>>>,
): Readonly<Partial<Record<Role, string>>> {
  const fields = example?.fields ?? [];
  const picks: Partial<Record<Role, string>> = {};
  for (const role of roles)
    if (fields.some(({ place }) => place === before[role])) picks[role] = before[role];
  for (const role of roles) {
    if (picks[role] !== undefined) continue;
    const taken = Object.values(picks);
    const found = fields.find((field) => !taken.includes(field.place) && USUAL[role]?.test(usualName(field)));
    if (found !== undefined) picks[role] = found.place;
  }
  return picks;
}
