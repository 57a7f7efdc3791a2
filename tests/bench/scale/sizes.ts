/** What one act costs, times how many there are, beside what the platform allows. Pure. */

/** What one act costs: requests from outside, calls of objects (alarms are calls), rows written, texts out. */
export type Cost = {
  readonly requests: number;
  readonly calls: number;
  readonly fairCalls: number;
  readonly rows: number;
};

export type Costs = Readonly<
  Record<"web" | "text" | "counter" | "handOver" | "look" | "ownLook" | "report" | "pace", Cost>
>;

/** The day of a busy stall, as the README prices it. */
const DAY = { hours: 10, web: 200, text: 200, counter: 100, customers: 300, customerMinutes: 10 } as const;
/** Seconds between looks of each screen (client/press, client/counter, client/board, client/customer, client/organiser). */
const EVERY = { press: 2, counter: 2, board: 3, customer: 4, organiser: 5, report: 5 } as const;
const PRESSES = 2;
/** Texts of an order: the question, the confirmation, the call to fetch it. Each fits one segment. */
const SEGMENTS_OF_ORDER = 3;
/** The busiest quarter of an hour against the day's mean; common practice, no source. */
const PEAK = 3;

/**
 * Of the paid plan: developers.cloudflare.com/durable-objects/platform/pricing and
 * developers.cloudflare.com/workers/platform/limits, looked up in stored copies on 2026-11-27. Calls of one object: a soft
 * limit, from memory. Requests to the worker beyond 10 million: from memory. Duration is left out: the same page says that an
 * idle object which can hibernate is not billed, and a call lasts milliseconds.
 */
export const PLATFORM = {
  callsASecond: 1000,
  freeRequests: 100_000,
  freeRows: 100_000,
  includedCalls: 1e6,
  dollarsAMillionCalls: 0.15,
  includedRows: 50e6,
  dollarsAMillionRows: 1,
  includedRequests: 10e6,
  dollarsAMillionRequests: 0.3,
  subrequests: 10_000,
  freeSubrequests: 50,
} as const;

const SECONDS = DAY.hours * 3600;

export type Load = {
  readonly requests: number;
  readonly calls: number;
  readonly rows: number;
  readonly segments: number;
};

const plus = (one: Load, { requests, calls, rows }: Cost, times: number): Load => ({
  requests: one.requests + requests * times,
  calls: one.calls + calls * times,
  rows: one.rows + rows * times,
  segments: one.segments,
});

/** One stall's day. */
export function stallDay(costs: Costs): Load {
  const looks = (SECONDS / EVERY.press) * PRESSES + SECONDS / EVERY.counter + SECONDS / EVERY.board;
  const ownLooks = (DAY.customers * DAY.customerMinutes * 60) / EVERY.customer;
  const orders = DAY.web + DAY.text + DAY.counter;
  // A stall reports at most every 5 seconds, and only if something changed: an order changes it some five times.
  const reports = Math.min(SECONDS / EVERY.report, orders * 5);
  return [
    [costs.web, DAY.web],
    [costs.text, DAY.text],
    [costs.counter, DAY.counter],
    [costs.handOver, orders],
    [costs.look, looks],
    [costs.ownLook, ownLooks],
    [costs.report, reports],
  ].reduce<Load>((sum, [cost, times]) => plus(sum, cost as Cost, times as number), {
    requests: 0,
    calls: 0,
    rows: 0,
    segments: DAY.text * SEGMENTS_OF_ORDER,
  });
}

/** Calls a second of one stall's object in its busiest quarter, with so many customers' pages open at once. */
export const stallPeak = (costs: Costs, openPages: number): number =>
  (PRESSES / EVERY.press + 1 / EVERY.counter + 1 / EVERY.board) * costs.look.calls +
  (openPages / EVERY.customer) * costs.ownLook.calls;

/** Calls a second of a fair's object in its busiest quarter: every stall reports as often as it may, and texts are routed. */
export const fairPeak = (costs: Costs, stalls: number): number =>
  stalls * (costs.report.fairCalls / EVERY.report + (PEAK * DAY.text * costs.text.fairCalls) / SECONDS) +
  costs.pace.fairCalls / EVERY.organiser;

/** The most of something whose calls a second grow by the same with each: customers' pages, or stalls. */
export function most(perSecond: (count: number) => number): number {
  const [none, one] = [perSecond(0), perSecond(1)];
  return Math.floor((PLATFORM.callsASecond - none) / (one - none));
}

/** Dollars of a month beyond the plan's own price, if this is all that ran. */
export function dollars({ requests, calls, rows }: Load): number {
  const beyond = (used: number, included: number, price: number): number =>
    (Math.max(0, used - included) / 1e6) * price;
  return (
    beyond(requests, PLATFORM.includedRequests, PLATFORM.dollarsAMillionRequests) +
    beyond(calls, PLATFORM.includedCalls, PLATFORM.dollarsAMillionCalls) +
    beyond(rows, PLATFORM.includedRows, PLATFORM.dollarsAMillionRows)
  );
}

export const times = ({ requests, calls, rows, segments }: Load, count: number): Load => ({
  requests: requests * count,
  calls: calls * count,
  rows: rows * count,
  segments: segments * count,
});
