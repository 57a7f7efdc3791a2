/** What each reader sees of a stall. */
import type { Menu } from "../model/catalogue.ts";
import { jobId, type PressId, skuOf } from "../model/ids.ts";
import type { BoardView, JobView, MenuView, OrderView, QueueView } from "../model/order.ts";
import type { StockView } from "../model/stock.ts";
import { cautionsFor } from "./cautions.ts";
import { skusOf } from "./decide/stocktaking.ts";
import type { Instant, Order, PieceKey } from "./facts.ts";
import { choiceOf, coloursOf, freeOf, sizesOf } from "./offers.ts";
import { openingAt } from "./opening.ts";
import { jobOf, lineOf, stageOf } from "./orders.ts";
import type { Placed } from "./queue.ts";
import type { StallState } from "./state.ts";
import { onHand, skuKey, transferKey } from "./stock.ts";
import { minutesLeft, placeOf, quoteMinutes } from "./wait.ts";

/** How many rows of anything a screen is sent. */
const SHOWN = 20;
const READY_LOOKED_AT = 200;
const BOARD_SHOWN = 40;

export const iso = (at: Instant): string => new Date(at).toISOString();
const isoOrNull = (at: Instant | null): string | null => (at === null ? null : iso(at));

/** One garment as the press screen shows it. */
export function jobView(state: StallState, menu: Menu, number: number, n: number): JobView | null {
  const order = state.order(number);
  const job = order?.jobs[n - 1];
  if (order === undefined || job === undefined) return null;
  const line = lineOf(order, job);
  const choice = choiceOf(menu, line.offer);
  // An open order's offer cannot leave the menu.
  if (choice === undefined) throw new Error(`order ${number}: offer ${line.offer} is not on the menu`);
  const { offer, blank, design } = choice;
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
    kind: design.kind,
    platen: blank.platen,
    settings: design.settings,
    placement: design.placement ?? null,
    cautions: cautionsFor(blank, design),
    stage: job.stage,
    since: iso(job.since),
    dueBy: isoOrNull(order.dueBy),
    garments: order.jobs.length,
  };
}

/** The job on a press, or null. */
export function pressView(state: StallState, menu: Menu, press: PressId): JobView | null {
  const on = state.standing.onPress.get(press);
  return on === undefined ? null : jobView(state, menu, on.number, on.n);
}

/** The first garments of both lines together, by turn. */
function nextUp(state: StallState): readonly Placed[] {
  const { flat, cap } = state.standing.waiting;
  return [...flat.first(SHOWN), ...cap.first(SHOWN)]
    .sort((one, other) => one.turn - other.turn)
    .slice(0, SHOWN);
}

export function queueView(state: StallState, menu: Menu, now: Instant): QueueView {
  const { standing } = state;
  const jobs = (placed: readonly Placed[]): JobView[] =>
    placed.flatMap(({ number, n }) => jobView(state, menu, number, n) ?? []);
  return {
    version: state.version,
    asOf: iso(now),
    paused: state.desk.paused?.reason ?? null,
    webOrders: menu.rules.webOrders && state.desk.webOrders,
    presses: menu.presses.map(({ id, platen }) => ({ press: id, platen, job: pressView(state, menu, id) })),
    next: jobs(nextUp(state)),
    short: jobs(standing.short.first(SHOWN)),
    ready: standing.ready.last(SHOWN).map(({ key }) => Number(key)),
    notTold: notToldOf(state),
    counts: {
      toPay: standing.toPay.length,
      waiting: standing.waiting.flat.length + standing.waiting.cap.length,
      short: standing.short.length,
      pressing: standing.onPress.size,
      ready: standing.ready.length,
    },
    low: lowStock(state, menu),
  };
}

/** The latest ready orders whose text failed. */
function notToldOf(state: StallState): number[] {
  return state.standing.ready
    .last(READY_LOOKED_AT)
    .map(({ key }) => Number(key))
    .filter((number) => state.order(number)?.told === "failed")
    .slice(-SHOWN);
}

