/** The parts of a language file: every sentence the stall says, and every word it understands. */
import type { CrewSentence } from "../../model/orders/crew-sentences.ts";
import type { OrderStage } from "../../model/orders/order.ts";
import type { Say } from "../fitting/fit.ts";

/** One numbered line of a list. */
export type Item = {
  readonly number: number;
  readonly name: string;
  /** Said in place of the name if room is short: only how this choice differs from the others. */
  readonly brief?: string;
  readonly price?: string;
  readonly gone?: boolean;
};

/** The known parts of a garment, in words. */
export type KnownGarment = {
  readonly quantity: number | null;
  readonly offer: string | null;
  readonly colour: string | null;
  readonly size: string | null;
  /** Of one, as the menu has it; from which it starts if the size is not known and some cost more. */
  readonly price?: string;
};

export type OrderFacts = {
  readonly number: number;
  readonly word: string;
  readonly stage: OrderStage;
  readonly place: number;
  readonly minutes: number;
  readonly short: number;
  /** Whether the stall has paused: its minutes count from when it starts again. */
  readonly paused: boolean;
};

/** The price of an order, each sum written out; `tax` is null if there is none. */
export type Bill = {
  readonly net: string;
  readonly tax: string | null;
  readonly total: string;
  /** Whether the prices include the tax; if not, it is added. */
  readonly taxInPrice: boolean;
};

/** A question with its numbered choices; `more` if there is another page. */
type Asking = { readonly known: KnownGarment; readonly items: readonly Item[]; readonly more: boolean };

/** A wish that the counter takes, with its price; null: no price is set. */
export type CounterWish = { readonly name: string; readonly more: string | null };

/** A bundle and its saving. */
export type Saved = { readonly name: string; readonly saving: string };

/** When the stall wants its money. */
export type Paying = "first" | "at-pickup" | "untracked";

