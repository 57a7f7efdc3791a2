/** The stall as it was last seen, kept on this tablet: a page that opens without signal shows it, with its age. */
import { kept } from "../kit/kept.ts";

export type Seen<T> = {
  readonly view: T;
  /** When the stall was last heard, by this tablet's clock in milliseconds. */
  readonly at: number;
};

/** A flat battery may cost this much of its age. */
const EVERY = 10_000;

export function lastLook<T>(name: string) {
  const store = kept<Seen<T> | null>(name, null);
  let written: Seen<T> | null = null;
  return {
    read: (): Promise<Seen<T> | null> => store.read(),
    /** To be called at each answer, with the view as it is then. */
    keep: (view: T): void => {
      const at = Date.now();
      if (written !== null && written.view === view && Math.abs(at - written.at) < EVERY) return;
      const now = { view, at };
      written = now;
      void store.change(() => now);
    },
  };
}
