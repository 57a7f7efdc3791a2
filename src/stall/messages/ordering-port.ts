/** The stall as a conversation meets it: the same rules, spoken to by one customer. */

import type {
  ChatChange,
  ChatOrder,
  ChatOutcome,
  ChatRequest,
  Garment,
  OrderingPort,
} from "../../chat/talk/ordering-port.ts";
import type { CustomerId } from "../../model/basics/ids.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { PhoneNumber, WantedLine } from "../../model/orders/order.ts";
import type { Instant } from "../../time/instants.ts";
import { lastOrdersCalled } from "../line/closing-time.ts";
import { minutesLeft, placeOf, quoteMinutes } from "../line/quote.ts";
import type { AskMark, Command, OrderChange } from "../rules/commands.ts";
import { heldPrices } from "../rules/decide/ordering.ts";
import { PICKUP_WORD_SET } from "../rules/decide/pickup-words.ts";
import { openingAt, opensAfter, stoppedSince, whyStopped } from "../state/opening.ts";
import { lineOf, orderKey, shortOf, stageOf } from "../state/orders.ts";
import type { StallEvent } from "../state/shapes/event.ts";
import type { Job } from "../state/shapes/job.ts";
import type { Line } from "../state/shapes/line.ts";
import type { Order } from "../state/shapes/order.ts";

import { coloursOf, freeOf, lineFor, offerParts, sizesOf } from "../stock/offers.ts";
import { priced } from "../stock/pricing.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";
import { confirmNumber, ordersOf, ownerFor } from "./confirm-number.ts";
import { unclaimedAt } from "./unclaimed.ts";

/** The events of one customer's turn. */
export type TurnEvents = { readonly events: StallEvent[] };

export function chatOrder(unit: UnitOfWork, menu: Menu, order: Order, now: Instant): ChatOrder {
  return {
    number: order.number,
    word: order.word,
    stage: stageOf(order),
    place: placeOf(unit.state, order),
    minutesLeft: minutesLeft(unit.state, menu, order, now),
    lines: order.lines
      .filter(({ quantity }) => quantity > 0)
      .map(({ offer, colour, size, quantity }) => ({ offer, colour, size, quantity })),
    ...shortOf(order),
    ...(order.due === undefined ? {} : { due: order.due }),
    ...(order.giveBack === undefined ? {} : { giveBack: order.giveBack }),
    total: order.total,
    tax: order.tax,
    ...(order.bundles === undefined ? {} : { bundles: order.bundles }),
    ...(order.taxInPrice === true ? { taxInPrice: true } : {}),
  };
}

type TurnOf = {
  readonly customer: CustomerId;
  /** The number this turn came from; absent on the web. */
  readonly phone?: PhoneNumber;
  /** Its keyed hash. */
  readonly number?: CustomerId;
  readonly takenBy: "text" | "web";
  readonly now: Instant;
  /** In [0, 1), for the pickup word. */
  readonly chance: number;
  /** Whether the customer asked for nothing in the last 30 minutes. */
  readonly fresh: boolean;
  /** Whether the customer just learnt that something is sold out. */
  readonly instead: boolean;
  /** Keyed hash of the address this turn came from on the web. */
  readonly address?: string;
};

/** The ordering port for one turn of one customer; what it carries out is added to `doing`. */
export function orderingPortFor(
  unit: UnitOfWork,
  menu: Menu,
  speaker: TurnOf,
  doing: TurnEvents,
): OrderingPort {
  const { state } = unit;
  const { customer, takenBy, now, chance } = speaker;
  // At the price that will be charged: a held garment keeps the price that the customer was shown.
  const linesOf = (wanted: readonly WantedLine[]): readonly Line[] => {
    const lines = wanted.flatMap((wish, index) => {
      const line = lineFor(menu, wish, index);
      return line.ok ? [line.value] : [];
    });
    return heldPrices(lines, state.hold(customer));
  };
  const carryOut = (command: Command): ChatOutcome => {
    const { events, refusal } = unit.carryOut(command, now);
    doing.events.push(...events);
    if (refusal !== null) return refused(refusal);
    const placed = events.find((event) => event.type === "placed");
    const order = placed && state.order(placed.order.number);
    return ok(order === undefined ? null : chatOrder(unit, menu, order, now));
  };
  return {
    stallName: state.identity?.name ?? "",
    sharesNumber: unit.people.sending.get("")?.shared ?? false,
    fairName: state.identity?.fairName ?? "",
    timeZone: state.identity?.timeZone ?? "UTC",
    menu,
    now,
    opening: openingAt(state, now),
    opensNext: opensAfter(state, now),
    paused: stoppedSince(state.status) !== null,
    takesOrders: whyStopped(state.status) === null,
    ...(state.status.fairStop ? { fairStop: state.status.fairStop.reason } : {}),
    lastOrders: lastOrdersCalled(state, now),
    free: (garment) => freeFor(unit, menu, customer, garment),
    waitMinutes: (wanted) => quoteMinutes(state, menu, linesOf(wanted), now),
    bill: (wanted) => priced(menu, linesOf(wanted)),
    get holding() {
      return state.hold(customer) !== undefined;
    },
    orders: () =>
      ordersOf(unit, customer).flatMap((number) => {
        const order = state.order(number);
        return order === undefined ? [] : [chatOrder(unit, menu, order, now)];
      }),
    lastEnded: () => {
      const number = unit.people.person(customer).lastOrder;
      const order = number === null ? undefined : state.past.get(orderKey(number));
      return order === undefined ? null : chatOrder(unit, menu, order, now);
    },
    attempt: (request) => {
      const asked = doing.events.some(({ type }) => type === "asked");
      const wish = { first: speaker.fresh && !asked, instead: speaker.instead };
      const owner = "number" in request ? ownerFor(unit, customer, request.number) : customer;
      const command = commandFor(
        request,
        { customer, owner, takenBy, chance, wish },
        "number" in request ? state.order(request.number) : undefined,
      );
      const { address } = speaker;
      const outcome = carryOut(
        command.type === "place" && address !== undefined
          ? { ...command, unclaimedAtAddress: unclaimedAt(unit, address).garments }
          : command,
      );
      if (request.type === "place" && request.wish !== null && outcome.ok && outcome.value !== null)
        unit.people.noteWish(outcome.value.number, request.wish);
      return outcome;
    },
    pickupWords: PICKUP_WORD_SET,
    confirmNumber: (number, word) => {
      const { phone, number: hash = customer } = speaker;
      if (phone === undefined) return refused({ code: "does-not-fit" });
      const confirmed = confirmNumber(unit, { customer, phone, number: hash }, number, word);
      if (!confirmed.ok) return confirmed;
      // Texting an order's code claims the order.
      carryOut({ type: "claimed", number });
      return ok(chatOrder(unit, menu, state.order(number) ?? confirmed.value, now));
    },
  };
}

