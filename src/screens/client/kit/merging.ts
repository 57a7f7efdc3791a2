/** Two people's edits of one menu, brought together: what does not collide is kept of both. */
import { isRecord, type Json, type Requested } from "./json-pointer.ts";

export type Collision = {
  /** Where, in the merged menu (RFC 6901). */
  readonly pointer: string;
  readonly mine: Json | undefined;
  readonly theirs: Json | undefined;
};
export type Merged = { readonly menu: Json; readonly collisions: readonly Collision[] };

/** An entry of a list that is identified by its id. */
export type Named = Requested & { readonly id: string };

export const same = (one: Json | undefined, other: Json | undefined): boolean =>
  stable(one) === stable(other);

/** A text that is equal for equal values, whatever the order of their fields. */
function stable(value: Json | undefined): string {
  return JSON.stringify(value, (_, inner: Json) => (isRecord(inner) ? sorted(inner) : inner)) ?? "";
}

const sorted = (record: Requested): Requested =>
  Object.fromEntries(Object.entries(record).sort(([one], [other]) => (one < other ? -1 : 1)));

/** Whether a value is a list whose entries all have ids. */
export const isNamedList = (value: Json | undefined): value is readonly Named[] =>
  Array.isArray(value) && value.every((entry) => isRecord(entry) && typeof entry["id"] === "string");

/**
 * Merges two edits of `base`. A place that only one of them changed has that change. If both changed it differently,
 * mine wins and the collision is reported. An entry that one removed and the other changed is kept: a merge never loses
 * an option.
 */
export function merge(base: Json, mine: Json, theirs: Json): Merged {
  const collisions: Collision[] = [];
  const menu = mergedAt("#", base, mine, theirs, collisions) ?? null;
  return { menu, collisions };
}

type Told = Collision[];

function mergedAt(
  at: string,
  base: Json | undefined,
  mine: Json | undefined,
  theirs: Json | undefined,
  told: Told,
): Json | undefined {
  if (same(mine, theirs) || same(base, theirs)) return mine;
  if (same(base, mine)) return theirs;
  if (isNamedList(mine) && isNamedList(theirs))
    return mergedLists(at, isNamedList(base) ? base : [], mine, theirs, told);
  if (isRecord(mine) && isRecord(theirs))
    return mergedRecords(at, isRecord(base) ? base : {}, mine, theirs, told);
  told.push({ pointer: at, mine, theirs });
  return mine ?? theirs;
}

function mergedRecords(at: string, base: Requested, mine: Requested, theirs: Requested, told: Told): Json {
  const names = [...new Set([...Object.keys(theirs), ...Object.keys(mine)])];
  const entries = names.flatMap((name): [string, Json][] => {
    const value = mergedAt(`${at}/${name}`, base[name], mine[name], theirs[name], told);
    return value === undefined ? [] : [[name, value]];
  });
  return Object.fromEntries(entries);
}

const byId = (list: readonly Named[], id: string): Named | undefined => list.find((entry) => entry.id === id);

/** The entries in the order they have in theirs, which is saved already; what only mine has follows. */
function mergedLists(
  at: string,
  base: readonly Named[],
  mine: readonly Named[],
  theirs: readonly Named[],
  told: Told,
): Json {
  const ids = [...new Set([...theirs, ...mine].map(({ id }) => id))];
  const list: Json[] = [];
  for (const id of ids) {
    const value = mergedAt(`${at}/${list.length}`, byId(base, id), byId(mine, id), byId(theirs, id), told);
    if (value !== undefined) list.push(value);
  }
  return list;
}