export type Sentences = {
  /** The time of day, in place of 12:00 AM. */
  readonly midnight: string;
  /** The lowest price of an offer of which some size costs more. */
  readonly from: (price: string) => string;
  readonly menu: (facts: {
    readonly stall: string;
    readonly items: readonly Item[];
    readonly example: string;
    readonly more: boolean;
    readonly basket: number;
    /** The bundles on sale. */
    readonly bundles?: readonly string[];
    readonly lastOrders?: boolean;
  }) => Say;
  readonly askOffer: (facts: Asking) => Say;
  readonly askColour: (facts: Asking) => Say;
  readonly askSize: (facts: Asking) => Say;
  readonly askQuantity: (facts: { readonly known: KnownGarment; readonly most: number }) => Say;
  readonly askWhich: (facts: Asking) => Say;
  readonly instead: (facts: {
    readonly gone: KnownGarment;
    readonly left: number;
    readonly items: readonly Item[];
  }) => Say;
  readonly doesNotCome: (facts: { readonly offer: string; readonly what: "colour" | "size" }) => Say;
  readonly confirm: (facts: {
    readonly lines: readonly KnownGarment[];
    readonly bill: Bill;
    readonly saved?: readonly Saved[];
    readonly minutes: number;
    /** Words for something off the menu; null if there are none. */
    readonly wish: string | null;
    /** The wish of the counter that those words mean. */
    readonly taken: CounterWish | null;
  }) => Say;
  /** A wish that is not on the menu, said without a garment. */
  readonly wishes: (facts: { readonly wish: string; readonly taken: CounterWish | null }) => Say;
  readonly priceChanged: () => Say;
  readonly placed: (facts: {
    readonly order: OrderFacts;
    readonly bill: Bill;
    readonly saved?: readonly Saved[];
    readonly paying: Paying;
    readonly payMinutes: number;
    /** How long an unclaimed order is kept outside the line. */
    readonly claimMinutes: number;
    /** The stall's payment page; null if it has none. */
    readonly payAt: string | null;
  }) => Say;
  readonly changeWhich: (facts: { readonly items: readonly Item[]; readonly more: boolean }) => Say;
  readonly changeWhat: (facts: { readonly known: KnownGarment; readonly items: readonly Item[] }) => Say;
  /** The order after a change: its garments, its price, and the amount still to pay or give back. */
  readonly orderChanged: (facts: {
    readonly order: OrderFacts;
    readonly lines: readonly KnownGarment[];
    readonly bill: Bill;
    readonly saved?: readonly Saved[];
    readonly due: string | null;
    readonly giveBack: string | null;
    /** Whether garments were added: those are at the end of the line. */
    readonly added: boolean;
  }) => Say;
  readonly cannotChange: (facts: {
    readonly number: number;
    readonly why: "on-press" | "ready" | "all-of-it" | "too-many" | "closed" | "over" | "sorry";
  }) => Say;
  readonly part: (part: "offer" | "colour" | "size" | "quantity" | "all") => string;
  readonly dropWhich: (facts: { readonly items: readonly Item[] }) => Say;
  readonly unconfirmed: () => string;
  readonly cancelNothing: () => string;
  readonly orderItem: (number: number) => string;
  readonly dropped: (facts: { readonly number: number }) => Say;
  readonly basketDropped: () => Say;
  readonly nothingToDrop: () => Say;
  /** A press may have begun it: the answer whether it is dropped comes later. */
  readonly dropAsked: (facts: { readonly number: number }) => Say;
  readonly cannotDrop: (facts: { readonly number: number; readonly stage: OrderStage }) => Say;
  readonly status: (facts: { readonly orders: readonly OrderFacts[] }) => Say;
  readonly ended: (facts: { readonly number: number; readonly stage: OrderStage }) => Say;
  readonly noOrder: () => Say;
  /** The number that wrote gets the texts of an order from now on. */
  readonly numberConfirmed: (facts: { readonly number: number }) => Say;
  /** A number and a word that do not belong together, whatever the reason. */
  readonly codeDoesNotFit: () => Say;
  readonly codeTriedTooOften: () => Say;
  readonly help: (facts: { readonly stall: string; readonly contact: string | null }) => Say;
  readonly chests: (facts: { readonly items: readonly Item[] }) => Say;
  readonly noChests: () => Say;
  readonly optedOut: (facts: {
    readonly stall: string;
    readonly contact: string | null;
    /** Open orders, which are still on. */
    readonly orders: number;
  }) => Say;
  readonly optedIn: (facts: { readonly stall: string }) => Say;
  /** The number and the conversation are erased; open orders stay on without them. */
  readonly erased: (facts: { readonly stall: string; readonly orders: number }) => Say;
  readonly notUnderstood: () => Say;
  readonly notOnTheList: () => Say;
  readonly nothingBack: () => Say;
  readonly welcome: () => Say;
  readonly idle: () => Say;
  readonly closed: (facts: { readonly stall: string; readonly opens: string }) => Say;
  readonly over: (facts: {
    readonly stall: string;
    readonly fair: string;
    readonly contact: string | null;
  }) => Say;
  readonly paused: () => Say;
  readonly fairStopped: (reason: string) => Say;
  readonly lineTooLong: (facts: { readonly closes: string; readonly opens: string | null }) => Say;
  readonly tooMany: (facts: { readonly most: number; readonly of: "line" | "order" | "open-orders" }) => Say;
  readonly allGone: () => Say;
  readonly webOff: () => Say;
  readonly sorry: () => Say;
  readonly ready: (facts: { readonly order: OrderFacts; readonly toPay: string | null }) => Say;
  readonly late: (facts: { readonly order: OrderFacts }) => Say;
  readonly paid: (facts: { readonly order: OrderFacts }) => Say;
  readonly short: (facts: {
    readonly order: OrderFacts;
    /** The garment that is short; null if there are several kinds. */
    readonly what: KnownGarment | null;
    readonly items: readonly Item[];
    /** Whether some of the items are substitutes. */
    readonly instead: boolean;
    readonly paid: boolean;
  }) => Say;
  /** Which of the stalls behind one number is meant. */
  readonly whichStall: (facts: {
    /** With the wait for one garment, if it is known: these are the shortest then. */
    readonly items: readonly (Item & { readonly minutes: number | null })[];
  }) => Say;
  /** The stall has moved and takes nothing here any more. */
  readonly movedTo: (facts: { readonly stall: string; readonly to: string }) => Say;
  readonly keepWaiting: () => string;
  readonly leaveOut: () => string;
  readonly moneyBack: () => string;
  /** The short garments were removed; the order costs `less` less. */
  readonly leftOut: (facts: { readonly number: number; readonly less: string }) => Say;
  /** Another garment replaced the short one; the order goes on. */
  readonly tookInstead: (facts: { readonly order: OrderFacts; readonly taken: KnownGarment }) => Say;
  readonly dropIt: () => string;
  readonly gaveUp: (facts: {
    readonly number: number;
    readonly why: "unpaid" | "unclaimed" | "stock-gone" | "as-asked";
  }) => Say;
  /** The crew's sentence about an order; `closes` is null if the stall is closed or its closing time is unknown. */
  readonly fromCrew: (facts: {
    readonly number: number;
    readonly said: CrewSentence;
    readonly closes: string | null;
  }) => Say;
  readonly closingSoon: (facts: { readonly order: OrderFacts; readonly closes: string }) => Say;
};

