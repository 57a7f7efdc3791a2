/** `apply`: what each event does to a stall's state. Nothing else changes it. */
import { type Bucket, bucketKey, EMPTY_BUCKET } from "../fair/bucket.ts";
import { withValue } from "../maths/log-histogram.ts";
import type { PressId } from "../model/ids.ts";
import type { Closed, Instant, Job, Order, PieceKey, StallEvent } from "./facts.ts";
import { garmentsOf, jobOf, lineOf, stageOf, withJob } from "./orders.ts";
import { learnt, workClass } from "./pace.ts";
import { orderKey, type StallState } from "./state.ts";
import { lostPieces, NOTHING_COUNTED, onHand, piecesOf } from "./stock.ts";

type EventOf<T extends StallEvent["type"]> = Extract<StallEvent, { readonly type: T }>;

/** Changes the state as one event says. An event that does not fit the state is a bug, and is thrown. */
export function apply(state: StallState, event: StallEvent, at: Instant): void {
  switch (event.type) {
    case "opened":
      return state.setIdentity(event.identity);
    case "menu-set":
      return state.setMenu(event.menu);
    case "counted":
      return counted(state, event.piece, event.onHand);
    case "delivered":
    case "corrected":
      return addCount(state, event.piece, event.type, event.pieces);
    case "asked":
      return asked(state, event, at);
    case "held":
      return state.holds.set(event.hold.customer, event.hold);
    case "released":
      return state.holds.delete(event.customer);
    case "placed":
      return placed(state, event.order);
    case "paid":
      return paid(state, event, at);
    case "unpaid":
      return unpaid(state, event, at);
    case "pulled":
      return pulled(state, event, at);
    case "overtaken":
      return changeJob(state, event, (job) =>
        job.stage === "waiting" ? { ...job, overtaken: job.overtaken + 1 } : job,
      );
    case "returned":
    case "supplied":
      return changeJob(state, event, (job) => ({ ...bare(job, at), ...rank(job), stage: "waiting" }));
    case "fell-short":
      return changeJob(state, event, (job) => ({ ...bare(job, at), ...rank(job), stage: "short" }));
    case "pressed":
      return pressed(state, event, at);
    case "unpressed": {
      takeBackPress(state, openOrder(state, event.number), event.n);
      return changeJob(state, event, (job) => ({
        ...bare(job, at),
        stage: "waiting",
        turn: event.turn,
        overtaken: 0,
      }));
    }
    case "spoiled":
      return spoiled(state, event, at);
    case "closed":
      return closed(state, event.number, event.as, at);
    case "reopened":
      return reopened(state, event.number);
    case "told":
      return setOrder(state, { ...openOrder(state, event.number), told: event.how });
    case "paused":
      return state.setDesk({ ...state.desk, paused: { reason: event.reason, since: at } });
    case "resumed":
      return state.setDesk({ ...state.desk, paused: null });
    case "requoted":
      return setOrder(state, { ...openOrder(state, event.number), dueBy: event.dueBy });
    case "press-down":
      return setDown(state, event.press, true);
    case "press-up":
      return setDown(state, event.press, false);
    default:
      return event satisfies never;
  }
}

function counted(state: StallState, piece: PieceKey, pieces: number): void {
  const count = state.count(piece);
  const field = count === NOTHING_COUNTED ? "opening" : "corrected";
  state.counts.set(piece, { ...count, [field]: count[field] + pieces - onHand(count) });
}

function addCount(
  state: StallState,
  piece: PieceKey,
  field: "delivered" | "corrected" | "pressed" | "spoiled",
  pieces: number,
): void {
  const count = state.count(piece);
  state.counts.set(piece, { ...count, [field]: count[field] + pieces });
}

function tally(state: StallState, at: Instant, change: (bucket: Bucket) => Partial<Bucket>): void {
  const key = bucketKey(at);
  const bucket = state.buckets.get(key) ?? EMPTY_BUCKET;
  state.buckets.set(key, { ...bucket, ...change(bucket), changed: state.version + 1 });
}

function asked(state: StallState, { garments, unmet }: EventOf<"asked">, at: Instant): void {
  tally(state, at, (bucket) => ({
    asked: bucket.asked + garments,
    unmet: bucket.unmet + (unmet === null ? 0 : garments),
    unmetSoldOut: bucket.unmetSoldOut + (unmet === "sold-out" ? garments : 0),
    unmetClosed: bucket.unmetClosed + (unmet === "closed" ? garments : 0),
    unmetWait: bucket.unmetWait + (unmet === "too-long" ? garments : 0),
  }));
}

function openOrder(state: StallState, number: number): Order {
  const order = state.order(number);
  if (order === undefined) throw new Error(`the journal names order ${number}, which is not open`);
  return order;
}

function setOrder(state: StallState, order: Order): void {
  state.orders.set(orderKey(order.number), order);
}

function changeJob(
  state: StallState,
  { number, n }: { readonly number: number; readonly n: number },
  change: (job: Job) => Job,
): void {
  const order = openOrder(state, number);
  setOrder(state, withJob(order, change(jobOf(order, n))));
}

/** What a job keeps in every stage. */
const bare = (job: Job, at: Instant) => ({ n: job.n, line: job.line, since: at });

/** Where in line a job stands, to be kept when its stage changes. */
function rank(job: Job): { readonly turn: number; readonly overtaken: number } {
  if (job.stage === "to-pay") throw new Error("a garment that is not paid for has no turn");
  return { turn: job.turn, overtaken: job.stage === "pressed" ? 0 : job.overtaken };
}

/** The next free number; those kept for paper are stepped over. */
const numberAfter = (number: number): number => (number === 899 ? 1000 : number + 1);

