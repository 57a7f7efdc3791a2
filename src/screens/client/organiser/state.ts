/** The organiser's page: what is asked for, what the fair last answered, and how it is looked at. */
import type { Throughput } from "../../../model/fair/throughput.ts";
import type { When } from "./asking.ts";
import { COLUMNS, type Column, type Order } from "./columns.ts";
import type { Moment } from "./signs.ts";

/** So many rows are drawn at once; where there are more, the rest follows when these are on the screen. */
export const AT_ONCE = 50;

export type State = {
  readonly when: When;
  /** The stall whose quarters are shown; null: all stalls together. */
  readonly chosen: string | null;
  readonly pace: Throughput;
  /** What the answer is an answer to. */
  readonly answered: Pick<State, "when" | "chosen">;
  readonly moment: Moment;
  readonly order: Order | null;
  /** Every column, and not only those that an organiser acts on. */
  readonly every: boolean;
  /** How many rows are drawn. */
  readonly most: number;
};

/** At first with the stall that most needs a look on top. */
const bySign = COLUMNS.find(({ id }) => id === "sign");

export const firstState = (asked: State["answered"], pace: Throughput, moment: Moment): State => ({
  ...asked,
  pace,
  answered: asked,
  moment,
  order: bySign === undefined ? null : { column: bySign, descending: bySign.greatestFirst },
  every: false,
  most: AT_ONCE,
});

/** Sorts by a column; once more, the other way round. */
export const sortedBy = (state: State, column: Column): State => ({
  ...state,
  order: {
    column,
    descending: state.order?.column === column ? !state.order.descending : column.greatestFirst,
  },
});

export type Ways = {
  readonly change: (to: (before: State) => State) => void;
  /** Asks for another stretch, or for one stall's quarters. */
  readonly ask: (what: Partial<State["answered"]>) => void;
  readonly sheet: (per: "stall" | "quarter") => void;
};