/** The commands of one word. */
export type CommandWord =
  | "menu"
  | "back"
  | "status"
  | "help"
  | "sizes"
  | "drop"
  | "stop"
  | "start"
  | "yes"
  | "no"
  | "add"
  | "change"
  | "more"
  | "thanks"
  | "hello"
  /** Speaks of cancelling an order, but did not use the drop word: it is asked which. */
  | "drop-asked";

/** Words are written in small letters without accents; a phrase's words stand apart by single spaces. */
export type Words = {
  readonly commands: Readonly<Record<Exclude<CommandWord, "drop-asked">, readonly string[]>>;
  /** The names of this language, in every language that customers use. */
  readonly names: readonly string[];
  /** Words with no meaning for an order. */
  readonly fillers: readonly string[];
  /** Words that only somebody writing this language uses. */
  readonly marks: readonly string[];
  readonly numbers: Readonly<Record<string, number>>;
  /** Words and phrases for sizes, by the letters a label would bear. */
  readonly sizes: Readonly<Record<string, readonly string[]>>;
  readonly oneSize: readonly string[];
  readonly child: readonly string[];
  readonly adult: readonly string[];
  /** Words around an opt-out word that do not change its meaning. */
  readonly aroundStop: readonly string[];
  readonly orderWords: readonly string[];
  /** Phrases for something off the menu: "on the back", "with my name". */
  readonly wishes: readonly string[];
  /** Speaks of cancelling, which is not the drop word. */
  readonly giveUp: readonly string[];
  /** Beside a word for an order: they do not want it any more. */
  readonly notWanted: readonly string[];
  /** Asks for a place, which may be any place at all. */
  readonly wherever: readonly string[];
  /** Mark the customer's own order: "where is my …". */
  readonly mine: readonly string[];
  /** Before a number: a quantity. */
  readonly amount: readonly string[];
  /** Before a name: not that one. */
  readonly negations: readonly string[];
  /** The whole of a text that has its number and its conversation erased. */
  readonly erasing: readonly string[];
  /** Asks to take something off the order. */
  readonly removals: readonly string[];
  /** Begin a text that changes an order, beside the commands for it. */
  readonly changing: readonly string[];
  /** Begin a text that adds to an order. */
  readonly adding: readonly string[];
  /** Lead to what something is to become, or to an order: "to XL", "to 108". */
  readonly into: readonly string[];
  /** Lead to the order that something is taken off. */
  readonly outOf: readonly string[];
  readonly joiners: readonly string[];
  /** Words before a size: "size 8". */
  readonly sizeWords: readonly string[];
  readonly colourWords: readonly string[];
  /** Words with the same meaning, the menu's likeliest word first. */
  readonly alike: readonly (readonly string[])[];
};

export type Wording = { readonly sentences: Sentences; readonly words: Words };
