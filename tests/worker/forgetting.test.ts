/** Names, numbers and words go some days after the fair, from every record; no log ever holds one. */

import { runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { afterEach, expect, it, vi } from "vitest";
import exampleMenu from "../../examples/tern/menu.json";
import type { WriteKey } from "../../src/model/basics/write-key.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { StockChange } from "../../src/model/orders/stock.ts";
import { loadState } from "../../src/stall/storage/records.ts";
import { ids } from "../ids.ts";
import { expectAgreement } from "../stall/invariants.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
let writes = 0;
const key = (): WriteKey => ({ scope: `test ${++writes}`, fingerprint: "same" });
// Brands are put on a test's own ids and numbers.
const customer = (name: string) => ids.customer(name.padEnd(16, "_"));
const PHONES = ["+12125550101", "+12125550102", "+12125550103"] as PhoneNumber[];
const NAME = "Wilhelmina";
const WORDS = "navy please for my cousin";
/** A wish for something off the menu: it is stored with the order. */
const WISH = "with initials QZW";
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
  const [fair, id] = [ids.fair("forgetting"), ids.stall("tern")];
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
  for (const words of [`1 navy L ${WISH}`, "yes", WORDS])
    expect((await text("ann", texter, words)).ok).toBe(true);
  const lines = [{ offer: ids.offer("longtail-tee"), colour: "navy", size: "L", quantity: 1 }] as never;
  const placed = await stall.place(key(), {
    command: { type: "place", customer: customer("ben"), takenBy: "counter", lines, asks: [0] },
    name: NAME,
    phone: walkUp,
    number: null,
    address: null,
    isUnknown: false,
    generation: 1,
  });
  if (!placed.ok) throw new Error("the order was refused");
  await stall.onOrder(1, key(), { type: "paid", number: placed.value.number, tender: "cash" });
  const held = () =>
    runInDurableObject(stall, (_, { storage }) => {
      const rows = JSON.stringify([...storage.kv.list()]);
      return [...PHONES.map((phone) => phone.slice(1)), NAME, WORDS, WISH].filter((secret) =>
        rows.includes(secret),
      );
    });
  const ring = async (): Promise<void> => {
    for (let times = 0; times < 8; times++) await runDurableObjectAlarm(stall);
  };
  expect(await held()).toEqual([texter.slice(1), walkUp.slice(1), NAME, WORDS, WISH]);
  expect(await stall.crewOrder(1, 101)).toMatchObject({ value: { wish: WISH } });

  vi.setSystemTime(closes + 28 * DAY);
  await ring();
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

  // A customer who writes later is answered, and erased two days after.
  expect((await text("cat", late, "hello")).ok).toBe(true);
  await ring();
  expect(await held()).toEqual([late.slice(1)]);
  vi.setSystemTime(closes + 32 * DAY + 2);
  await ring();
  expect(await held()).toEqual([]);

  // The fair is opened again: who writes now is kept as at any fair. An older edition that arrives late changes nothing.
  const again = { opens: closes + 33 * DAY, closes: closes + 34 * DAY };
  await stall.open({ ...identity, openings: [...openings, again], edition: 2 }, 1, 0);
  await stall.open({ ...identity, edition: 1 }, 1, 0);
  vi.setSystemTime(again.opens);
  expect((await text("dot", late, "hello")).ok).toBe(true);
  vi.setSystemTime(again.closes + 28 * DAY);
  await ring();
  vi.setSystemTime(again.closes + 30 * DAY - HOUR);
  await ring();
  expect(await held()).toEqual([late.slice(1)]);
  vi.setSystemTime(again.closes + 30 * DAY + 1);
  await ring();
  expect(await held()).toEqual([]);

  const said = JSON.stringify(logged);
  expect(logged.length).toBeGreaterThan(0);
  for (const secret of [...PHONES.map((phone) => phone.slice(-7)), NAME, WORDS, WISH])
    expect(said).not.toContain(secret);
}, 60_000);

/** A stall at which one number wrote, on its fair's day: what it still holds of the number, and its alarm. */
async function spokenTo(name: string) {
  vi.useFakeTimers({ toFake: ["Date"] });
  const opens = Date.parse("2027-06-12T14:00:00Z");
  const closes = opens + 10 * HOUR;
  vi.setSystemTime(opens + HOUR);
  const stall = env.STALL.getByName(`${name}/tern`);
  const identity = {
    fair: ids.fair(name),
    stall: ids.stall("tern"),
    name: "Tern",
    fairName: "Fair",
    timeZone: "UTC",
    openings: [{ opens, closes }],
    edition: 0,
  };
  await stall.open(identity, 1, 0);
  await stall.setMenu(1, key(), { type: "set-menu", menu: Menu.parse(exampleMenu) });
  const said = { id: `${name}-1`, text: "hello", customer: customer("ann"), phone: PHONES[0] ?? null };
  expect((await stall.text(said, FROM_FAIR)).ok).toBe(true);
  const isHeld = () =>
    runInDurableObject(stall, (_, { storage }) =>
      JSON.stringify([...storage.kv.list()]).includes("2125550101"),
    );
  const ringAt = async (at: number): Promise<boolean> => {
    vi.setSystemTime(at);
    for (let times = 0; times < 6; times++) await runDurableObjectAlarm(stall);
    return isHeld();
  };
  const hours = (edition: number, years: number) => {
    const moved = (at: number): number => new Date(at).setUTCFullYear(2027 + years);
    return stall.open(
      { ...identity, edition, openings: [{ opens: moved(opens), closes: moved(closes) }] },
      1,
      0,
    );
  };
  return { opens, closes, ringAt, hours };
}

it("a mistyped year that is corrected after four seconds erases nobody; one that is left does after 48 hours", async () => {
  const { opens, closes, ringAt, hours } = await spokenTo("typing");
  const at = opens + 2 * HOUR;
  vi.setSystemTime(at);
  await hours(1, -1);
  expect(await ringAt(at + 4000)).toBe(true);
  await hours(2, 0);
  for (const later of [3 * HOUR, 3 * DAY, 20 * DAY]) expect(await ringAt(at + later)).toBe(true);
  // Left as mistyped, it erases once 48 hours are over.
  vi.setSystemTime(closes + DAY);
  await hours(3, -1);
  expect(await ringAt(closes + 3 * DAY - HOUR)).toBe(true);
  expect(await ringAt(closes + 3 * DAY + 1000)).toBe(false);
});

it("a clock that jumps ahead erases nobody for 48 hours, and nobody at all if it is corrected in time", async () => {
  const { opens, closes, ringAt } = await spokenTo("jumping");
  expect(await ringAt(closes + 400 * DAY)).toBe(true);
  expect(await ringAt(closes + 402 * DAY - HOUR)).toBe(true);
  expect(await ringAt(opens + 3 * HOUR)).toBe(true);
  expect(await ringAt(closes + 28 * DAY)).toBe(true);
  // It jumps again when the countdown is running by right.
  expect(await ringAt(closes + 31 * DAY)).toBe(true);
  expect(await ringAt(closes + 33 * DAY - HOUR)).toBe(true);
  expect(await ringAt(closes + 33 * DAY + 1000)).toBe(false);
});
