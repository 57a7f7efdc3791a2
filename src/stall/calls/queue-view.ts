/** The press screen's view of the queue. */

import { type DesignId, jobId, type PressId, skuOf } from "../../model/basics/ids.ts";
import type { Menu, Press } from "../../model/menu/catalogue.ts";
import { cautionsFor } from "../../model/menu/cautions.ts";
import type { FloorView, JobView, QueueView } from "../../model/orders/queue.ts";
import { type Instant, iso, isoOrNull, MINUTE } from "../../time/instants.ts";
import { backlogEnds, intakeEnds, lastOrdersCalled } from "../line/closing-time.ts";
import { silentFrom } from "../line/forecast.ts";
import { reservedFor, reserveUntil } from "../line/reserve.ts";
import { liftedUntil } from "../rules/decide/intake.ts";
import { TURNS_PER_ORDER } from "../rules/decide/numbering.ts";
import { openingAt, whyStopped } from "../state/opening.ts";
import type { QueuedGarment } from "../state/order-index.ts";
import { garmentsOf, isUnclaimed, jobIn, lineOf, stageOf, unpaidUntil } from "../state/orders.ts";
import type { Job } from "../state/shapes/job.ts";
import type { PieceKey } from "../state/shapes/piece.ts";
import type { StallState } from "../state/state.ts";
import { offerParts } from "../stock/offers.ts";
import { runningOut } from "../stock/running-out.ts";
import type { People } from "../storage/people.ts";
import { wishNames } from "./views.ts";

/** The name of a piece in a view: a blank's sku, or a transfer's design. */
const pieceName = (piece: PieceKey): string => piece.replace(/^sku:/, "");

/** The most rows of any list that a screen is sent. */
const SHOWN = 20;
const READY_LOOKED_AT = 200;
/** The temperature that the press had to be set to for a garment, and about how long that takes; null if unchanged. */
function setToFor(state: StallState, job: Job): JobView["setTo"] {
  if (job.stage !== "pressing") return null;
  const { heat } = state.press(job.press);
  if (heat === null || heat.readyAt <= job.since) return null;
  const aboutMinutes = Math.ceil((heat.readyAt - job.since) / MINUTE);
  return { fahrenheit: heat.fahrenheit, aboutMinutes, readyAt: iso(heat.readyAt) };
}

/** One garment as the press screen shows it. */
/** What customers wrote about their orders and garments, in their own words. */
type Words = Pick<People, "wishOf" | "noteOf">;
const NO_WORDS: Words = { wishOf: () => undefined, noteOf: () => undefined };

function jobView(
  state: StallState,
  menu: Menu,
  { number, n }: { readonly number: number; readonly n: number },
  people: Words,
): JobView | null {
  const order = state.order(number);
  const job = jobIn(order, n);
  if (order === undefined || job === undefined) return null;
  const line = lineOf(order, job);
  const choice = offerParts(menu, line.offer);
  // The menu must keep every offer that an open order has.
  if (choice === undefined) throw new Error(`order ${number}: offer ${line.offer} is not on the menu`);
  const { offer, blank, design } = choice;
  const { wishes, own, second = [] } = line;
  const note = people.noteOf(number, n);
  const wish = order.takenBy === "text" || order.takenBy === "web" ? people.wishOf(number) : undefined;
  return {
    job: jobId(number, n),
    number,
    offer: offer.id,
    name: offer.name,
    blank: blank.id,
    blankName: blank.name,
    colour: line.colour,
    colourName: blank.colours.find(({ id }) => id === line.colour)?.name ?? line.colour,
    size: line.size,
    sizeName: blank.sizes.find(({ id }) => id === line.size)?.name ?? line.size,
    sku: skuOf(line.blank, line.colour, line.size),
    design: design.id,
    designName: design.name,
    unclaimed: isUnclaimed(order),
    kind: design.kind,
    platen: blank.platen,
    settings: design.settings,
    placement: design.placement ?? null,
    cautions: cautionsFor(blank, design),
    stage: job.stage,
    since: iso(job.since),
    dueBy: isoOrNull(order.dueBy),
    garments: order.jobs.length,
    letGo: (job.letGo ?? []).map(({ press, silentSince }) => ({ press, silentSince: iso(silentSince) })),
    setTo: setToFor(state, job),
    ...(wish === undefined ? {} : { wish }),
    ...(wishes === undefined ? {} : { wishes: wishNames(menu, wishes) }),
    ...(note === undefined ? {} : { note }),
    ...(own === undefined ? {} : { ownGarment: own }),
    ...(second.length === 0 ? {} : { second: second.flatMap((id) => transferView(menu, id)) }),
  };
}

