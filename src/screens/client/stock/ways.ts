/** What the count page's views can have done. */
import type { Way } from "./tables.ts";

export type Ways = {
  readonly type: (cells: ReadonlyMap<string, string>) => void;
  readonly setWay: (way: Way) => void;
  readonly save: () => void;
  readonly discard: () => void;
  /** Puts a table on the clipboard, where the browser may. */
  readonly copy: (text: string) => void;
  readonly say: (text: string | null) => void;
};
