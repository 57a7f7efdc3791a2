/**
 * The customer's unsent messages, kept in the browser. So neither a dead network nor a reload loses one, and a repeat
 * with the same id counts once.
 */
import type { TextsKept } from "../kit/texts-kept.ts";

export type Unsent = { readonly id: string; readonly text: string };

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

export type Outbox = {
  /** Messages left from an earlier visit. */
  readonly before: readonly Unsent[];
  readonly keep: (unsent: readonly Unsent[]) => void;
};

/** The outbox of one stall, in this browser. */
export function outboxIn(store: Store, place: string): Outbox {
  const name = `unsent ${place}`;
  const before = kept(store, name);
  let now = before;
  return {
    before,
    keep(unsent) {
      if (unsent === now) return;
      now = unsent;
      if (unsent.length === 0) store.removeItem(name);
      else store.setItem(name, JSON.stringify(unsent));
    },
  };
}
