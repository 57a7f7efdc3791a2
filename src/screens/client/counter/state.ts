/**
 * All that the counter's page knows: what the stall last said, the taps it has not answered yet, and what is being typed.
 * Each poll, tap, answer and loss of signal is one change of it. Pure; shown.ts says what is seen of it.
 */
import type { DrawerView } from "../../../model/accounts/drawer.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { OpenOrder } from "../../../model/orders/open-orders.ts";
import type { CrewOrderView } from "../../../model/orders/order.ts";
import type { QueueView } from "../../../model/orders/queue.ts";
import type { StockView } from "../../../model/orders/stock.ts";
import type { KeptTaps } from "../crew/taps.ts";
import { NO_TAPS } from "../crew/taps.ts";
import type { Act, Ending } from "./acts.ts";
import type { List } from "./open/lists.ts";
import { type Choice, NO_CHOICE } from "./take/pad.ts";
import { EMPTY_SLIP, nextSlip, type Slip } from "./take/slip.ts";

/** All that the page shows of the stall besides the order on the counter. */
export type Seen = {
  readonly queue: QueueView;
  readonly menu: MenuView;
  readonly whole: Menu;
  /** Absent in what an earlier version of the page kept. */
  readonly stock?: StockView | null;
};

type Taps = {
  /** What was tapped and is not in the stall's view yet, in order. */
  readonly acts: readonly Act[];
  readonly book: KeptTaps<Act>;
  /** Nothing else may be tapped for a moment. */
  readonly busy: boolean;
  readonly lost: boolean;
};

/** A garment that is being changed, and the choice that was made for it so far. */
export type Editing = { readonly job: string; readonly choice: Choice };

export type View = "take" | "desk";

export type State = {
  /** As the stall had them when it was last looked at. */
  readonly seen: Seen | null;
  readonly orders: readonly OpenOrder[];
  /** How many older orders the stall's list leaves out. */
  readonly more: number;
  readonly taps: Taps;
  /** By the stall's clock, in milliseconds since 1970; null before it was heard. */
  readonly now: number | null;
  readonly view: View;
  readonly choice: Choice;
  readonly padMissing: string;
  readonly slip: Slip;
  readonly taker: string;
  readonly find: string;
  readonly findSaid: string;
  readonly list: List;
  /** The rows in their places, those of orders that have left the list too, and the last that was known of each. */
  readonly rows: readonly OpenOrder[];
  /** The drawer as the stall last had it; null if it was never opened, undefined before it was asked for. */
  readonly drawer: DrawerView | null | undefined;
  /** The order on the counter, as the stall last had it. */
  readonly order: CrewOrderView | null;
  /** Where it was opened: the next customer begins there. */
  readonly from: View;
  readonly given: string;
  readonly tip: string;
  /** What to give back of the cash that was just taken for it. */
  readonly change: string;
  /** Its customer said another word. */
  readonly wrongWord: boolean;
  /** The whole telephone number, once asked for. */
  readonly phone: string | null;
  /** The garment of it that is to become another one, and what it is to be. */
  readonly editing: Editing | null;
  /** A garment of the rack that is asked about once more before it is taken off. */
  readonly takingOff: string | null;
  /** Asked once more before it ends that way. */
  readonly ending: Exclude<Ending, "collected"> | null;
};

/** What is known of the order on the counter before anything was done with it. */
const UNTOUCHED = {
  given: "",
  tip: "",
  change: "",
  wrongWord: false,
  phone: null,
  editing: null,
  takingOff: null,
  ending: null,
} as const;

export const firstState = (taker: string): State => ({
  seen: null,
  orders: [],
  more: 0,
  taps: { acts: [], book: NO_TAPS, busy: false, lost: false },
  now: null,
  view: "take",
  choice: NO_CHOICE,
  padMissing: "",
  slip: EMPTY_SLIP,
  taker,
  find: "",
  findSaid: "",
  list: "to-fetch",
  rows: [],
  drawer: undefined,
  order: null,
  from: "take",
  ...UNTOUCHED,
});

/** Takes the rows of orders that have left out: only when somebody turns to another list, so that nothing moves under a thumb. */
const anew = (state: State): State => ({ ...state, rows: [] });

export const turnedTo = (state: State, view: View): State =>
  view === "take" ? { ...state, view } : anew({ ...state, view, order: null, ...UNTOUCHED });

export const listing = (state: State, list: List): State =>
  anew({ ...state, list, find: "", findSaid: "", order: null, ...UNTOUCHED });

/** What is typed is looked for at once, in the list of orders. */
export const finding = (state: State, find: string): State => {
  if (find.trim() === "") return anew({ ...state, find, findSaid: "" });
  return anew({ ...turnedTo(state, "desk"), find, findSaid: "" });
};

/** An order comes onto the counter. The change to give stays in sight if it was only just taken. */
export const opened = (state: State, order: CrewOrderView, justTaken = false): State => ({
  ...state,
  ...UNTOUCHED,
  order,
  from: justTaken ? "take" : "desk",
  view: "desk",
  find: "",
  findSaid: "",
  ...(justTaken ? { change: state.change } : {}),
});

/** The stall said how an order is now; another one than is on the counter is not shown for that. */
export const heardOf = (state: State, order: CrewOrderView): State =>
  state.order?.number === order.number ? { ...state, order } : state;

/** The order was taken: starts an empty one, and keeps the choice on the pad for the next customer. */
export const slipTaken = (state: State, paper: number | null): State => ({ ...state, slip: nextSlip(paper) });

/** Everything as for somebody who has just come. */
export const nextCustomer = (state: State): State => ({
  ...anew(state),
  ...UNTOUCHED,
  order: null,
  view: state.from,
  choice: NO_CHOICE,
  padMissing: "",
  find: "",
  findSaid: "",
});