function placed(state: StallState, order: Order): void {
  state.holds.delete(order.customer);
  setOrder(state, order);
  if (order.takenBy !== "paper") state.setDesk({ ...state.desk, nextNumber: numberAfter(order.number) });
  tally(state, order.placedAt, (bucket) => ({
    placed: bucket.placed + 1,
    garments: bucket.garments + garmentsOf(order.lines),
  }));
}

function paid(
  state: StallState,
  { number, tender, amount, dueBy, turn }: EventOf<"paid">,
  at: Instant,
): void {
  const order = openOrder(state, number);
  const payment = { tender, amount, at };
  if (order.waitsFrom !== null) return setOrder(state, { ...order, paid: payment });
  const jobs = order.jobs.map(
    (job): Job => ({ ...bare(job, at), stage: "waiting", turn: turn + job.n, overtaken: 0 }),
  );
  setOrder(state, { ...order, paid: payment, jobs, waitsFrom: at, dueBy });
}

function unpaid(state: StallState, { number, leavesLine }: EventOf<"unpaid">, at: Instant): void {
  const order = { ...openOrder(state, number), paid: null };
  if (!leavesLine) return setOrder(state, order);
  const jobs = order.jobs.map((job): Job => ({ ...bare(job, at), stage: "to-pay" }));
  setOrder(state, { ...order, jobs, waitsFrom: null, dueBy: null });
}

function pulled(state: StallState, event: EventOf<"pulled">, at: Instant): void {
  changeJob(state, event, (job) => ({
    ...bare(job, at),
    ...rank(job),
    stage: "pressing",
    press: event.press,
  }));
  const order = openOrder(state, event.number);
  const { design } = lineOf(order, jobOf(order, event.n));
  const press = state.press(event.press);
  if (press.design !== design) state.presses.set(event.press, { ...press, design });
}

function pressed(state: StallState, event: EventOf<"pressed">, at: Instant): void {
  changeJob(state, event, (job) => {
    if (job.stage !== "pressing") throw new Error(`garment ${event.number}-${event.n} is not on a press`);
    return { ...bare(job, at), stage: "pressed", press: job.press, turn: job.turn };
  });
  const order = openOrder(state, event.number);
  const line = lineOf(order, jobOf(order, event.n));
  for (const piece of piecesOf(line)) addCount(state, piece, "pressed", 1);
  if (state.menu !== null) {
    state.setPace(learnt(state.menu, state.pace, workClass(line.platen, line.kind), event.seconds));
  }
  tally(state, at, (bucket) => ({
    pressed: bucket.pressed + 1,
    pressSeconds: bucket.pressSeconds + event.seconds,
  }));
  if (stageOf(order) !== "ready") return;
  setOrder(state, { ...order, readyAt: at });
  countReady(state, order, at, 1);
}

/** Counts an order as ready at an instant (its wait, its promise), or takes that count back. */
function countReady(state: StallState, order: Order, readyAt: Instant, times: 1 | -1): void {
  const { waitsFrom, dueBy } = order;
  tally(state, readyAt, (bucket) => ({
    ...(waitsFrom === null ? {} : { waits: withValue(bucket.waits, (readyAt - waitsFrom) / 1000, times) }),
    promised: bucket.promised + (dueBy === null ? 0 : times),
    kept: bucket.kept + (dueBy !== null && readyAt <= dueBy ? times : 0),
  }));
}

/** A pressed garment no longer counts as pressed; its order is no longer ready. */
function takeBackPress(state: StallState, order: Order, n: number): void {
  const job = jobOf(order, n);
  for (const piece of piecesOf(lineOf(order, job))) addCount(state, piece, "pressed", -1);
  tally(state, job.since, (bucket) => ({ pressed: bucket.pressed - 1 }));
  if (order.readyAt === null) return;
  countReady(state, order, order.readyAt, -1);
  setOrder(state, { ...order, readyAt: null, told: null });
}

function spoiled(state: StallState, event: EventOf<"spoiled">, at: Instant): void {
  const order = openOrder(state, event.number);
  const job = jobOf(order, event.n);
  if (job.stage === "pressed") takeBackPress(state, order, event.n);
  for (const piece of lostPieces(lineOf(order, job), event.lost)) addCount(state, piece, "spoiled", 1);
  changeJob(state, event, (spoilt) => ({
    ...bare(spoilt, at),
    stage: "waiting",
    turn: event.turn,
    overtaken: 0,
  }));
  tally(state, at, (bucket) => ({ spoiled: bucket.spoiled + 1 }));
}

/** Closes an order, open or already closed: a collected one may be refunded later. */
function closed(state: StallState, number: number, as: Closed["as"], at: Instant): void {
  const order = state.anyOrder(number);
  if (order === undefined) throw new Error(`the journal closes order ${number}, which does not exist`);
  const how: Closed = { as, at, before: order.closed };
  state.orders.delete(orderKey(number));
  state.past.set(orderKey(number), { ...order, closed: how });
  countClosed(state, how, 1);
}

/** Takes back the last closing: the order stands as it did before it. */
function reopened(state: StallState, number: number): void {
  const order = state.past.get(orderKey(number));
  if (order === undefined || order.closed === null) {
    throw new Error(`the journal reopens order ${number}, which is not closed`);
  }
  countClosed(state, order.closed, -1);
  const before: Order = { ...order, closed: order.closed.before };
  if (before.closed !== null) return state.past.set(orderKey(number), before);
  state.past.delete(orderKey(number));
  setOrder(state, before);
}

function countClosed(state: StallState, { as, at }: Closed, times: 1 | -1): void {
  if (as !== "collected" && as !== "dropped") return;
  tally(state, at, (bucket) => ({ [as]: bucket[as] + times }));
}

function setDown(state: StallState, press: PressId, down: boolean): void {
  state.presses.set(press, { ...state.press(press), down });
}
