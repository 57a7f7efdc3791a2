/** A web hook by its example: which field is which. Made from a mapping's places, and made into them. */
import type { InboundMapping } from "../../../model/fair/gateway.ts";
import { valueAt } from "../../../texting/pointer.ts";
import { type Example, readExample } from "./example.ts";

type Picks<Role extends string> = Readonly<Partial<Record<Role, string>>>;

export type Heard<Role extends string> = {
  /** The example as it was pasted. */
  readonly sample: string;
  /** Where in the example each role is. */
  readonly picks: Picks<Role>;
};

const LIST_STEP = /^(?:0|[1-9][0-9]*)$/;

/** The outermost list that a place is in, by its own place; null if it is in none. */
function listAround(example: Example, place: string): string | null {
  if (example.body === "form") return null;
  let at = "";
  for (const step of place.split("/").slice(1)) {
    if (LIST_STEP.test(step) && Array.isArray(valueAt(example.value, at))) return at;
    at += `/${step}`;
  }
  return null;
}

/** The innermost object that all places are in. */
function around(places: readonly string[]): string {
  const [first = [], ...others] = places.map((place) => place.split("/").slice(0, -1));
  const differs = first.findIndex((step, n) => others.some((other) => other[n] !== step));
  return (differs < 0 ? first : first.slice(0, differs)).join("/");
}

type Within<Role extends string> = { readonly messages: string; readonly places: Picks<Role> };

/** Where the message or the list of messages is, and every pick from there; null if some are outside of the list. */
export function placesWithin<Role extends string>(example: Example, picks: Picks<Role>): Within<Role> | null {
  const chosen = Object.entries<string | undefined>(picks).filter(
    (pick): pick is [string, string] => pick[1] !== undefined,
  );
  if (example.body === "form") return { messages: "", places: picks };
  const inBody = chosen.filter(([, place]) => place.startsWith("/"));
  const lists = new Set(inBody.map(([, place]) => listAround(example, place)));
  if (lists.size > 1) return null;
  const [list = null] = lists;
  const messages = list ?? around(inBody.map(([, place]) => place));
  const rest = (place: string): string => {
    if (!place.startsWith("/")) return place;
    const after = place.slice(messages.length);
    return list === null ? after : after.replace(/^\/[0-9]+/, "");
  };
  const places = Object.fromEntries(chosen.map(([role, place]) => [role, rest(place)]));
  return { messages, places: places as Picks<Role> }; // the same roles
}

type Body = Pick<InboundMapping, "body" | "messages"> & { readonly sample: unknown };

/** A saved mapping's example, with each role's place in it. */
export function heardOf<Role extends string>(
  { body, messages, sample }: Body,
  places: Readonly<Partial<Record<Role, string | undefined>>>,
): Heard<Role> {
  const text = typeof sample === "string" ? sample : JSON.stringify(sample, null, 2);
  const isList = body === "json" && Array.isArray(valueAt(sample, messages));
  const picks = Object.entries<string | undefined>(places).flatMap(([role, place]) => {
    if (place === undefined) return [];
    return [
      [role, body === "json" && place.startsWith("/") ? `${messages}${isList ? "/0" : ""}${place}` : place],
    ];
  });
  return { sample: text, picks: Object.fromEntries(picks) as Picks<Role> }; // the same roles
}

/** The example as a mapping keeps it; null if it cannot be read. */
export function exampleOf(heard: Heard<string>) {
  const example = readExample(heard.sample);
  if (example === null) return null;
  const { body } = example;
  return { example, body, sample: example.body === "json" ? example.value : example.text } as const;
}
