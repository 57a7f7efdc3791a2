/**
 * Earlier shapes of rows and events, translated whenever they are read. Until shape 4 an undo had a name of its own;
 * until shape 3 a press's reserve was called aside; until shape 2 the name of who took a payment was in the order and
 * in the journal.
 */
import type { JournalEntry, StallEvent } from "../state/shapes/event.ts";
import type { Job } from "../state/shapes/job.ts";
import type { Order } from "../state/shapes/order.ts";
import type { PressState } from "../state/state.ts";

/** The undo of an act by its earlier name. */
const UNDO = {
  unpressed: "undo-pressed",
  unspoiled: "undo-spoiled",
  unpaid: "undo-paid",
  reopened: "undo-closed",
} as const;

type Garment = { readonly number: number; readonly n: number };
type EarlierEvent =
  | (Garment & { readonly type: "put-aside"; readonly press: PressOf })
  | { readonly type: "aside-set"; readonly press: PressOf; readonly jobs: number };
type PressOf = Extract<StallEvent, { readonly type: "reserved" }>["press"];
type EarlierJob = Omit<Extract<Job, { readonly stage: "reserved" }>, "stage"> & { readonly stage: "aside" };
type EarlierPress = Omit<PressState, "reserves"> & { readonly keepsAside: number };

const isEarlier = (event: { readonly type: string }): boolean =>
  event.type === "put-aside" ||
  event.type === "aside-set" ||
  event.type in UNDO ||
  (event.type === "paid" && "by" in event);

function presentEvent(event: StallEvent | EarlierEvent): StallEvent {
  if (event.type === "put-aside") return { ...event, type: "reserved" };
  if (event.type === "aside-set") return { type: "reserve-set", press: event.press, on: event.jobs > 0 };
  const undo = (UNDO as Readonly<Record<string, StallEvent["type"]>>)[event.type];
  if (undo !== undefined) return { ...event, type: undo } as StallEvent; // only its name was another
  if (event.type !== "paid") return event;
  const { by: _, ...paid } = event as typeof event & { readonly by?: unknown }; // as shape 2 wrote it
  return paid;
}

/** The entry with its events as they are written today; the same object if nothing changes. */
export const presentEntry = (entry: JournalEntry): JournalEntry =>
  entry.events.some(isEarlier)
    ? { ...entry, events: (entry.events as readonly (StallEvent | EarlierEvent)[]).map(presentEvent) } // as shapes 1 to 4 wrote them
    : entry;

type WithPaid = { readonly paid: (Order["paid"] & { readonly by?: unknown }) | null }; // as shape 2 wrote it

/** Who took the payment of a stored order, if its row still has the name. */
export function payerIn(row: unknown): string | undefined {
  const by = (row as WithPaid | undefined)?.paid?.by; // rows of orders only
  return typeof by === "string" ? by : undefined;
}

/** The order without the name of who took its payment; the same object if there is no name. */
export function withoutPayer(order: Order): Order {
  if (order.paid === null || !("by" in order.paid)) return order;
  const { by: _, ...paid } = order.paid as typeof order.paid & { readonly by?: unknown }; // as shape 2 wrote it
  return { ...order, paid };
}

function presentOrder(stored: Order): Order {
  const order = withoutPayer(stored);
  const jobs = order.jobs as readonly (Job | EarlierJob)[]; // as shape 3 wrote them
  if (!jobs.some(({ stage }) => stage === "aside")) return order;
  return {
    ...order,
    jobs: jobs.map((job): Job => (job.stage === "aside" ? { ...job, stage: "reserved" } : job)),
  };
}

function presentPress(row: PressState | EarlierPress): PressState {
  if (!("keepsAside" in row)) return row;
  const { keepsAside, ...press } = row;
  return { ...press, reserves: keepsAside > 0 };
}

/** A row of memory's tables as it is written now. */
export function presentRow(prefix: string, value: unknown): unknown {
  // Each prefix holds rows of its own table's type only.
  if ((prefix === "order:" || prefix === "past:") && value !== undefined) return presentOrder(value as Order);
  if (prefix === "press:") return presentPress(value as PressState | EarlierPress);
  return value;
}
