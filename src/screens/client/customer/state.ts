/** The customer's page as one value: the stall's last answer, unsent messages, and the text being typed. Pure. */
import type { ChatHistory, ChatMessage, ChatReply, Shown } from "../../../model/orders/chat.ts";
import type { OrderStanding } from "../../../model/orders/order.ts";
import { type Looks, NO_LOOKS } from "../garment/garments.ts";
import type { Unsent } from "./outbox.ts";

export type Line = {
  readonly id: string;
  readonly from: "customer" | "stall";
  readonly text: string;
  /** Whether it answers the customer; the stall also writes unasked. */
  readonly isAnswer: boolean;
};

/** A fault, for the page to word. */
export type Trouble =
  | { readonly why: "no-reply" | "started-again" | "unreachable" }
  | { readonly why: "refused"; readonly problem: string | null; readonly detail: string };

export type State = {
  readonly stall: string;
  readonly lines: readonly Line[];
  /** The sequence of the last line of the history. */
  readonly last: number;
  /** Whether earlier messages are shown, so that new ones come after them. */
  readonly isCaughtUp: boolean;
  /** Said and not heard by the stall yet, in order. */
  readonly unsent: readonly Unsent[];
  /** Whether the last attempt to send the first of them failed. */
  readonly isCutOff: boolean;
  /** The garments that the open list and the basket can be drawn with. */
  readonly shows: Shown | undefined;
  readonly order: OrderStanding | undefined;
  readonly trouble: Trouble | null;
  /** Whether asking for news failed: the next news ends that trouble. */
  readonly isNewsless: boolean;
  readonly typed: string;
  /** Whether the page asks if the customer really wants to cancel. */
  readonly isCancelling: boolean;
  /** The looks of the offers; null until the stall has answered. */
  readonly looks: Looks | null;
};

/** A first message carries at least 128 random bits: 22 characters of 6 bits. */
export const ID_LENGTH = 22;
/** As many lines are kept. */
const KEPT = 200;

export const firstState = (stall: string, unsent: readonly Unsent[]): State => ({
  stall,
  lines: [],
  last: 0,
  isCaughtUp: false,
  unsent,
  isCutOff: false,
  shows: undefined,
  order: undefined,
  trouble: null,
  isNewsless: false,
  typed: "",
  isCancelling: false,
  looks: null,
});

/** A line that comes twice, with its reply and with the history, is one line. */
function withLines(before: readonly Line[], more: readonly Line[]): readonly Line[] {
  const ids = new Set(before.map(({ id }) => id));
  const fresh = more.filter(({ id }) => !ids.has(id) && ids.add(id));
  return fresh.length === 0 ? before : [...before, ...fresh].slice(-KEPT);
}

/** The stall's name and how its offers look. */
export const named = (state: State, stall: string, looks: Looks): State => ({ ...state, stall, looks });

/** The stall did not say how its offers look: they are shown in words. */
export const unpictured = (state: State): State => ({ ...state, looks: state.looks ?? NO_LOOKS });

export const typing = (state: State, typed: string): State => ({ ...state, typed });

/** Adds a message; it is sent after the unsent ones. */
export const saying = (state: State, one: Unsent): State => ({
  ...state,
  unsent: [...state.unsent, one],
  trouble: null,
  isCancelling: false,
});

export const cancelling = (state: State, isCancelling: boolean): State => ({ ...state, isCancelling });

const sent = (state: State, id: string): State => ({
  ...state,
  unsent: state.unsent.filter((one) => one.id !== id),
  isCutOff: false,
});

/** The stall heard a message and answers it. */
export function heard(state: State, { id, text }: Unsent, { replies, order, shows }: ChatReply): State {
  const turn: readonly Line[] = [
    { id, from: "customer", text, isAnswer: false },
    ...replies.map((reply): Line => ({ ...reply, from: "stall", isAnswer: true })),
  ];
  return {
    ...sent(state, id),
    lines: withLines(state.lines, turn),
    order,
    shows,
    trouble: replies.length === 0 ? { why: "no-reply" } : null,
  };
}

/** There is no signal, or the stall is too busy: unsent messages wait. */
export const cutOff = (state: State): State => ({ ...state, isCutOff: state.unsent.length > 0 });

/** The stall refuses a message; sending it again would change nothing. */
export const refused = (state: State, { id }: Unsent, trouble: Trouble): State => ({
  ...sent(state, id),
  trouble,
});

/** The stall no longer knows this customer, who starts again as a new one. */
export const forgotten = (state: State): State => ({
  ...state,
  last: 0,
  trouble: { why: "started-again" },
  isNewsless: false,
});

function linesIn(messages: readonly ChatMessage[]): readonly Line[] {
  const asked = new Set(messages.filter(({ from }) => from === "customer").map(({ sequence }) => sequence));
  return messages.map(({ id, from, text, sequence }) => ({ id, from, text, isAnswer: asked.has(sequence) }));
}

/** Adds the new part of the history. A message being sent now gets its reply itself. */
export function news(state: State, { messages, last, order, shows }: ChatHistory): State {
  const under = new Set(state.unsent.map(({ id }) => id));
  const more = linesIn(messages.filter(({ id }) => !under.has(id.slice(0, ID_LENGTH))));
  return {
    ...state,
    lines: withLines(state.lines, more),
    last,
    isCaughtUp: true,
    order,
    shows,
    trouble: state.isNewsless ? null : state.trouble,
    isNewsless: false,
  };
}

/** Asking for news went wrong. */
export const noNews = (state: State, trouble: Trouble): State => ({ ...state, trouble, isNewsless: true });
