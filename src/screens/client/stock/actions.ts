/** The acts of the count page's views. */
import type { Way } from "./tables.ts";

export type Actions = {
  readonly type: (cells: ReadonlyMap<string, string>) => void;
  readonly setWay: (way: Way) => void;
  readonly save: () => void;
  readonly discard: () => void;
  /** Copies a table to the clipboard, if the browser allows it. */
  readonly copy: (text: string) => void;
  readonly say: (text: string | null) => void;
};
