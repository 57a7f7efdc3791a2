/** Undoing a refund or an exchange of a garment, for as long as the garment is still there. */
import { jobId, jobParts } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { type Refusal, wrongStage } from "../../../../model/orders/refusal.ts";
import {
  jobIn,
  lineOf,
  readyAtOnce,
  returnedOf,
  stageOf,
  withInstead,
  withJob,
} from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { Line } from "../../../state/shapes/line.ts";
import type { Order, Returned } from "../../../state/shapes/order.ts";
import type { StallState } from "../../../state/state.ts";
import { accept, type Decision, type Of, refuse } from "../../commands.ts";
import { missing, offRack, owedAfter } from "../closing.ts";
import { repriced } from "./repricing.ts";
import { isRefusal } from "./returning.ts";

/** Takes a garment off the rack for its order; a refusal if it does not hang there any more. */
function backFrom(
  state: StallState,
  number: number,
  { job, key }: Returned,
): readonly StallEvent[] | Refusal {
  if (key === null) return [];
  if (state.rack.get(key) === undefined)
    return wrongStage(jobId(number, job.n), "off the rack", "still on the rack");
  return [{ type: "unracked", key, as: "back" }];
}

/** Some refunded garments are their order's again, with the money they brought. */
export function undoGarmentRefunded(
  state: StallState,
  { number, jobs }: Of<"undo-garment-refunded">,
): Decision {
  const order = state.anyOrder(number);
  if (order === undefined) return refuse({ code: "no-such-order", number });
  const events: StallEvent[] = [];
  for (const n of new Set(jobs)) {
    const found = refundUndone(state, order, n, false);
    if (isRefusal(found)) return refuse(found);
    events.push(...found);
  }
  return accept(...events);
}

function refundUndone(
  state: StallState,
  order: Order,
  n: number,
  carried: boolean,
): readonly StallEvent[] | Refusal {
  const { number, closed, paid } = order;
  const back = returnedOf(order, n);
  const job = jobId(number, n);
  if (back?.refund === undefined || (back.refund.carried === true) !== carried)
    return wrongStage(job, "not refunded, or not just so", carried ? "exchanged" : "refunded");
  const stage = stageOf(order);
  if (closed !== null && stage !== "collected")
    return wrongStage(`order ${number}`, stage, "open or collected");
  if ((paid === null) !== (back.refund.parts === null))
    return wrongStage(`order ${number}`, paid === null ? "unpaid" : "paid", "paid as it was then");
  const off = backFrom(state, number, back);
  return isRefusal(off) ? off : [...off, { type: "undo-garment-refunded", number, n }];
}

/**
 * A garment that was exchanged is its customer's again. The one that was to be made instead is not made, or hangs on the
 * rack again. Refused once that one lies on a press or is pressed, or if money was taken or given for the difference.
 */
export function undoGarmentExchanged(
  state: StallState,
  menu: Menu,
  { number, n }: Of<"undo-garment-exchanged">,
): Decision {
  const order = state.anyOrder(number);
  const job = jobIn(order, n);
  const again = order === undefined || job === undefined ? [] : hungAgain(lineOf(order, job));
  // What came from the rack was handed over with its exchange.
  const handed = again.length > 0 && order?.exchangeOf !== undefined && order.closed?.as === "collected";
  if (order === undefined || (order.closed !== null && !handed)) return refuse(missing(state, number));
  if (job === undefined) return refuse({ code: "no-such-job", job: jobId(number, n) });
  if (job.stage !== "waiting" && job.stage !== "short" && again.length === 0)
    return refuse(wrongStage(jobId(number, n), job.stage, "waiting"));
  return order.exchangeOf === undefined
    ? undoneHere(state, menu, order, n, again)
    : undoneThere(state, order, jobParts(order.exchangeOf), again);
}

/** The garment of the rack that a line is hangs there again; empty for one that was pressed for its order. */
const hungAgain = ({ rack: key, hung: item }: Line): readonly StallEvent[] =>
  key === undefined || item === undefined ? [] : [{ type: "undo-unracked", key, item }];

/** It was exchanged in an order that is still here: the garment is as it was, at its own price. */
function undoneHere(
  state: StallState,
  menu: Menu,
  order: Order,
  n: number,
  again: readonly StallEvent[],
): Decision {
  const { number } = order;
  const back = returnedOf(order, n);
  if (back === undefined || back.refund !== undefined)
    return refuse(wrongStage(jobId(number, n), "not exchanged", "exchanged"));
  const off = backFrom(state, number, back);
  if (isRefusal(off)) return refuse(off);
  const { off: _, ...line } = back.line;
  const other = withInstead(order, n, line);
  const after = withJob(other, { ...back.job, line: jobIn(other, n)?.line ?? back.job.line });
  const { jobs } = after;
  const price = { ...repriced(menu, after, order.discount), ...readyAtOnce(order, after) };
  const { dueBy } = order;
  return accept(...off, { type: "changed", number, jobs, ...price, dueBy, unexchanged: n }, ...again);
}

/** It was exchanged after it was handed over: the order made for it ends, and what was carried over goes back. */
function undoneThere(
  state: StallState,
  order: Order,
  { number, n }: { readonly number: number; readonly n: number },
  again: readonly StallEvent[],
): Decision {
  const before = state.anyOrder(number);
  if (before === undefined) return refuse({ code: "no-such-order", number });
  const { paid, carried = 0, gaveBack, tips, jobs } = order;
  const moved = paid !== null && (paid.amount !== carried || paid.parts !== undefined);
  if (moved || gaveBack !== undefined || tips !== undefined || jobs.length > 1)
    return refuse(
      wrongStage(`order ${order.number}`, "changed or paid since", "as it was when it was exchanged"),
    );
  const unpaid: readonly StallEvent[] =
    paid === null ? [] : [{ type: "undo-paid", number: order.number, leavesLine: false, carried: true }];
  const reopened: readonly StallEvent[] =
    order.closed === null ? [] : [{ type: "undo-closed", number: order.number }];
  const ended: readonly StallEvent[] = [
    ...reopened,
    ...unpaid,
    { type: "closed", number: order.number, as: "dropped", unexchanged: true },
    ...owedAfter(state, { ...order, closed: null }),
    ...again,
  ];
  if (before.closed?.carried !== true) {
    const undone = refundUndone(state, before, n, true);
    return isRefusal(undone) ? refuse(undone) : accept(...ended, ...undone);
  }
  const hangs = offRack(state, before);
  // What the customer brought never hung there.
  if (hangs.length === 0 && before.jobs.every((job) => lineOf(before, job).own !== true))
    return refuse(wrongStage(jobId(number, n), "off the rack", "still on the rack"));
  return accept(...ended, { type: "undo-closed", number }, ...hangs);
}
