/** The organiser's page: its query, the fair's last answer, and the view of it. */
import type { StallContact } from "../../../model/fair/contacts.ts";
import type { Throughput } from "../../../model/fair/throughput.ts";
import type { When } from "./asking.ts";
import type { Beside } from "./beside/keeping.ts";
import type { YearActions } from "./beside/years-view.tsx";
import { COLUMNS, type Column, type Order } from "./columns.ts";
import type { Moment } from "./signs.ts";

/** This many rows are drawn at once; the others follow once these are on the screen. */
export const AT_ONCE = 50;

export type State = {
  readonly when: When;
  /** The stall whose quarters are shown; null: all stalls together. */
  readonly chosen: string | null;
  readonly pace: Throughput;
  /** The query that the answer is for. */
  readonly answered: Pick<State, "when" | "chosen">;
  readonly moment: Moment;
  readonly order: Order | null;
  /** Every column, and not only those that an organiser acts on. */
  readonly every: boolean;
  /** The number of rows drawn. */
  readonly most: number;
  /** Contacts of the stalls, and an earlier fair to compare with. */
  readonly beside: Beside;
};

/** At first with the stall that most needs a look on top. */
const bySign = COLUMNS.find(({ id }) => id === "sign");

export const firstState = (
  asked: State["answered"],
  pace: Throughput,
  moment: Moment,
  beside: Beside,
): State => ({
  beside,
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

export type Actions = {
  readonly change: (to: (before: State) => State) => void;
  /** Asks for another stretch, or for one stall's quarters. */
  readonly ask: (what: Partial<State["answered"]>) => void;
  readonly sheet: (per: "stall" | "quarter") => void;
  readonly keepContact: (stall: string, contact: StallContact | null) => void;
  readonly years: YearActions;
};
