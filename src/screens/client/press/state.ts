/**
 * All that the press page knows: what the stall last said, the taps it has not answered yet, and what is being typed or
 * counted down. Each poll, tap, answer and loss of signal is one change of it. Pure.
 */
import type { Menu } from "../../../model/menu/catalogue.ts";
import type { JobView, QueueView } from "../../../model/orders/queue.ts";
import { type Looks, NO_LOOKS } from "../garment/garments.ts";
import type { Act, Unsent } from "./acts.ts";
import type { Dwell } from "./bench/dwell.ts";
import { withTaps } from "./floor.ts";
import { type BenchState, filledBench, isHot } from "./shown.ts";
import { type Counting, NOT_COUNTING } from "./side/counting.ts";
import type { Signal } from "./side/reserve.ts";
import type { Made, SpoilQuestion } from "./spoil.ts";

export type Press = QueueView["presses"][number];

/** What the last tap at a press came to, and the way back from it for as long as that is of use. */
type Last = {
  readonly text: string;
  /** The garment that could still be taken back or turn out spoiled. */
  readonly pressed: string | null;
  /** What that garment is, if this page saw it. */
  readonly made: Made | null;
  /** What takes any other tap back. */
  readonly back: Unsent | null;
  /** Until then it can be undone, by this tablet's clock in milliseconds. */
  readonly until: number;
};

export const TABS = [
  ["stock", "Stock"],
  ["presses", "Presses"],
  ["shift", "Shift"],
] as const;
export type Tab = (typeof TABS)[number][0];

export type State = {
  /** The tablet's link is for a press: what concerns the whole stall is not offered. */
  readonly pressOnly: boolean;
  /** The stall's own view. */
  readonly seen: QueueView | null;
  readonly menu: Menu | null;
  readonly looks: Looks;
  /** What was tapped and is not in the stall's view yet, in order. */
  readonly acts: readonly Act[];
  /** Nothing else may be tapped for a moment. */
  readonly busy: boolean;
  readonly signal: Signal;
  /** The presses of this tablet, at most two. */
  readonly standing: readonly string[];
  /** The garment that the operator wants next, by press. */
  readonly chosen: ReadonlyMap<string, string>;
  /** Each press's last temperature, if this tablet knows it. */
  readonly heat: ReadonlyMap<string, number>;
  /** By this tablet's clock and by the stall's, in milliseconds since 1970. */
  readonly now: number;
  readonly stallNow: number;
  readonly last: ReadonlyMap<string, Last>;
  readonly dwells: ReadonlyMap<string, Dwell>;
  readonly tab: Tab;
  readonly spoil: SpoilQuestion | null;
  readonly pausing: boolean;
  readonly counting: Counting;
};

export const firstState = (standing: readonly string[], pressOnly = false): State => ({
  pressOnly,
  seen: null,
  menu: null,
  looks: NO_LOOKS,
  acts: [],
  busy: false,
  signal: "there",
  standing,
  chosen: new Map(),
  heat: new Map(),
  now: 0,
  stallNow: 0,
  last: new Map(),
  dwells: new Map(),
  tab: "stock",
  spoil: null,
  pausing: false,
  counting: NOT_COUNTING,
});

/** The floor with every tap on it. */
export const floorOf = ({ seen, acts }: State): QueueView | null =>
  seen === null ? null : withTaps(seen, acts);

export const pressIn = (queue: QueueView | null, press: string): Press | null =>
  queue?.presses.find((one) => one.press === press) ?? null;

/** The reserved garment that was chosen to come next to a press, if it is still there. */
export const choiceAt = ({ chosen }: State, { press, reserve }: Press): JobView | null =>
  reserve.find(({ job }) => job === chosen.get(press)) ?? null;

export const withKey = <T>(map: ReadonlyMap<string, T>, key: string, value: T): ReadonlyMap<string, T> =>
  new Map([...map, [key, value]]);
export const withoutKey = <T>(map: ReadonlyMap<string, T>, key: string): ReadonlyMap<string, T> =>
  new Map([...map].filter(([other]) => other !== key));

/** The press that a tap was made at; the first one for what concerns the whole stall. */
const pressOf = ({ standing }: State, act: Act): string => {
  const press = "press" in act ? act.press : undefined;
  return press !== undefined && standing.includes(press) ? press : (standing[0] ?? "");
};

/** How long the last tap can be undone: the text that says "ready" waits as long, unless the stall's rules say otherwise. */
const UNDO_MS = 10_000;

/** Says what a tap came to. */
export function said(
  state: State,
  act: Act,
  text: string | null,
  { pressed = null, back = null }: { readonly pressed?: string | null; readonly back?: Unsent | null } = {},
): State {
  // A pull leaves the way back open: a wrong tap is often seen only when the next garment lies there.
  if (text === null) return state;
  const press = pressOf(state, act);
  const before = state.last.get(press);
  const made = act.type === "pressed" ? (act.made ?? null) : null;
  const isMore = act.type === "pull" && before !== undefined && before.until > state.now;
  const last = isMore
    ? { ...before, text: `${before.text} ${text}` }
    : { text, pressed, made, back, until: pressed === null && back === null ? 0 : state.now + UNDO_MS };
  return { ...state, last: withKey(state.last, press, last) };
}

/** The last tap at a press cannot be undone any more: it just was. */
export function undone(state: State, press: string): State {
  const last = state.last.get(press);
  return last === undefined ? state : { ...state, last: withKey(state.last, press, { ...last, until: 0 }) };
}

/** The dwell of the garment on a press; null before the first count. */
export function dwellAt({ dwells }: State, { press, job }: Press): Dwell | null {
  const dwell = dwells.get(press);
  return dwell !== undefined && dwell.job === job?.job ? dwell : null;
}

/** What could be done next at a press. */
function benchState(state: State, press: Press): BenchState {
  const { job, downSince } = press;
  if (job === null) return downSince === null ? "pulls" : "waits";
  const dwell = dwellAt(state, press);
  if (dwell !== null && dwell.endsAt === null && dwell.done > 0) return "opens";
  return dwell?.endsAt != null || !isHot(job, state.stallNow) ? "waits" : "presses";
}

/** The press whose main button is filled, or null. */
export function filledPress(state: State, own: readonly Press[]): string | null {
  const at = filledBench(own.map((press) => benchState(state, press)));
  return at === null ? null : (own[at]?.press ?? null);
}