/** The garments of an order that are of one kind: those that can still be changed first, the last of them foremost. */
function jobsOf(order: Order | undefined, wanted: Garment, quantity: number): readonly number[] {
  if (order === undefined) return [];
  const alike = order.jobs.filter((job) => {
    const { offer, colour, size } = lineOf(order, job);
    return offer === wanted.offer && colour === wanted.colour && size === wanted.size;
  });
  const begun = ({ stage }: Job): boolean =>
    stage === "pressing" || stage === "pressed" || stage === "reserved";
  return [...alike.filter((job) => !begun(job)).reverse(), ...alike.filter(begun)]
    .slice(0, quantity)
    .map(({ n }) => n);
}

const changesOf = (order: Order | undefined, changes: readonly ChatChange[]): readonly OrderChange[] =>
  changes.map((change) =>
    change.type === "add"
      ? change
      : change.type === "take-off"
        ? { type: "take-off", jobs: jobsOf(order, change.wanted, change.quantity) }
        : {
            type: "instead",
            jobs: jobsOf(order, change.wanted, change.quantity),
            garment: change.instead,
          },
  );

type From = Pick<TurnOf, "customer" | "takenBy" | "chance"> & {
  /** The customer who owns the order that the request names. */
  readonly owner: CustomerId;
  readonly wish: AskMark;
};

function commandFor(
  request: ChatRequest,
  { customer, owner, takenBy, chance, wish }: From,
  order: Order | undefined,
): Command {
  switch (request.type) {
    case "hold":
      return { type: "hold", customer, takenBy, lines: request.lines, asks: request.asks, wish };
    case "release":
      return { type: "release", customer };
    case "place":
      return {
        type: "place",
        customer,
        takenBy,
        lines: request.lines,
        asks: request.asks,
        chance,
        wish,
        language: request.language,
      };
    case "drop":
      return { type: "closed", number: request.number, as: "dropped", byCustomer: owner };
    case "change":
      return {
        type: "changed",
        number: request.number,
        changes: changesOf(order, request.changes),
        byCustomer: owner,
      };
    case "leave-out":
      return { type: "left-out", number: request.number, byCustomer: owner };
    case "take-instead":
      return { ...request, type: "taken-instead", byCustomer: owner };
    case "note-ask":
      return {
        type: "note-ask",
        ask: {
          ...request.garment,
          garments: request.garments,
          ...(request.assumed === undefined ? {} : { assumed: request.assumed }),
        },
        unmet: request.unmet,
        wish,
      };
    default:
      return request satisfies never;
  }
}

/** The garments that could be promised, counting this customer's own hold as free. */
function freeFor(unit: UnitOfWork, menu: Menu, customer: CustomerId, garment: Garment): number {
  const choice = offerParts(menu, garment.offer);
  const colour = choice && coloursOf(choice).find(({ id }) => id === garment.colour);
  const size = choice && sizesOf(choice).find(({ id }) => id === garment.size);
  if (choice === undefined || colour === undefined || size === undefined) return 0;
  const held = unit.state
    .hold(customer)
    ?.lines.filter(
      (line) => line.offer === garment.offer && line.colour === garment.colour && line.size === garment.size,
    );
  return (
    freeOf(unit.state, choice, colour, size) + (held ?? []).reduce((sum, { quantity }) => sum + quantity, 0)
  );
}
