/** Garments that come back one by one and are refunded, and the rack where they go. */
import { type JobId, jobId } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { type Refusal, wrongStage } from "../../../../model/orders/refusal.ts";
import { jobIn, lineOf, stageOf } from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { Job } from "../../../state/shapes/job.ts";
import type { RackItem } from "../../../state/shapes/line.ts";
import type { Order } from "../../../state/shapes/order.ts";
import type { StallState } from "../../../state/state.ts";
import { garmentShares } from "../../../stock/garment-share.ts";
import { broughtItem, isForSale, rackItemOf } from "../../../stock/rack.ts";
import { accept, type Decision, type Of, refuse } from "../../commands.ts";
import { closed } from "../closing.ts";

/** The pressed garments that are named, or why they cannot come back. */
export function pressedOf(
  order: Order | undefined,
  number: number,
  jobs: readonly number[],
): readonly Job[] | Refusal {
  if (order === undefined) return { code: "no-such-order", number };
  const stage = stageOf(order);
  if (order.closed !== null && stage !== "collected")
    return wrongStage(`order ${number}`, stage, "open or collected");
  const found: Job[] = [];
  for (const n of new Set(jobs)) {
    const job = jobIn(order, n);
    if (job === undefined) return { code: "no-such-job", job: jobId(number, n) };
    if (job.stage !== "pressed") return wrongStage(jobId(number, n), job.stage, "pressed");
    found.push(job);
  }
  return found;
}

export const isRefusal = <T>(found: readonly T[] | Refusal): found is Refusal => "code" in found;

/** What becomes of a garment that came back: where it hangs (null: it is thrown away), and the events of that. */
type CameBack = { readonly key: JobId | null; readonly events: readonly StallEvent[] };

/** A garment that came back hangs on the rack, or is thrown away; what the customer brought stays theirs. */
export function cameBack(
  order: Order,
  job: Job,
  keeps: boolean,
  how: Pick<RackItem, "why" | "from">,
  key: JobId = jobId(order.number, job.n),
): CameBack {
  if (lineOf(order, job).own === true) return { key: null, events: [] };
  const racked: StallEvent = { type: "racked", key, item: rackItemOf(order, job, how) };
  return keeps
    ? { key, events: [racked] }
    : { key: null, events: [racked, { type: "unracked", key, as: "thrown" }] };
}

/**
 * Gives the money of some garments back: what each brought (its part of the total after bundles and discounts, and of the
 * tax). All that are left of an order are refunded as the whole. Refused for an order that is not paid.
 */
export function garmentRefunded(
  state: StallState,
  menu: Menu,
  { number, jobs, keeps }: Of<"garment-refunded">,
): Decision {
  const order = state.anyOrder(number);
  const found = pressedOf(order, number, jobs);
  if (isRefusal(found)) return refuse(found);
  if (order === undefined) return refuse({ code: "no-such-order", number });
  if (order.paid === null && (order.closed === null || menu.rules.payment !== "not-tracked"))
    return refuse({ code: "not-paid", number });
  if (found.length === order.jobs.length)
    return closed(state, menu, { type: "closed", number, as: "refunded", keeps });
  const shares = garmentShares(order);
  return accept(
    ...found.flatMap((job): readonly StallEvent[] => {
      const { amount, tax } = shares.get(job.n) ?? { amount: 0, tax: 0 };
      const { key, events } = cameBack(order, job, keeps, { why: "returned", from: "garment" });
      return [{ type: "garment-refunded", number, n: job.n, amount, tax, key }, ...events];
    }),
  );
}

/** Lets a garment on the rack be sold though it is kept for its customer, or throws it away. */
export function unracked(state: StallState, { key, as }: Of<"unracked">): Decision {
  const item = state.rack.get(key);
  if (item === undefined) return refuse({ code: "no-such-job", job: key });
  return as === "released" && isForSale(state, item) ? accept() : accept({ type: "unracked", key, as });
}

/** Hangs what another fair left on this stall's rack. */
export const rackBrought = ({ garments }: Of<"bring-rack">): Decision =>
  accept(...garments.map((made, at): StallEvent => ({ type: "racked", ...broughtItem(made, at) })));