/** What of the menu is running low, least first, once it was counted at all. */
function lowStock(state: StallState, menu: Menu): QueueView["low"] {
  const pieces: PieceKey[] = [...skusOf(menu).map(skuKey), ...menu.designs.map(({ id }) => transferKey(id))];
  return pieces
    .filter((piece) => state.counts.get(piece) !== undefined && state.free(piece) <= menu.rules.lowStock)
    .map((piece) => ({
      sku: piece.replace(/^sku:/, ""),
      free: Math.max(0, state.free(piece)),
      emptyAt: null,
    }))
    .sort((one, other) => one.free - other.free)
    .slice(0, SHOWN);
}

export function boardView(state: StallState, now: Instant): BoardView {
  const { standing } = state;
  const pressing = new Set([...standing.onPress.values()].map(({ number }) => number));
  const waiting = standing.underWay
    .first(BOARD_SHOWN + pressing.size)
    .filter(({ number }) => !pressing.has(number));
  const shown = waiting.slice(0, BOARD_SHOWN).map(({ number }) => number);
  return {
    version: state.version,
    asOf: iso(now),
    stall: state.identity?.name ?? "",
    ready: standing.ready.last(BOARD_SHOWN).map(({ key }) => Number(key)),
    pressing: [...pressing],
    waiting: shown,
    more: Math.max(0, standing.underWay.length - pressing.size - shown.length),
  };
}

export function stockView(state: StallState, menu: Menu): StockView {
  const counts = (piece: PieceKey) => ({
    onHand: onHand(state.count(piece)),
    promised: state.standing.promises.of(piece),
    free: state.free(piece),
  });
  return {
    skus: skusOf(menu).map((sku) => ({ sku, ...counts(skuKey(sku)) })),
    transfers: menu.designs.map(({ id }) => ({ design: id, ...counts(transferKey(id)) })),
  };
}

export function menuView(state: StallState, menu: Menu, now: Instant): MenuView {
  return {
    stall: state.identity?.name ?? "",
    currency: menu.currency,
    open: openingAt(state, now).open,
    paused: state.desk.paused !== null,
    waitMinutes: waitForOne(state, menu, now),
    offers: menu.offers.flatMap((offer, index) => {
      const choice = choiceOf(menu, offer.id);
      if (choice === undefined || !offer.offered) return [];
      const left = coloursOf(choice).flatMap((colour) =>
        sizesOf(choice).map((size) => ({
          colour: colour.id,
          colourName: colour.name,
          size: size.id,
          sizeName: size.name,
          free: freeOf(state, choice, colour, size),
        })),
      );
      return [{ number: index + 1, offer: offer.id, name: offer.name, price: offer.price, left }];
    }),
  };
}

/** The wait for one garment of the first offer that is still sold. */
function waitForOne(state: StallState, menu: Menu, now: Instant): number {
  const offer = menu.offers.find(({ offered }) => offered);
  const choice = offer && choiceOf(menu, offer.id);
  if (choice === undefined) return 0;
  return quoteMinutes(
    state,
    menu,
    [{ platen: choice.blank.platen, kind: choice.design.kind, quantity: 1 }],
    now,
  );
}

export function orderView(state: StallState, menu: Menu, order: Order, now: Instant): OrderView {
  const money = (amount: number) => ({ amount, currency: menu.currency });
  return {
    number: order.number,
    stage: stageOf(order),
    place: placeOf(state, order),
    quoteMinutes: minutesLeft(state, menu, order, now),
    word: order.word,
    lines: order.lines.map(({ offer, blank, design, colour, size, quantity, each }) => ({
      offer,
      name: choiceOf(menu, offer)?.offer.name ?? offer,
      blank,
      design,
      colour,
      size,
      quantity,
      each,
    })),
    jobs: order.jobs.map(({ n }) => ({ job: jobId(order.number, n), stage: jobOf(order, n).stage })),
    total: money(order.total),
    tax: money(order.tax),
    placedAt: iso(order.placedAt),
    dueBy: isoOrNull(order.dueBy),
    paid: order.paid && {
      tender: order.paid.tender,
      amount: money(order.paid.amount),
      at: iso(order.paid.at),
    },
  };
}
