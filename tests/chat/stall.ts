/** A counter over the real rules of a stall, for trying the conversation without a worker. */
import type { ChatOrder, ChatOutcome, Counter } from "../../src/chat/counter.ts";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import type { Menu } from "../../src/model/catalogue.ts";
import type { CustomerId, FairId, StallId } from "../../src/model/ids.ts";
import type { WantedLine } from "../../src/model/order.ts";
import type { StockEntry } from "../../src/model/stock.ts";
import { bill } from "../../src/stall/bill.ts";
import type { Command } from "../../src/stall/commands.ts";
import { skusOf } from "../../src/stall/decide/stocktaking.ts";
import type { Line, Order, StallEvent } from "../../src/stall/facts.ts";
import { choiceOf, freeOf, lineFor } from "../../src/stall/offers.ts";
import { shortOf, stageOf } from "../../src/stall/orders.ts";
import { PICKUP_WORD_SET } from "../../src/stall/pickup-words.ts";
import { StallState } from "../../src/stall/state.ts";
import { step } from "../../src/stall/step.ts";
import { minutesLeft, placeOf, quoteMinutes } from "../../src/stall/wait.ts";

const HOUR = 3_600_000;
export const NOON = Date.parse("2027-05-01T16:00:00Z");

export type Shop = {
  readonly state: StallState;
  now: number;
  readonly events: StallEvent[];
  readonly do: (command: Command) => ReturnType<typeof step>;
  readonly counter: (customer: CustomerId, takenBy?: "text" | "web") => Counter;
  readonly stock: (entries: readonly StockEntry[]) => void;
};

export const customer = (n: number): CustomerId => `customer-${String(n).padStart(8, "0")}` as CustomerId; // brand put on

/** An open stall with so many of every piece. */
export function openShop(menu: Menu, pieces = 20, seed = 1): Shop {
  const state = new StallState();
  const random: Random = seededRandom(seed);
  const events: StallEvent[] = [];
  const shop: Shop = {
    state,
    now: NOON,
    events,
    do: (command) => {
      const outcome = step(state, command, shop.now);
      events.push(...outcome.events);
      return outcome;
    },
    stock: (entries) => {
      const { refusal } = shop.do({ type: "change-stock", entries });
      if (refusal !== null) throw new Error(JSON.stringify(refusal));
    },
    counter: (who, takenBy = "text") => counterOf(shop, random, who, takenBy),
  };
  shop.do({
    type: "open",
    identity: {
      fair: "brackenfield" as FairId, // brands put on
      stall: "tern" as StallId,
      name: "Tern",
      fairName: "Brackenfield Fair",
      timeZone: "America/New_York",
      openings: [
        { opens: NOON - 2 * HOUR, closes: NOON + 6 * HOUR },
        { opens: NOON + 22 * HOUR, closes: NOON + 30 * HOUR },
      ],
    },
  });
  const set = shop.do({ type: "set-menu", menu });
  if (set.refusal !== null) throw new Error(JSON.stringify(set.refusal));
  shop.stock([
    ...skusOf(menu).map((sku) => ({ sku, counted: pieces })),
    ...menu.designs.map(({ id }) => ({ design: id, counted: pieces * 20 })),
  ]);
  return shop;
}

function counterOf(shop: Shop, random: Random, who: CustomerId, takenBy: "text" | "web"): Counter {
  const { state } = shop;
  const menu = state.menu;
  const identity = state.identity;
  if (menu === null || identity === null) throw new Error("the stall is not open yet");
  const { now } = shop;
  const hold = () => {
    const held = state.hold(who);
    return held !== undefined && held.expiresAt > now ? held : undefined;
  };
  const span = identity.openings.find(({ opens, closes }) => opens <= now && now < closes);
  const next = identity.openings.find(({ opens }) => opens > now)?.opens ?? null;
  const linesOf = (wanted: readonly WantedLine[]): Line[] =>
    wanted.flatMap((wish, index) => {
      const line = lineFor(menu, wish, index);
      if ("code" in line) return [];
      const held = hold()?.lines.find(
        (other) => other.offer === line.offer && other.colour === line.colour && other.size === line.size,
      );
      return [held === undefined ? line : { ...line, each: held.each }];
    });
  const view = (order: Order): ChatOrder => ({
    number: order.number,
    word: order.word,
    stage: stageOf(order),
    place: placeOf(state, order),
    minutesLeft: minutesLeft(state, menu, order, now),
    lines: order.lines.map(({ offer, colour, size, quantity }) => ({ offer, colour, size, quantity })),
    ...shortOf(order),
    total: order.total,
  });
  const attempt = (command: Command): ChatOutcome => {
    const outcome = shop.do(command);
    if (outcome.refusal !== null) return { done: false, refusal: outcome.refusal };
    const placed = outcome.events.find((event) => event.type === "placed");
    const order = placed === undefined ? undefined : state.order(placed.order.number);
    return { done: true, order: order === undefined ? null : view(order) };
  };
  return {
    stallName: identity.name,
    fairName: identity.fairName,
    timeZone: identity.timeZone,
    menu,
    now,
    opening: span === undefined ? { open: false, opens: next } : { open: true, closes: span.closes },
    opensNext: next,
    paused: state.desk.paused !== null,
    free: ({ offer, colour, size }) => {
      const choice = choiceOf(menu, offer);
      const inColour = choice?.blank.colours.find(({ id }) => id === colour);
      const inSize = choice?.blank.sizes.find(({ id }) => id === size);
      if (choice === undefined || inColour === undefined || inSize === undefined) return 0;
      const own = state.hold(who)?.lines ?? [];
      const held = own
        .filter(
          (line) =>
            (line.blank === choice.blank.id && line.colour === colour && line.size === size) ||
            line.design === choice.design.id,
        )
        .reduce((sum, line) => sum + line.quantity, 0);
      return freeOf(state, choice, inColour, inSize) + held;
    },
    waitMinutes: (lines) => quoteMinutes(state, menu, linesOf(lines), now),
    total: (lines) => bill(linesOf(lines), menu.rules).total,
    get holding() {
      return hold() !== undefined;
    },
    orders: () =>
      state.standing
        .ordersOf(who)
        .map((number) => state.order(number))
        .filter((order) => order !== undefined)
        .map(view),
    lastEnded: () => null,
    pickupWords: PICKUP_WORD_SET,
    confirmNumber: () => ({ done: false, why: "does-not-fit" }),
    attempt: (request) => {
      switch (request.type) {
        case "hold":
          return attempt({ ...request, customer: who, takenBy });
        case "place":
          return attempt({ ...request, customer: who, takenBy, chance: random.next() });
        case "release":
          return attempt({ type: "release", customer: who });
        case "drop":
          return attempt({ type: "close", number: request.number, as: "dropped", byCustomer: who });
        case "take-instead":
          return attempt({ ...request, byCustomer: who });
        case "leave-out":
          return attempt({ type: "leave-out", number: request.number, byCustomer: who });
        case "note-ask":
          return attempt({
            type: "note-ask",
            ask: { ...request.garment, garments: request.garments },
            unmet: request.unmet,
          });
        default:
          return request satisfies never;
      }
    },
  };
}