/** A second transfer on a garment, with its press settings. */
function transferView({ designs }: Menu, id: DesignId): NonNullable<JobView["second"]> {
  const design = designs.find((other) => other.id === id);
  if (design === undefined) throw new Error(`a garment in line has design ${id}, which is not on the menu`);
  const { name, kind, settings, placement = null } = design;
  return [{ design: id, designName: name, kind, settings, placement }];
}

/** The job on a press, or null. */
export function pressView(state: StallState, menu: Menu, press: PressId, people = NO_WORDS): JobView | null {
  const on = state.orderIndex.onPress.get(press);
  return on === undefined ? null : jobView(state, menu, on, people);
}

/** The first garments of both lines, merged by turn. */
function nextUp(state: StallState): readonly QueuedGarment[] {
  const { flat, cap } = state.orderIndex.waiting;
  return [...flat.first(SHOWN), ...cap.first(SHOWN)]
    .sort((one, other) => one.turn - other.turn)
    .slice(0, SHOWN);
}

/** The reserved garments that a silent press lost, and where each garment is now. */
function letGoView(state: StallState, press: PressId): QueueView["presses"][number]["letGo"] {
  const { letGo } = state.press(press);
  if (letGo === undefined) return null;
  return {
    at: iso(letGo.at),
    silentSince: iso(letGo.silentSince),
    jobs: letGo.jobs.map(({ number, n }) => {
      const job = jobIn(state.order(number), n);
      return {
        job: jobId(number, n),
        stage: job?.stage ?? null,
        press: job !== undefined && "press" in job ? job.press : null,
      };
    }),
  };
}

function pressRow(
  state: StallState,
  menu: Menu,
  press: Press,
  people: Words,
  now: Instant,
): QueueView["presses"][number] {
  const { id, platen } = press;
  const { downSince, heat, reserves } = state.press(id);
  const reserve = reservedFor(state, id);
  return {
    press: id,
    platen,
    job: pressView(state, menu, id, people),
    downSince: isoOrNull(downSince),
    fahrenheit: heat?.fahrenheit ?? null,
    reserves,
    reserveUntil: isoOrNull(reserveUntil(state, id)),
    reserve: reserve.flatMap((job) => jobView(state, menu, job, people) ?? []),
    askedBack: reserve.flatMap(({ number, n }) => {
      const job = jobIn(state.order(number), n);
      return job?.stage === "reserved" && job.askedBack === true ? [jobId(number, n)] : [];
    }),
    letGo: letGoView(state, id),
    silentFrom: isoOrNull(silentFrom(state, menu, press, now)),
  };
}

function intakeView(state: StallState, menu: Menu, now: Instant): QueueView["intake"] {
  const opening = openingAt(state, now);
  const closes = opening.open ? opening.closes : null;
  const ends = intakeEnds(state, menu, now);
  return {
    open: opening.open && whyStopped(state.status) === null && (ends === null || now <= ends),
    lastOrders: lastOrdersCalled(state, now),
    keptOpen: closes !== null && state.status.keptOpen === closes,
    endsAt: isoOrNull(ends ?? closes),
    closes: isoOrNull(closes),
  };
}

export function floorView(state: StallState, menu: Menu, now: Instant): FloorView {
  const { version, status, orderIndex } = state;
  return {
    version,
    paused: status.paused?.reason ?? null,
    intake: intakeView(state, menu, now),
    hands: status.hands,
    offMenu: status.offMenu.map(pieceName),
    presses: menu.presses.map(({ id }) => {
      const { downSince, heat, reserves } = state.press(id);
      const on = orderIndex.onPress.get(id);
      return {
        press: id,
        downSince: isoOrNull(downSince),
        fahrenheit: heat?.fahrenheit ?? null,
        reserves,
        reserveUntil: isoOrNull(reserveUntil(state, id)),
        job: on === undefined ? null : jobId(on.number, on.n),
        reserve: reservedFor(state, id).map(({ number, n }) => jobId(number, n)),
      };
    }),
  };
}

