/** Another garment for one that was pressed: made next, or from the rack at once. */
import { type JobId, jobId } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { Refusal } from "../../../../model/orders/refusal.ts";
import { type Instant, MINUTE } from "../../../../time/instants.ts";
import { quoteMinutes } from "../../../line/quote.ts";
import { areThere, piecesOf } from "../../../state/counts.ts";
import { jobIn, jobOf, lineOf, withInstead, withJob } from "../../../state/orders.ts";
import type { StallEvent } from "../../../state/shapes/event.ts";
import type { Job } from "../../../state/shapes/job.ts";
import type { Line } from "../../../state/shapes/line.ts";
import type { Closed, Order } from "../../../state/shapes/order.ts";
import type { StallState } from "../../../state/state.ts";
import { bill, type Sums } from "../../../stock/bill.ts";
import { type GarmentShare, garmentPrice, garmentShares } from "../../../stock/garment-share.ts";
import { leftOf, lineFor, offerParts, offSale } from "../../../stock/offers.ts";
import { asItHangs, spareKey } from "../../../stock/rack.ts";
import { accept, type Decision, type Of, refuse } from "../../commands.ts";
import { owedAfter } from "../closing.ts";
import { fairStopRefusal } from "../intake.ts";
import { headTurn, numberedFor } from "../numbering.ts";
import { rackRefusal, racksJob } from "../ordering.ts";
import { pricedAs } from "./changing.ts";
import { repriced, rulesOf } from "./repricing.ts";
import { cameBack, isRefusal, pressedOf } from "./returning.ts";

/**
 * Another garment for one that was pressed, with what was paid for it carried over: at the head of the line, or from the
 * rack without a press. An order that is still here keeps its number; for one that was handed over there is a new order,
 * which is handed over at once if nothing is left to press or to pay. Refused while the organiser has stopped all orders.
 *
 * The difference is due, or to be given back. A garment of the same price costs nothing, also if a bundle or a discount
 * covered the other one: it keeps that reduction, and so does what stays. At another price, an order that is still here
 * is priced again as a whole; after hand-over the difference is that of the two prices.
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
  const wanted = lineFor(menu, { ...instead, quantity: 1 }, 0);
  if (!wanted.ok) return refuse(wanted.refusal);
  const gone = notThere(state, menu, wanted.value);
  if (gone !== undefined) return refuse(gone);
  const line = asItHangs(state, menu, wanted.value);
  const { offer, colour, size, rack } = line;
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
  const sold: readonly StallEvent[] = rack === undefined ? [] : [{ type: "unracked", key: rack, as: "sold" }];
  if (order.closed !== null) {
    const from = order.jobs.length === 1 ? "order" : "garment";
    const { key, events } = cameBack(order, job, keeps, { why: "exchanged", from });
    const taken = takenExchanged(state, menu, order, job, line, command, now, key);
    return accept(asked, ...events, ...taken, ...sold);
  }
  // The garment that is made instead has its number.
  const spare = spareKey(state, number);
  const how = { why: "exchanged", from: "garment" } as const;
  const { key, events } = cameBack(order, job, keeps && spare !== undefined, how, spare);
  return accept(asked, ...events, hereExchanged(state, menu, order, job, line, now, key), ...sold);
}

/** Why a garment cannot be had instead: its pieces are gone, or it is not for sale on the rack. */
function notThere(state: StallState, menu: Menu, line: Line): Refusal | undefined {
  if (line.rack !== undefined) return rackRefusal(state, [line]);
  const choice = offerParts(menu, line.offer);
  const free = (piece: Parameters<StallState["free"]>[0]): number =>
    state.status.offMenu.includes(piece) ? 0 : state.free(piece);
  if (choice !== undefined && !offSale(menu, line) && areThere(piecesOf(line), free)) return undefined;
  const { offer, colour, size } = line;
  return {
    code: "sold-out",
    offer,
    colour,
    size,
    left: choice === undefined ? [] : leftOf(state, choice),
  };
}

