/** The stall's own port for conversations, over its real rules and a store in memory. */

import type { OrderingPort } from "../../src/chat/talk/ordering-port.ts";
import { seededRandom } from "../../src/maths/random.ts";
import type { CustomerId } from "../../src/model/basics/ids.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import type { StockEntry } from "../../src/model/orders/stock.ts";
import { orderingPortFor } from "../../src/stall/messages/ordering-port.ts";
import type { Command, Decision } from "../../src/stall/rules/commands.ts";
import type { StallEvent } from "../../src/stall/state/shapes/event.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { skusOf } from "../../src/stall/stock/skus.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { ids } from "../ids.ts";
import { MemoryStore } from "../stall/test-stall.ts";

const HOUR = 3_600_000;
export const NOON = Date.parse("2027-05-01T16:00:00Z");

export type Shop = {
  readonly state: StallState;
  now: number;
  readonly events: StallEvent[];
  readonly do: (command: Command) => Decision;
  readonly port: (customer: CustomerId, takenBy?: "text" | "web") => OrderingPort;
  /** A customer's wish with an order, as the crew sees it. */
  readonly wish: (number: number) => string | undefined;
  readonly stock: (entries: readonly StockEntry[]) => void;
};

export const customer = (n: number): CustomerId => ids.customer(`customer-${String(n).padStart(8, "0")}`);

/** An open stall with this many of every piece. */
export function openShop(menu: Menu, pieces = 20, seed = 1): Shop {
  const unit = new UnitOfWork(new MemoryStore());
  const { state } = unit;
  const random = seededRandom(seed);
  const events: StallEvent[] = [];
  const shop: Shop = {
    state,
    now: NOON,
    events,
    do: (command) => {
      const outcome = unit.carryOut(command, shop.now);
      events.push(...outcome.events);
      return outcome;
    },
    wish: (number) => unit.people.atOrder(number).wish,
    stock: (entries) => {
      const { refusal } = shop.do({ type: "change-stock", entries });
      if (refusal !== null) throw new Error(JSON.stringify(refusal));
    },
    port: (who, takenBy = "text") => {
      if (state.menu === null) throw new Error("the stall is not open yet");
      const speaker = {
        customer: who,
        takenBy,
        now: shop.now,
        chance: random.next(),
        fresh: false,
        instead: false,
      };
      return orderingPortFor(unit, state.menu, speaker, { events });
    },
  };
  shop.do({
    type: "open",
    identity: {
      fair: ids.fair("brackenfield"),
      stall: ids.stall("tern"),
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