/** The latest ready orders whose text failed. */
function notToldOf(state: StallState): number[] {
  return state.orderIndex.ready
    .last(READY_LOOKED_AT)
    .map(({ key }) => Number(key))
    .filter((number) => state.order(number)?.told === "failed")
    .slice(-SHOWN);
}

/** The oldest unclaimed web orders: they hold stock, and the crew can drop each with one tap. */
function unclaimedOf(state: StallState): QueueView["unclaimed"] {
  return state.orderIndex.unclaimed.first(SHOWN).flatMap(({ key }) => {
    const order = state.order(Number(key));
    if (order === undefined) return [];
    return [
      {
        number: order.number,
        garments: garmentsOf(order.lines),
        inLine: stageOf(order) !== "to-claim" && stageOf(order) !== "to-pay",
      },
    ];
  });
}

/** The unpaid orders that will be dropped next. */
function unpaidOf(state: StallState, menu: Menu): QueueView["unpaid"] {
  return state.orderIndex.toPay.first(SHOWN).flatMap(({ key }) => {
    const order = state.order(Number(key));
    const until = order === undefined ? null : unpaidUntil(menu, order);
    if (order === undefined || until === null) return [];
    const total = { amount: order.total, currency: menu.currency };
    return [{ number: order.number, total, dropsAt: iso(until) }];
  });
}

/** The organiser's announcements that are neither over nor read. */
function fromOrganiser({
  status: { fairStop = null },
  announcements,
}: StallState): Pick<QueueView, "fairStop" | "announcements"> {
  const unread = [...announcements.values()].filter(({ readAt }) => readAt === null);
  return {
    fairStop: fairStop && { ...fairStop, since: iso(fairStop.since) },
    announcements: unread
      .sort((one, other) => one.at - other.at)
      .map(({ id, text, at }) => ({ id, text, at: iso(at) })),
  };
}

export function queueView(
  state: StallState,
  menu: Menu,
  now: Instant,
  textsRestUntil: Instant | null = null,
  people = NO_WORDS,
): QueueView {
  const { orderIndex } = state;
  const jobs = (placed: readonly QueuedGarment[]): JobView[] =>
    placed.flatMap(({ number, n }) => jobView(state, menu, { number, n }, people) ?? []);
  const reserved = [...orderIndex.reserved.values()].reduce((sum, list) => sum + list.length, 0);
  return {
    version: state.version,
    asOf: iso(now),
    paused: state.status.paused?.reason ?? null,
    ...fromOrganiser(state),
    webOrders: menu.rules.webOrders && state.status.webOrders,
    intake: intakeView(state, menu, now),
    hands: state.status.hands,
    backlogEnds: isoOrNull(backlogEnds(state, menu, now)),
    presses: menu.presses.map((press) => pressRow(state, menu, press, people, now)),
    next: jobs(nextUp(state)),
    short: jobs(orderIndex.short.first(SHOWN)),
    ready: orderIndex.ready.last(SHOWN).map(({ key }) => Number(key)),
    notTold: notToldOf(state),
    textsRestUntil: isoOrNull(textsRestUntil),
    newest: newestOf(state),
    unclaimed: unclaimedOf(state),
    unpaid: unpaidOf(state, menu),
    claimsLiftedUntil: isoOrNull(liftedUntil(state, now)),
    counts: {
      toPay: orderIndex.toPay.length,
      toClaim: orderIndex.toClaim.length,
      waiting: orderIndex.waiting.flat.length + orderIndex.waiting.cap.length + reserved,
      short: orderIndex.short.length,
      pressing: orderIndex.onPress.size,
      ready: orderIndex.ready.length,
    },
    low: runningOut(state, menu, now)
      .slice(0, SHOWN)
      .map(({ piece, free, emptyAt }) => ({
        sku: pieceName(piece),
        free,
        emptyAt: isoOrNull(emptyAt),
      })),
    offMenu: state.status.offMenu.map(pieceName),
  };
}

/** The order that joined the line last of those that are not ready, with when that was as a number that only grows. */
function newestOf({ orderIndex }: StallState): NonNullable<QueueView["newest"]> | null {
  const [last] = orderIndex.underWay.last(1);
  // What is made again goes ahead of all, by a turn below 0: that is no new order.
  return last === undefined
    ? null
    : { number: last.number, sequence: Math.max(0, Math.floor(last.turn / TURNS_PER_ORDER)) };
}
