/** Garments that come back one by one: refunded, or exchanged for others; and the rack where they go. */
import { type JobId, jobId } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { type Refusal, wrongStage } from "../../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../../time/instants.ts";
import { quoteMinutes } from "../../../line/quote.ts";
import { areThere, piecesOf } from "../../../state/counts.ts";
import { jobIn, lineOf, stageOf, withInstead, withJob } from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { Job } from "../../../state/shapes/job.ts";
import type { Line } from "../../../state/shapes/line.ts";
import type { Order, RackItem } from "../../../state/shapes/order.ts";
import type { StallState } from "../../../state/state.ts";
import { garmentShares } from "../../../stock/garment-share.ts";
import { leftOf, lineFor, offerParts, offSale } from "../../../stock/offers.ts";
import { priced } from "../../../stock/pricing.ts";
import { broughtItem, isForSale, rackItemOf, spareKey } from "../../../stock/rack.ts";
import { accept, type Decision, type Of, refuse } from "../../commands.ts";
import { closed } from "../closing.ts";
import { fairStopRefusal } from "../intake.ts";
import { numberedFor } from "../numbering.ts";
import { TURNS_PER_ORDER } from "../ordering.ts";
import { pricedAs } from "./changing.ts";
import { repriced } from "./repricing.ts";

/** The pressed garments that are named, or why they cannot come back. */
function pressedOf(
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

const isRefusal = (found: readonly Job[] | Refusal): found is Refusal => "code" in found;

/** What becomes of a garment that came back: where it hangs (null: it is thrown away), and the events of that. */
type CameBack = { readonly key: JobId | null; readonly events: readonly StallEvent[] };

/** A garment that came back hangs on the rack, or is thrown away; what the customer brought stays theirs. */
function cameBack(
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

/**
 * Another garment for one that was pressed, at the head of the line, with what was paid for it carried over. An order that
 * is still here keeps its number; for one that was handed over there is a new order. The difference is due, or to be given back.
 * Refused while the organiser has stopped all orders.
 */
export function garmentExchanged(
  state: StallState,
  menu: Menu,
  command: Of<"garment-exchanged">,
  now: Instant,
): Decision {
  const { number, n, instead, keeps } = command;
  const stop = fairStopRefusal(state);
  if (stop !== undefined) return refuse(stop);
  const order = state.anyOrder(number);
  const found = pressedOf(order, number, [n]);
  if (isRefusal(found)) return refuse(found);
  const [job] = found;
  if (order === undefined || job === undefined) return refuse({ code: "no-such-order", number });
  const line = lineFor(menu, { ...instead, quantity: 1 }, 0);
  if (!line.ok) return refuse(line.refusal);
  const choice = offerParts(menu, line.value.offer);
  const { offer, colour, size } = line.value;
  const free = (piece: Parameters<StallState["free"]>[0]): number =>
    state.status.offMenu.includes(piece) ? 0 : state.free(piece);
  if (choice === undefined || offSale(menu, line.value) || !areThere(piecesOf(line.value), free))
    return refuse({
      code: "sold-out",
      offer,
      colour,
      size,
      left: choice === undefined ? [] : leftOf(state, choice),
    });
  const asked: StallEvent = {
    type: "asked",
    offer,
    colour,
    size,
    garments: 1,
    unmet: null,
    first: false,
    instead: true,
  };
  if (order.closed !== null) {
    const from = order.jobs.length === 1 ? "order" : "garment";
    const { key, events } = cameBack(order, job, keeps, { why: "exchanged", from });
    return accept(
      asked,
      ...events,
      ...takenExchanged(state, menu, order, job, line.value, command, now, key),
    );
  }
  // The garment that is made instead has its number.
  const spare = spareKey(state, number);
  const how = { why: "exchanged", from: "garment" } as const;
  const { key, events } = cameBack(order, job, keeps && spare !== undefined, how, spare);
  return accept(asked, ...events, hereExchanged(state, menu, order, job, line.value, now, key));
}

const headTurn = (state: StallState, n: number): number => -(state.version + 1) * TURNS_PER_ORDER + n;

/** The garment of an open order becomes another, ahead of all that waits. */
function hereExchanged(
  state: StallState,
  menu: Menu,
  order: Order,
  { n }: Job,
  line: Line,
  now: Instant,
  key: JobId | null,
): StallEvent {
  const other = withInstead(order, n, pricedAs(order, n, line));
  const made = jobIn(other, n);
  if (made === undefined) throw new Error(`order ${order.number} lost garment ${n}`);
  const turn = headTurn(state, n);
  const after = withJob(other, { n, line: made.line, since: now, stage: "waiting", turn, overtaken: 0 });
  return {
    type: "changed",
    number: order.number,
    jobs: after.jobs,
    ...repriced(menu, after, order.discount),
    dueBy: order.dueBy,
    exchanged: { n, key },
  };
}

/** A new order for a garment that was handed over before, paid with what that one had brought. */
function takenExchanged(
  state: StallState,
  menu: Menu,
  before: Order,
  job: Job,
  wanted: Line,
  { chance }: Of<"garment-exchanged">,
  now: Instant,
  key: JobId | null,
): readonly StallEvent[] {
  const share = garmentShares(before).get(job.n) ?? { amount: 0, tax: 0 };
  const { lines, ...sums } = priced(menu, [pricedAs(before, job.n, wanted)]);
  const { customer } = before;
  const lone = before.jobs.length === 1;
  const given: Of<"place"> = { type: "place", customer, takenBy: "counter", lines: [], asks: [], chance };
  const { number, word } = numberedFor(state, given);
  const dueBy = now + quoteMinutes(state, menu, lines, now) * MINUTE;
  const turn = headTurn(state, 1);
  const wasPaid = before.paid !== null;
  const carried = Math.min(share.amount, sums.total);
  const [due, giveBack] = [sums.total - carried, share.amount - carried];
  const order: Order = {
    number,
    word,
    customer,
    takenBy: "counter",
    lines,
    jobs: [{ n: 1, line: 0, since: now, stage: "waiting", turn, overtaken: 0 }],
    placedAt: now,
    waitsFrom: now,
    dueBy,
    readyAt: null,
    ...sums,
    paid: null,
    ...(wasPaid && due > 0 ? { due } : {}),
    ...(wasPaid && giveBack > 0 ? { giveBack } : {}),
    exchangeOf: jobId(before.number, job.n),
    ...(wasPaid ? { carried } : {}),
    closed: null,
    told: null,
    toldLate: false,
  };
  const placed: StallEvent = { type: "placed", order };
  const old: StallEvent =
    lone && before.closed !== null
      ? { type: "closed", number: before.number, as: "exchanged", carried: true }
      : { type: "garment-refunded", number: before.number, n: job.n, ...share, carried: true, key };
  if (!wasPaid) return [old, placed];
  const tender = before.paid?.tender ?? "cash";
  return [old, placed, { type: "paid", number, tender, amount: carried, carried: true, dueBy, turn }];
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
