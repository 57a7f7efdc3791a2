/** Facts of an order that need nothing but the order. */
import type { Menu } from "../../model/menu/catalogue.ts";
import type { OrderStage } from "../../model/orders/order.ts";
import { type Instant, MINUTE } from "../../time/instants.ts";
import type { Job } from "./shapes/job.ts";
import type { Line } from "./shapes/line.ts";
import type { Order, Returned } from "./shapes/order.ts";

/** When an order is dropped unless it is paid; null if it is not to be paid first. */
export const unpaidUntil = ({ rules }: Menu, order: Order): Instant | null =>
  stageOf(order) === "to-pay" ? (order.jobs[0]?.since ?? order.placedAt) + rules.payMinutes * MINUTE : null;

/** A garment that is not in line: its order is to be paid or claimed first. */
export const isNotQueued = (job: Job): job is Extract<Job, { readonly stage: "to-pay" | "to-claim" }> =>
  job.stage === "to-pay" || job.stage === "to-claim";

/** Whether an order is from the web and nobody has come for it, paid it, or texted its code. */
export const isUnclaimed = ({ takenBy, paid, claimed }: Order): boolean =>
  takenBy === "web" && paid === null && claimed !== true;

/** The stage of an order: how it was closed, else what its jobs say. */
export function stageOf(order: Order): OrderStage {
  if (order.closed !== null) return order.closed.as;
  const outside = order.jobs.find(isNotQueued);
  if (outside !== undefined) return outside.stage;
  if (order.jobs.every((job) => job.stage === "pressed")) return "ready";
  return order.jobs.some((job) => job.stage === "pressing" || job.stage === "pressed")
    ? "pressing"
    : "waiting";
}

/** The garment that was the n-th (from 1) when it was ordered; undefined if it has left the order or never existed. */
export const jobIn = (order: Order | undefined, n: number): Job | undefined =>
  order?.jobs.find((job) => job.n === n);

/** The n-th garment (from 1); the order and its jobs are made together, so a missing one is a bug. */
export function jobOf(order: Order, n: number): Job {
  const job = jobIn(order, n);
  if (job === undefined) throw new Error(`order ${order.number} has no garment ${n}`);
  return job;
}

/** Whether every garment of an order is of the rack: nobody waited for it. */
const isOfRack = (order: Order): boolean => order.jobs.every((job) => lineOf(order, job).rack !== undefined);

/** The mark of a change after which an order is ready without a press. */
export const readyAtOnce = (before: Order, after: Order) =>
  before.readyAt === null && stageOf(after) === "ready" && isOfRack(after) ? { atOnce: true as const } : {};

/** The line a job belongs to. */
export function lineOf(order: Order, job: Job): Line {
  const line = order.lines[job.line];
  if (line === undefined) throw new Error(`order ${order.number} has no line ${job.line}`);
  return line;
}

/** The order with one of its jobs replaced. */
export function withJob(order: Order, job: Job): Order {
  return { ...order, jobs: order.jobs.map((other) => (other.n === job.n ? job : other)) };
}

export const garmentsOf = (lines: readonly { readonly quantity: number }[]): number =>
  lines.reduce((sum, line) => sum + line.quantity, 0);

/** The number of garments that lack a blank or a transfer, and their names. */
export function shortOf(order: Order) {
  const jobs = order.jobs.filter(({ stage }) => stage === "short");
  const short = order.lines.flatMap(({ offer, colour, size, each }, at) => {
    const quantity = jobs.filter(({ line }) => line === at).length;
    return quantity === 0 ? [] : [{ offer, colour, size, each, quantity }];
  });
  return { shortGarments: jobs.length, short };
}

/** The turn of an order: that of its foremost garment; null while it is outside the line. */
export function turnOf(order: Order): number | null {
  let first: number | null = null;
  for (const job of order.jobs) {
    if (isNotQueued(job)) return null;
    if (first === null || job.turn < first) first = job.turn;
  }
  return first;
}

