/** The needs of a set-up view: the state, what is shown of it, and the effect of a tap. */
import { type Json, valueAt } from "../kit/json-pointer.ts";
import type { Link } from "./copying.ts";
import type { Shown } from "./shown.ts";
import type { State } from "./state.ts";

export type Actions = {
  readonly change: (to: (before: State) => State) => void;
  readonly save: () => void;
  readonly discard: () => void;
  /** Copies the menu of another stall; null: the typed text is not a crew link. */
  readonly copy: (from: Link | null) => void;
  /** Sends a design's picture; null takes it away. */
  readonly picture: (design: string, file: Blob | null) => void;
  /** Says a text to the conversation that is tried; null begins the sample order again. */
  readonly text: (words: string | null) => void;
  /** Addresses of the pages that fill a menu too. */
  readonly pages: { readonly plan: string; readonly closeout: string };
};

export type FormContext = { readonly state: State; readonly shown: Shown; readonly actions: Actions };

export const at = ({ state }: FormContext, pointer: string): Json | undefined =>
  valueAt(state.draft.menu, pointer);
export const wordsAt = (desk: FormContext, pointer: string): string => String(at(desk, pointer) ?? "");
