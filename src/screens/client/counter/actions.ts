/** What the counter's views can have done. */
import type { PayOutReason } from "../../../model/accounts/drawer.ts";
import type { CrewSentence } from "../../../model/orders/crew-sentences.ts";
import type { Write } from "../crew/taps.ts";
import type { Act } from "./acts.ts";
import type { Paying } from "./cash.ts";
import type { State } from "./state.ts";

/** What is done with the drawer; amounts in minor units. */
export type DrawerAct =
  | { readonly type: "float-set"; readonly amount: number }
  | { readonly type: "paid-out"; readonly amount: number; readonly reason: PayOutReason }
  | { readonly type: "drawer-counted"; readonly counted: number; readonly handOver: boolean };

export type Actions = {
  /** The address of this stall's press page. */
  readonly pressPage: string;
  /** Changes what the page knows by itself. */
  readonly change: (to: (before: State) => State) => void;
  readonly send: (write: Write<Act>) => void;
  /** Takes what is on the slip; `given` is the cash handed over, if that is known. */
  readonly take: (how: Paying | null, given: number | null) => void;
  readonly pay: (number: number, how: Paying, given: number | null) => void;
  readonly open: (number: number) => void;
  /** Opens the one order that fits what is typed. */
  readonly find: () => void;
  readonly turnTo: (view: State["view"]) => void;
  readonly next: () => void;
  readonly reveal: (number: number) => void;
  /** Texts one of the crew's sentences, now or not at all: later it would not be true any more. */
  readonly text: (number: number, say: CrewSentence) => void;
  /** Asks for the drawer, or does something with it first. */
  readonly drawer: (act: DrawerAct | null) => void;
  readonly confirmationsSeen: () => void;
  /** Lets web orders in without limit for an hour, or limits them again. */
  readonly lift: (minutes: number | null) => void;
};
