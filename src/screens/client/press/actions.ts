/** The acts of the press page's views. */
import type { Unsent } from "./acts.ts";
import type { State } from "./state.ts";

export type Actions = {
  /** Changes the page's own state. */
  readonly change: (to: (before: State) => State) => void;
  readonly send: (write: Unsent) => void;
  readonly pull: (press: string) => void;
  /** Pressed; `next`: and the next one is pulled by the same tap. */
  readonly pressed: (press: string, next: boolean) => void;
  readonly giveBack: (press: string, job: string) => void;
  /** Starts the next count of the dwell, or stops the one that runs. */
  readonly dwell: (press: string) => void;
  /** Takes the last tap back. */
  readonly undo: (press: string) => void;
  /** Notes the garment of the question as spoiled. */
  readonly spoil: () => void;
  /** Wants this garment next, or not any more. */
  readonly choose: (press: string, job: string) => void;
  /** Stands at these presses from now on. */
  readonly stand: (presses: readonly string[]) => void;
  readonly setOff: (piece: string, name: string, off: boolean) => void;
  readonly openStock: () => void;
  /** Stores the number typed for a piece. */
  readonly note: (piece: string) => void;
};
