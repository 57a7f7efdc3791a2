/**
 * Names that rows and events had in earlier shapes. What is stored keeps its name and is translated whenever it is
 * read: until shape 3 the reserve of a press was called aside.
 */
import type { Job, JournalEntry, Order, StallEvent } from "../state/facts.ts";
import type { PressState } from "../state/state.ts";

type Garment = { readonly number: number; readonly n: number };
type EarlierEvent =
  | (Garment & { readonly type: "put-aside"; readonly press: PressOf })
  | { readonly type: "aside-set"; readonly press: PressOf; readonly jobs: number };
type PressOf = Extract<StallEvent, { readonly type: "reserved" }>["press"];
type EarlierJob = Omit<Extract<Job, { readonly stage: "reserved" }>, "stage"> & { readonly stage: "aside" };
type EarlierPress = Omit<PressState, "reserves"> & { readonly keepsAside: number };

const isEarlier = (event: { readonly type: string }): boolean =>
  event.type === "put-aside" || event.type === "aside-set";

function presentEvent(event: StallEvent | EarlierEvent): StallEvent {
  if (event.type === "put-aside") return { ...event, type: "reserved" };
  if (event.type === "aside-set") return { type: "reserve-set", press: event.press, on: event.jobs > 0 };
  return event;
}

/** The entry with the events named as they are now; the very same entry if they are. */
export const presentEntry = (entry: JournalEntry): JournalEntry =>
  entry.events.some(isEarlier)
    ? { ...entry, events: (entry.events as readonly (StallEvent | EarlierEvent)[]).map(presentEvent) } // as shape 3 wrote them
    : entry;

function presentOrder(order: Order): Order {
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

/** A row of memory's tables as it is named now. */
export function presentRow(prefix: string, value: unknown): unknown {
  // Each prefix holds rows of its own table's type only.
  if (prefix === "order:") return presentOrder(value as Order);
  if (prefix === "press:") return presentPress(value as PressState | EarlierPress);
  return value;
}