/** The new garment: at the head of the line, or pressed already if it is of the rack. */
const madeInstead = (job: Pick<Job, "n" | "line" | "since">, { rack }: Line, turn: number): Job =>
  rack === undefined ? { ...job, stage: "waiting", turn, overtaken: 0 } : racksJob(job);

/** The garment of an open order becomes another. */
function hereExchanged(
  state: StallState,
  menu: Menu,
  order: Order,
  { n }: Job,
  line: Line,
  now: Instant,
  key: JobId | null,
): StallEvent {
  const instead = pricedAs(order, n, line);
  const other = withInstead(order, n, instead);
  const made = jobIn(other, n);
  if (made === undefined) throw new Error(`order ${order.number} lost garment ${n}`);
  const job = { n, line: made.line, since: now };
  const after = withJob(other, madeInstead(job, line, headTurn(state, n)));
  const { tax, total, bundles, discount } = order;
  const asBefore = {
    ...{ lines: after.lines, tax, total },
    ...(bundles === undefined ? {} : { bundles }),
    ...(discount === undefined ? {} : { discount }),
  };
  const costsSame = netOfOne(instead) === netOfOne(lineOf(order, jobOf(order, n)));
  return {
    type: "changed",
    number: order.number,
    jobs: after.jobs,
    ...(costsSame ? asBefore : repriced(menu, after, discount)),
    dueBy: order.dueBy,
    exchanged: { n, key },
  };
}

/** The price of one garment of a line before bundles and discounts of the whole order. */
const netOfOne = ({ each, lowered }: Line): number => each - (lowered?.by ?? 0);

/**
 * The garment made for one that was handed over, lowered by as much as that one was by bundles and discounts, and its
 * sums: for the same price exactly those of the other's share, whatever their rounding.
 */
function exchangedLine(
  menu: Menu,
  before: Order,
  job: Job,
  wanted: Line,
  { amount, tax }: GarmentShare,
): { readonly line: Line; readonly sums: Sums } {
  const was = lineOf(before, job);
  const price = garmentPrice(before, job);
  const { lowered: _, ...plain } = pricedAs(before, job.n, wanted);
  const by = Math.min(was.each - price, plain.each);
  const reason = was.lowered?.reason ?? before.discount?.reason ?? "many";
  const line: Line = by === 0 ? plain : { ...plain, lowered: { by, reason } };
  const rules = rulesOf(menu, before);
  if (netOfOne(line) !== price) return { line, sums: bill([line], rules) };
  return { line, sums: { tax, total: amount, ...(rules.taxInPrice ? { taxInPrice: true } : {}) } };
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
  const { line, sums } = exchangedLine(menu, before, job, wanted, share);
  const lines = [line];
  const { customer } = before;
  const lone = before.jobs.length === 1;
  const given: Of<"place"> = { type: "place", customer, takenBy: "counter", lines: [], asks: [], chance };
  const { number, word } = numberedFor(state, given);
  const isOfRack = wanted.rack !== undefined;
  const dueBy = now + quoteMinutes(state, menu, isOfRack ? [] : lines, now) * MINUTE;
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
    jobs: [madeInstead({ n: 1, line: 0, since: now }, wanted, turn)],
    placedAt: now,
    waitsFrom: now,
    dueBy,
    readyAt: isOfRack ? now : null,
    ...(isOfRack ? { atOnce: true } : {}),
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
  const mayGo = wasPaid ? due === 0 : menu.rules.payment === "not-tracked";
  const handed = isOfRack && mayGo ? handedOver(state, order, now) : [];
  if (!wasPaid) return [old, placed, ...handed];
  const tender = before.paid?.tender ?? "cash";
  return [
    ...[old, placed],
    { type: "paid", number, tender, amount: carried, carried: true, dueBy, turn },
    ...handed,
  ];
}

/** The customer takes the garment of the rack at once. */
function handedOver(state: StallState, order: Order, at: Instant): readonly StallEvent[] {
  const closed: Closed = { as: "collected", at, before: null };
  return [
    { type: "closed", number: order.number, as: "collected" },
    ...owedAfter(state, { ...order, closed }),
  ];
}
