/** What each reader sees of a stall. */

import type { Menu } from "../model/catalogue.ts";
import { jobId } from "../model/ids.ts";
import type { MenuView } from "../model/menu-view.ts";
import type { BoardView, OrderView } from "../model/order.ts";
import type { StockView } from "../model/stock.ts";
import type { Instant } from "../time/instants.ts";
import { iso, isoOrNull } from "../time/instants.ts";
import { lastOrdersCalled } from "./closing-time.ts";
import type { Order, PieceKey } from "./facts.ts";
import { choiceOf, coloursOf, freeOf, sizesOf } from "./offers.ts";
import { openingAt } from "./opening.ts";
import { jobOf, stageOf } from "./orders.ts";
import { skusOf } from "./skus.ts";
import type { StallState } from "./state.ts";
import { onHand, skuKey, transferKey } from "./stock.ts";
import { minutesLeft, placeOf, quoteMinutes } from "./wait.ts";

/** How many rows of anything the board is sent. */
const BOARD_SHOWN = 40;

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
    lastOrders: lastOrdersCalled(state, now),
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

/** That a garment is kept aside for a press is the crew's business: to its customer it waits. */
function jobStage(order: Order, n: number): OrderView["jobs"][number]["stage"] {
  const { stage } = jobOf(order, n);
  return stage === "aside" ? "waiting" : stage;
}

export function orderView(state: StallState, menu: Menu, order: Order, now: Instant): OrderView {
  const money = (amount: number) => ({ amount, currency: menu.currency });
  return {
    number: order.number,
    stage: stageOf(order),
    place: placeOf(state, order),
    quoteMinutes: minutesLeft(state, menu, order, now),
    word: order.word,
    lines: order.lines
      .filter((line) => line.quantity > 0)
      .map(({ offer, blank, design, colour, size, quantity, each }) => ({
        offer,
        name: choiceOf(menu, offer)?.offer.name ?? offer,
        blank,
        design,
        colour,
        size,
        quantity,
        each,
      })),
    jobs: order.jobs.map(({ n }) => ({ job: jobId(order.number, n), stage: jobStage(order, n) })),
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
