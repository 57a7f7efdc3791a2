/** The views of a stall, by reader. */

import { jobId, type OfferId, type WishId } from "../../model/basics/ids.ts";
import { type Look, lookOf } from "../../model/garment/look.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { MenuView } from "../../model/menu/menu-view.ts";
import { priceOf } from "../../model/menu/prices.ts";
import type { OrderView } from "../../model/orders/order.ts";
import type { BoardView } from "../../model/orders/queue.ts";
import type { Instant } from "../../time/instants.ts";
import { iso, isoOrNull } from "../../time/instants.ts";
import { lastOrdersCalled } from "../line/closing-time.ts";
import { minutesLeft, placeOf, quoteMinutes } from "../line/quote.ts";
import { openingAt, whyStopped } from "../state/opening.ts";
import { jobOf, stageOf } from "../state/orders.ts";
import type { Order } from "../state/shapes/order.ts";
import type { StallState } from "../state/state.ts";
import { coloursOf, freeOf, offerParts, sizesOf } from "../stock/offers.ts";

/** The most rows of any list that the board is sent. */
const BOARD_SHOWN = 40;

export function boardView(state: StallState, now: Instant): BoardView {
  const { orderIndex } = state;
  const pressing = new Set([...orderIndex.onPress.values()].map(({ number }) => number));
  const waiting = orderIndex.underWay
    .first(BOARD_SHOWN + pressing.size)
    .filter(({ number }) => !pressing.has(number));
  const shown = waiting.slice(0, BOARD_SHOWN).map(({ number }) => number);
  return {
    version: state.version,
    asOf: iso(now),
    stall: state.identity?.name ?? "",
    ready: orderIndex.ready.last(BOARD_SHOWN).map(({ key }) => Number(key)),
    pressing: [...pressing],
    waiting: shown,
    more: Math.max(0, orderIndex.underWay.length - pressing.size - shown.length),
  };
}

export function menuView(state: StallState, menu: Menu, now: Instant): MenuView {
  return {
    stall: state.identity?.name ?? "",
    currency: menu.currency,
    open: openingAt(state, now).open,
    paused: whyStopped(state.status) !== null,
    lastOrders: lastOrdersCalled(state, now),
    waitMinutes: waitForOne(state, menu, now),
    offers: menu.offers.flatMap((offer, index) => {
      const choice = offerParts(menu, offer.id);
      if (choice === undefined || !offer.offered) return [];
      const left = coloursOf(choice).flatMap((colour) =>
        sizesOf(choice).map((size) => ({
          colour: colour.id,
          colourName: colour.name,
          size: size.id,
          sizeName: size.name,
          free: freeOf(state, choice, colour, size),
          price: priceOf(offer, size),
        })),
      );
      return [{ number: index + 1, offer: offer.id, name: offer.name, price: offer.price, left }];
    }),
    ...bundlesShown(menu),
    ...taxShown(menu),
    looks: looksOf(state, menu),
  };
}

function bundlesShown({ bundles = [] }: Menu): Pick<MenuView, "bundles"> {
  const shown = bundles.filter(({ offered }) => offered);
  if (shown.length === 0) return {};
  return {
    bundles: shown.map(({ id, name, translations, price, takes }) => ({
      bundle: id,
      name,
      ...(translations === undefined ? {} : { translations }),
      price,
      takes,
    })),
  };
}

function taxShown({ rules: { taxPartsPerMillion, taxInPrice } }: Menu): Pick<MenuView, "tax"> {
  return taxPartsPerMillion === 0
    ? {}
    : { tax: { partsPerMillion: taxPartsPerMillion, inPrice: taxInPrice } };
}

function looksOf(state: StallState, menu: Menu): MenuView["looks"] {
  const looks: Partial<Record<OfferId, Look>> = {};
  for (const { id } of menu.offers) {
    const look = lookOf(menu, (design) => state.pictures.get(design), id);
    if (look !== undefined) looks[id] = look;
  }
  return looks;
}

/** The wait for one garment of the first offer that is still on sale. */
function waitForOne(state: StallState, menu: Menu, now: Instant): number {
  const offer = menu.offers.find(({ offered }) => offered);
  const choice = offer && offerParts(menu, offer.id);
  if (choice === undefined) return 0;
  return quoteMinutes(
    state,
    menu,
    [{ platen: choice.blank.platen, kind: choice.design.kind, quantity: 1 }],
    now,
  );
}

/** A reserved garment is shown to its customer as waiting. */
function jobStage(order: Order, n: number): OrderView["jobs"][number]["stage"] {
  const { stage } = jobOf(order, n);
  return stage === "reserved" ? "waiting" : stage;
}

/** Wishes with their names; a wish that has left the menu keeps its id as its name. */
export const wishNames = ({ wishes = [] }: Menu, ids: readonly WishId[]) =>
  ids.map((wish) => ({ wish, name: wishes.find(({ id }) => id === wish)?.name ?? wish }));

export const orderView = (state: StallState, menu: Menu, order: Order, now: Instant): OrderView => ({
  ...orderFacts(menu, order),
  place: placeOf(state, order),
  quoteMinutes: minutesLeft(state, menu, order, now),
});

/** All of an order's view that does not depend on the line before it. */
export function orderFacts(menu: Menu, order: Order): Omit<OrderView, "place" | "quoteMinutes"> {
  const money = (amount: number) => ({ amount, currency: menu.currency });
  return {
    number: order.number,
    stage: stageOf(order),
    word: order.word,
    lines: order.lines
      .filter((line) => line.quantity > 0)
      .map(({ offer, blank, design, colour, size, quantity, each, wishes, off = 0, lowered, asSecond }) => ({
        offer,
        name: offerParts(menu, offer)?.offer.name ?? offer,
        blank,
        design,
        colour,
        size,
        quantity,
        each,
        ...(off === 0 && lowered === undefined ? {} : { off: off + (lowered?.by ?? 0) * quantity }),
        ...(wishes === undefined ? {} : { wishes: wishNames(menu, wishes) }),
        ...(asSecond === undefined ? {} : { second: true as const }),
      })),
    jobs: order.jobs.map(({ n, line }) => ({
      job: jobId(order.number, n),
      stage: jobStage(order, n),
      line: order.lines.slice(0, line).filter(({ quantity }) => quantity > 0).length,
    })),
    total: money(order.total),
    tax: money(order.tax),
    taxInPrice: order.taxInPrice ?? false,
    placedAt: iso(order.placedAt),
    dueBy: isoOrNull(order.dueBy),
    paid: order.paid && {
      tender: order.paid.tender,
      amount: money(order.paid.amount),
      at: iso(order.paid.at),
      ...(order.paid.parts === undefined
        ? {}
        : {
            parts: order.paid.parts.map(({ tender, amount }) => ({ tender, amount: money(amount) })),
          }),
    },
    ...(order.exchangeOf === undefined ? {} : { exchangeOf: order.exchangeOf }),
    ...(order.due === undefined ? {} : { due: money(order.due) }),
    ...(order.bundles === undefined
      ? {}
      : {
          bundles: order.bundles.map(({ bundle, times, saving }) => ({
            bundle,
            name: menu.bundles?.find(({ id }) => id === bundle)?.name ?? bundle,
            times,
            saving: money(saving),
          })),
        }),
    ...(order.discount === undefined
      ? {}
      : { discount: { amount: money(order.discount.amount), reason: order.discount.reason } }),
    ...(order.tips === undefined
      ? {}
      : { tips: money(order.tips.reduce((sum, { amount }) => sum + amount, 0)) }),
  };
}
