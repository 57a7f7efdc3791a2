/** The pull rule: which garment in line a press takes next. */

import type { Rules } from "../../model/menu/rules.ts";
import type { Instant } from "../../time/instants.ts";
import { changeTime, suits } from "../state/heating.ts";
import type { QueuedGarment } from "../state/order-index.ts";
import type { PlatenHeat } from "../state/shapes/job.ts";
import type { Order } from "../state/shapes/order.ts";

/** A garment near the head of the line, with the facts that the choice needs. */
export type Candidate = {
  readonly placed: QueuedGarment;
  readonly order: Order;
  readonly fahrenheit: number;
  readonly overtaken: number;
  /** Its expected time on the press without heating. */
  readonly handlingSeconds: number;
};

type Limits = Pick<Rules, "lookAhead" | "overtakenMost">;

/** A garment that must be pressed again goes first, whatever the platen's temperature. */
const pressedAgain = ({ placed }: Candidate): boolean => placed.turn < 0;

/** Whether its order still waits for a garment behind the given one: then being passed over costs the order nothing. */
function waitsAnyway({ order, placed }: Candidate, behind: Candidate): boolean {
  return order.jobs.some(
    (job) => job.stage === "waiting" && job.n !== placed.n && job.turn > behind.placed.turn,
  );
}

const begun = ({ order }: Candidate): boolean =>
  order.jobs.some(({ stage }) => stage === "pressing" || stage === "pressed");

/** When this press alone would finish each of some garments, one after another. */
function ends(line: readonly Candidate[], heat: PlatenHeat | null, now: Instant): readonly Instant[] {
  let at = Math.max(now, heat?.readyAt ?? now);
  let fahrenheit = heat?.fahrenheit;
  return line.map((next) => {
    if (fahrenheit !== undefined) at += changeTime(fahrenheit, next.fahrenheit);
    fahrenheit = next.fahrenheit;
    at += next.handlingSeconds * 1000;
    return at;
  });
}

/**
 * Whether the garments before `index` may be passed over: none too often, none that is pressed again, and none that
 * would be in time now and late afterwards, if this press alone went on with them.
 */
function mayPass(
  line: readonly Candidate[],
  index: number,
  heat: PlatenHeat | null,
  limits: Limits,
  now: Instant,
): boolean {
  const taken = line.slice(index, index + 1);
  const passed = line.slice(0, index);
  const inOrder = ends(passed, heat, now);
  const afterwards = ends([...taken, ...passed], heat, now).slice(1);
  return passed.every((candidate, place) => {
    if (pressedAgain(candidate) || candidate.overtaken >= limits.overtakenMost) return false;
    const dueBy = candidate.order.dueBy ?? Number.POSITIVE_INFINITY;
    const inTime = (inOrder[place] ?? 0) <= dueBy;
    return !inTime || (afterwards[place] ?? 0) <= dueBy;
  });
}

/**
 * The index of the garment to take: the first within the look-ahead that the platen is hot for, if those before it may
 * be passed over; else the oldest. Among garments the platen is hot for, one that completes an order already begun goes
 * first if that delays no other order. Null for an empty line.
 */
export function nextJob(
  line: readonly Candidate[],
  heat: PlatenHeat | null,
  limits: Limits,
  now: Instant,
): number | null {
  if (line.length === 0) return null;
  const near = line.slice(0, limits.lookAhead + 1);
  const reachable = near.flatMap((candidate, index) =>
    suits(heat, candidate.fahrenheit) && mayPass(near, index, heat, limits, now)
      ? [{ candidate, index }]
      : [],
  );
  const first = reachable[0];
  if (first === undefined) return 0;
  const together = reachable.find(
    ({ candidate, index }) =>
      begun(candidate) && near.slice(0, index).every((passed) => waitsAnyway(passed, candidate)),
  );
  // If the first garment belongs to an order already begun, this finds it too: nothing more is passed over.
  return (together ?? first).index;
}
