/** The acts of a person on the planning page. */
import type { Json } from "../kit/json-pointer.ts";
import type { Day } from "./day/first.ts";
import type { KeptPlan } from "./day/keeping.ts";
import type { Part } from "./messages.ts";

export type Actions = {
  readonly change: (part: keyof Day, pointer: string, value: Json | undefined) => void;
  /** Works a part out now. */
  readonly work: (part: Part) => void;
  readonly stop: () => void;
  readonly open: (id: string) => void;
  readonly add: (day: Day, says: string) => void;
  readonly remove: (id: string) => void;
  readonly plans: () => readonly KeptPlan[];
};
