/** Names, numbers and words go some days after the fair, from every record; no log ever holds one. */

import { runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { afterEach, expect, it, vi } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import type { CustomerId, FairId, OfferId, StallId } from "../../src/model/basics/ids.ts";
import type { WriteKey } from "../../src/model/basics/write-key.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { StockChange } from "../../src/model/orders/stock.ts";
import { loadState } from "../../src/stall/storage/records.ts";
import { expectAgreement } from "../stall/invariants.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
let writes = 0;
const key = (): WriteKey => ({ scope: `test ${++writes}`, fingerprint: "same" });
// Brands are put on a test's own ids and numbers.
const customer = (name: string) => name.padEnd(16, "_") as CustomerId;
const PHONES = ["+12125550101", "+12125550102", "+12125550103"] as PhoneNumber[];
const NAME = "Wilhelmina";
const WORDS = "navy please for my cousin";
const FROM_FAIR = { stopped: false, gateway: 0, inAnswer: false };

afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

it("thirty days after the last closing no record holds a name, a number or what was said, and no log ever did", async () => {
  const logged: unknown[][] = [];
  for (const level of ["info", "warn", "error", "log"] as const)
    vi.spyOn(console, level).mockImplementation((...said) => void logged.push(said));
  vi.useFakeTimers({ toFake: ["Date"] });
  const opens = Date.parse("2027-06-12T14:00:00Z");
  const closes = opens + 10 * HOUR;
  vi.setSystemTime(opens + HOUR);
  const stall = env.STALL.getByName("forgetting/tern");
  const [fair, id] = ["forgetting" as FairId, "tern" as StallId];
  const openings = [{ opens, closes }];
  const identity = { fair, stall: id, name: "Tern", fairName: "Fair", timeZone: "UTC", openings };
  await stall.open(identity, 1, 0);
  await stall.setMenu(1, key(), { type: "set-menu", menu: Menu.parse(exampleMenu) });
  const counted = [
    { sku: "tee.navy.L", counted: 20 },
    { design: "longtail", counted: 20 },
  ];
  const { entries } = StockChange.parse({ entries: counted });
  await stall.changeStock(1, key(), { type: "change-stock", entries });

  const [texter, walkUp, late] = PHONES as [PhoneNumber, PhoneNumber, PhoneNumber];
  const text = (name: string, phone: PhoneNumber, words: string) =>
    stall.text({ id: `${name}-${++writes}`, text: words, customer: customer(name), phone }, FROM_FAIR);
  for (const words of ["1 navy L", "yes", WORDS]) expect((await text("ann", texter, words)).done).toBe(true);
  const lines = [{ offer: "longtail-tee" as OfferId, colour: "navy", size: "L", quantity: 1 }] as never;
  const placed = await stall.place(key(), {
    command: { type: "place", customer: customer("ben"), takenBy: "counter", lines, asks: [0] },
    name: NAME,
    phone: walkUp,
    number: null,
    address: null,
    isUnknown: false,
    generation: 1,
  });
  if (!placed.done) throw new Error("the order was refused");
  await stall.onOrder(1, key(), { type: "pay", number: placed.value.number, tender: "cash" });
  const held = () =>
    runInDurableObject(stall, (_, { storage }) => {
      const rows = JSON.stringify([...storage.kv.list()]);
      return [...PHONES.map((phone) => phone.slice(1)), NAME, WORDS].filter((secret) =>
        rows.includes(secret),
      );
    });
  const ring = async (): Promise<void> => {
    for (let times = 0; times < 8; times++) await runDurableObjectAlarm(stall);
  };
  expect(await held()).toEqual([texter.slice(1), walkUp.slice(1), NAME, WORDS]);

  vi.setSystemTime(closes + 30 * DAY - HOUR);
  await ring();
  expect(await held()).toContain(texter.slice(1));
  vi.setSystemTime(closes + 30 * DAY + 1);
  await ring();
  expect(await held()).toEqual([]);
  const orders = await runInDurableObject(stall, (_, { storage }) => {
    const state = loadState(storage.kv);
    expectAgreement(state, storage.kv);
    return [...state.orders.values()].length;
  });
  expect(orders).toBe(2);

  // Whoever writes after that is answered, and forgotten a day later.
  expect((await text("cat", late, "hello")).done).toBe(true);
  await ring();
  expect(await held()).toEqual([late.slice(1)]);
  vi.setSystemTime(closes + 32 * DAY);
  await ring();
  expect(await held()).toEqual([]);

  // The fair is opened again: who writes now is kept as at any fair. An older edition that arrives late changes nothing.
  const again = { opens: closes + 33 * DAY, closes: closes + 34 * DAY };
  await stall.open({ ...identity, openings: [...openings, again], edition: 2 }, 1, 0);
  await stall.open({ ...identity, edition: 1 }, 1, 0);
  vi.setSystemTime(again.opens);
  expect((await text("dot", late, "hello")).done).toBe(true);
  vi.setSystemTime(again.closes + 29 * DAY);
  await ring();
  expect(await held()).toEqual([late.slice(1)]);
  vi.setSystemTime(again.closes + 30 * DAY + 1);
  await ring();
  expect(await held()).toEqual([]);

  const said = JSON.stringify(logged);
  expect(logged.length).toBeGreaterThan(0);
  for (const secret of [...PHONES.map((phone) => phone.slice(-7)), NAME, WORDS])
    expect(said).not.toContain(secret);
}, 60_000);
