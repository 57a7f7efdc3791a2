/**
 * What the customer said and the stall has not heard yet: kept in the browser, so that neither a dead
 * network nor a reload loses it, and sent again with the same id, so that it is heard once.
 */
import type { TextsKept } from "../kit/texts-kept.ts";

export type Unsent = { readonly id: string; readonly text: string };

export type Outbox = {
  readonly all: () => readonly Unsent[];
  readonly add: (unsent: Unsent) => void;
  readonly remove: (id: string) => void;
};

type Store = Pick<TextsKept, "getItem" | "setItem" | "removeItem">;

const isUnsent = (value: unknown): value is Unsent =>
  typeof value === "object" &&
  value !== null &&
  "id" in value &&
  "text" in value &&
  typeof value.id === "string" &&
  typeof value.text === "string";

function kept(store: Store, name: string): readonly Unsent[] {
  try {
    const rows: unknown = JSON.parse(store.getItem(name) ?? "[]");
    return Array.isArray(rows) ? rows.filter(isUnsent) : [];
  } catch {
    return [];
  }
}

/** The outbox of one stall, in this browser. */
export function outboxIn(store: Store, place: string): Outbox {
  const name = `unsent ${place}`;
  let rows = kept(store, name);
  const keep = (now: readonly Unsent[]): void => {
    rows = now;
    if (rows.length === 0) store.removeItem(name);
    else store.setItem(name, JSON.stringify(rows));
  };
  return {
    all: () => rows,
    add: (unsent) => keep([...rows, unsent]),
    remove: (id) => keep(rows.filter((row) => row.id !== id)),
  };
}
