/** An error in the middle of any change leaves nothing of it: not in memory, not on the board, not in the journal. */

import { runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { expect, it, vi } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import type { CustomerId, FairId, OfferId, StallId } from "../../src/model/basics/ids.ts";
import type { WriteKey } from "../../src/model/basics/write-key.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import { StockChange } from "../../src/model/orders/stock.ts";
import type { Stall } from "../../src/stall/stall.ts";
import type { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { expectAgreement } from "../stall/invariants.ts";

const HOUR = 3_600_000;
let writes = 0;
const key = (): WriteKey => ({ scope: `test ${++writes}`, fingerprint: "same" });
// Brands are put on a test's own ids.
const customer = (name: string) => name.padEnd(16, "_") as CustomerId;
const PHONE = "+12125550101" as never;
const FROM_FAIR = { stopped: false, gateway: 0, inAnswer: false };

const opens = Date.now() - HOUR;
const identity = (name: string) => ({
  fair: "fair" as FairId,
  stall: name as StallId,
  name,
  fairName: "A fair",
  timeZone: "UTC",
  openings: [{ opens, closes: opens + 10 * HOUR }],
});

/** An open stall at which a customer was asked whether to order; the answer "yes" places the order. */
async function askedStall(name: string) {
  const stall = env.STALL.getByName(`fair/${name}`);
  await stall.open(identity(name), 1, 0);
  await stall.setMenu(1, key(), { type: "set-menu", menu: Menu.parse(exampleMenu) });
  const counted = [
    { sku: "tee.navy.L", counted: 20 },
    { design: "longtail", counted: 20 },
  ];
  await stall.changeStock(1, key(), {
    type: "change-stock",
    entries: StockChange.parse({ entries: counted }).entries,
  });
  return stall;
}

const say = (text: string) => ({ id: `message-${++writes}`, text, customer: customer("ann"), phone: null });
const text = (words: string) => ({ ...say(words), phone: PHONE });

/** Each kind of change, what it needs first, and the step of it that breaks. */
const CHANGES: Readonly<
  Record<
    string,
    {
      readonly before?: (stall: Stall) => unknown;
      readonly change: (stall: Stall) => unknown;
      readonly breaks: (unit: UnitOfWork) => { mockImplementationOnce: (planted: () => never) => unknown };
    }
  >
> = {
  "an order on the web": {
    before: (stall) => stall.chat(say("1 navy L")),
    change: (stall) => stall.chat(say("yes")),
    breaks: ({ people }) => vi.spyOn(people.conversations, "set"),
  },
  "an order by text": {
    before: (stall) => stall.text(text("1 navy L"), FROM_FAIR),
    change: (stall) => stall.text(text("yes"), FROM_FAIR),
    breaks: ({ people }) => vi.spyOn(people.conversations, "set"),
  },
  "an order at the counter": {
    change: (stall) =>
      stall.place(key(), {
        command: {
          type: "place",
          customer: customer("ben"),
          takenBy: "counter",
          lines: [{ offer: "longtail-tee" as OfferId, colour: "navy", size: "L", quantity: 1 }] as never,
          asks: [0],
        },
        name: "Ben",
        phone: null,
        number: null,
        address: null,
        isUnknown: false,
        generation: 1,
      }),
    breaks: ({ people }) => vi.spyOn(people.persons, "set"),
  },
  "new hours": {
    change: (stall) => stall.open({ ...identity("new-hours"), fairName: "Another", edition: 1 }, 1, 0),
    breaks: ({ people }) => vi.spyOn(people.access, "set"),
  },
  "what fell due": {
    before: async (stall) => {
      await stall.chat(say("1 navy L"));
      // The hold is over.
      vi.spyOn(Date, "now").mockReturnValue(opens + 2 * HOUR);
    },
    change: (stall) => stall.alarm(),
    breaks: (unit) => vi.spyOn(unit, "take"),
  },
  "a number that wants no more texts": {
    before: (stall) => stall.text(text("hello"), FROM_FAIR),
    change: (stall) => stall.setStopped(customer("ann"), true),
    breaks: ({ people }) => vi.spyOn(people.conversations, "set"),
  },
};

/** Everything a reader can see or a later call can build on. */
const seen = ({ state, people }: UnitOfWork) =>
  JSON.stringify([
    state.version,
    [...state.orders.values()],
    [...state.holds.values()],
    state.identity,
    people.person(customer("ann")),
  ]);

it.each(Object.entries(CHANGES))("%s", async (name, { before, change, breaks }) => {
  const stub = await askedStall(name.replaceAll(" ", "-"));
  await runInDurableObject(stub, async (stall: Stall, { storage }) => {
    const { transactions } = stall as unknown as { readonly transactions: { readonly unit: UnitOfWork } }; // it is protected
    await before?.(stall);
    const was = seen(transactions.unit);
    breaks(transactions.unit).mockImplementationOnce(() => {
      throw new Error("planted");
    });
    const failed = await Promise.resolve()
      .then(() => change(stall))
      .then(
        () => null,
        (error: Error) => error.message,
      );
    // The alarm never throws: it rings again.
    expect(failed).toBe(name === "what fell due" ? null : "planted");
    expect(seen(transactions.unit)).toBe(was);
    expectAgreement(transactions.unit.state, storage.kv);

    await change(stall);
    expect(seen(transactions.unit)).not.toBe(was);
    expectAgreement(transactions.unit.state, storage.kv);
    vi.restoreAllMocks();
  });
  await runDurableObjectAlarm(stub);
});