/** Whether the garments of two lines are made alike, whatever they cost. */
export const isLike = (
  one: Pick<Line, "offer" | "colour" | "size" | "wishes">,
  other: Pick<Line, "offer" | "colour" | "size" | "wishes">,
): boolean =>
  one.offer === other.offer &&
  one.colour === other.colour &&
  one.size === other.size &&
  (one.wishes ?? []).join() === (other.wishes ?? []).join();

/** The index of the line a garment belongs to: the line like it if there is one, else a new last one. */
function lineFor(
  before: readonly Line[],
  line: Line,
): { readonly lines: readonly Line[]; readonly to: number } {
  const like = before.findIndex(
    (other) =>
      isLike(other, line) &&
      other.rack === line.rack &&
      other.each === line.each &&
      other.lowered?.by === line.lowered?.by &&
      other.lowered?.reason === line.lowered?.reason,
  );
  return like < 0
    ? { lines: [...before, { ...line, quantity: 0 }], to: before.length }
    : { lines: before, to: like };
}

/** The number that the next garment of an order gets: no garment that ever was in it had that one. */
export const nextNumbered = ({ jobs, numbered = 0 }: Order): number =>
  Math.max(numbered, jobs.at(-1)?.n ?? 0) + 1;

/** The order with one more garment, of the given line. */
export function withAdded(order: Order, job: (line: number) => Job, line: Line): Order {
  const { lines, to } = lineFor(order.lines, line);
  return {
    ...order,
    jobs: [...order.jobs, job(to)],
    lines: lines.map((other, at) => (at === to ? { ...other, quantity: other.quantity + 1 } : other)),
  };
}

/** The order with one of its garments being one of another line. */
export function withInstead(order: Order, n: number, line: Line): Order {
  const { line: was } = jobOf(order, n);
  const { lines, to } = lineFor(order.lines, line);
  const share = shareOff(order.lines[was]);
  return {
    ...order,
    jobs: order.jobs.map((job) => (job.n === n ? { ...job, line: to } : job)),
    lines: lines.map((other, at) => {
      const moved = (at === to ? 1 : 0) - (at === was ? 1 : 0);
      return moved === 0 ? other : withMany(other, moved, moved * share);
    }),
  };
}

/** The reduction of one garment of a line by bundles and discounts; the other garments keep the odd minor units. */
export const shareOff = (line: Line | undefined): number =>
  line?.off === undefined || line.quantity === 0 ? 0 : Math.floor(line.off / line.quantity);

/** The line with `more` garments, which cost `less` less together. */
function withMany(line: Line, more: number, less: number): Line {
  const { off = 0, ...plain } = { ...line, quantity: line.quantity + more };
  return off + less === 0 ? plain : { ...plain, off: off + less };
}

/** The order without one of its garments. Its line stays in its place, with one fewer, so that the others keep theirs. */
export function withoutJob(order: Order, n: number): Order {
  const gone = jobOf(order, n);
  return {
    ...order,
    ...(order.jobs.at(-1) === gone ? { numbered: nextNumbered(order) - 1 } : {}),
    jobs: order.jobs.filter((job) => job !== gone),
    lines: order.lines.map((line, index) =>
      index === gone.line ? withMany(line, -1, -shareOff(line)) : line,
    ),
  };
}

/** The order with a garment that had left it, in its old place and line, with its reduction `off`. */
export const withJobBack = (order: Order, job: Job, off: number): Order => ({
  ...order,
  jobs: [...order.jobs, job].sort((one, other) => one.n - other.n),
  lines: order.lines.map((line, index) => (index === job.line ? withMany(line, 1, off) : line)),
});

/** The last time that a garment came back from an order, if that can be undone. */
export const returnedOf = ({ returned = [] }: Order, n: number): Returned | undefined =>
  returned.findLast(({ job }) => job.n === n);

/** The order without the last return of a garment. */
export function withoutReturned({ returned = [], ...order }: Order, n: number): Order {
  const last = returned.findLastIndex(({ job }) => job.n === n);
  const left = returned.filter((_, at) => at !== last);
  return left.length === 0 ? order : { ...order, returned: left };
}

/** A pickup number as a record's key: keys sort as the numbers do. */
export const orderKey = (number: number): string => String(number).padStart(6, "0");
