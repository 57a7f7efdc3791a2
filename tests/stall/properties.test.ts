import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CustomerId, PressId } from "../../src/model/basics/ids.ts";
import { Bundle } from "../../src/model/menu/bundles.ts";
import { GarmentWish } from "../../src/model/menu/wishes.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Lost } from "../../src/model/orders/taps.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import { onHand } from "../../src/stall/state/counts.ts";
import type { PieceKey } from "../../src/stall/state/shapes/piece.ts";
import type { StallState } from "../../src/stall/state/state.ts";
import { readJournal } from "../../src/stall/storage/records.ts";
import { ids } from "../ids.ts";
import { expectAccounts, expectDrawer } from "./account.ts";
import {
  expectAgreement,
  expectFloorHolds,
  expectStockHolds,
  flowsOf,
  onHandFromJournal,
  takingsFromJournal,
  toPress,
} from "./invariants.ts";
import { customer, exampleMenu, OPENS, placing, testStall } from "./test-stall.ts";

const COUNTS = [
  ["tee.navy.L", 4],
  ["tee.sand.L", 3],
  ["cap.black.one", 2],
].map(([sku, counted]) => StockEntry.parse({ sku, counted }));
const TRANSFERS = [
  ["longtail", 4],
  ["kite", 3],
  ["ternmark", 2],
  ["otter", 3],
].map(([design, counted]) => StockEntry.parse({ design, counted }));

const WISHES = [
  { id: "back-print", name: "Back print", surcharge: 500, seconds: 40, second: {} },
  { id: "own-shirt", name: "Own garment", surcharge: -300, ownGarment: true },
  { id: "gift", name: "Gift", seconds: 20 },
].map((wish) => GarmentWish.parse(wish));
const BUNDLES = [
  {
    id: "two-tees",
    name: "Any 2 tees",
    price: 3900,
    takes: [{ offers: ["longtail-tee", "otter-tee"], quantity: 2 }],
  },
  {
    id: "tee-and-cap",
    name: "Tee and cap",
    price: 3800,
    takes: [
      { offers: ["longtail-tee", "red-kite-tee"], quantity: 1 },
      { offers: ["tern-cap"], quantity: 1 },
    ],
  },
].map((bundle) => Bundle.parse(bundle));
const garment = fc.constantFrom(
  { offer: "longtail-tee", colour: "navy", size: "L", wishes: ["back-print"] },
  { offer: "longtail-tee", colour: "sand", size: "L", wishes: ["own-shirt", "gift"] },
  { offer: "longtail-tee", colour: "navy", size: "L" },
  { offer: "otter-tee", colour: "sand", size: "L" },
  { offer: "longtail-tee", colour: "sand", size: "L" },
  { offer: "red-kite-tee", colour: "navy", size: "L" },
  { offer: "tern-cap", colour: "black", size: "one" },
);
const line = fc
  .tuple(garment, fc.integer({ min: 1, max: 3 }))
  .map(([what, quantity]) => ({ ...what, quantity }));
const lines = fc.array(line, { minLength: 1, maxLength: 2 });
const who = fc.constantFrom("ann", "ben", "cat", "dan").map(customer);
const number = fc.integer({ min: 101, max: 106 });
const job = fc.tuple(number, fc.integer({ min: 1, max: 2 })).map(([order, n]) => `${order}-${n}`);
const press = fc.constantFrom("A", "B", "C");
const device = fc.constantFrom("one", "two").map((name) => name.padEnd(16, "_"));
const lost = fc.constantFrom<Lost>("blank", "transfer", "both");
const piece = fc.constantFrom<Record<string, string>>(
  { sku: "tee.navy.L" },
  { sku: "tee.sand.L" },
  { design: "longtail" },
  { design: "kite" },
);
const stock = fc
  .tuple(piece, fc.constantFrom("counted", "delivered", "corrected"), fc.integer({ min: -2, max: 6 }))
  .map(([what, how, pieces]) => ({
    ...what,
    [how]: how === "delivered" ? Math.max(1, pieces) : how === "counted" ? Math.max(0, pieces) : pieces,
  }));
const endings = fc.constantFrom("collected", "dropped", "uncollected", "refunded", "exchanged");

const command = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      type: fc.constant("place"),
      customer: who,
      takenBy: fc.constantFrom("text", "web", "counter"),
      lines,
      asks: fc.constant([0, 1]),
      chance: fc.constant(0.5),
      unclaimedAtAddress: fc.constantFrom(0, 5, 7),
    }),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({
        customer: who,
        lines,
        device,
        number: fc.integer({ min: 101, max: 130 }),
        late: fc.boolean(),
        paid: fc.boolean(),
      })
      .map(({ device: of, number: taken, late, paid, ...rest }) => ({
        type: "place",
        takenBy: "counter",
        ...rest,
        asks: [0],
        chance: 0.5,
        block: { device: of, number: taken, word: "heron" },
        ...(late ? { late: true } : {}),
        ...(paid ? { paid: { tender: "cash" } } : {}),
      })),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("give-numbers"),
      device,
      have: fc.constantFrom(0, 12, 20),
      after: fc.constantFrom(0, 110, 140),
      chances: fc.constant([0.1, 0.2, 0.3]),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("kept-unpaid"), number }) },
  {
    weight: 3,
    arbitrary: fc.record({
      type: fc.constant("hold"),
      customer: who,
      takenBy: fc.constantFrom("text", "web"),
      lines,
      asks: fc.constant([0]),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("release"), customer: who }) },
  {
    weight: 2,
    arbitrary: fc.record({ type: fc.constant("paid"), number, tender: fc.constantFrom("cash", "card") }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("paid"),
      number,
      tender: fc.constant("cash"),
      parts: fc.constant([
        { tender: "card", amount: 1500 },
        { tender: "cash", amount: 900 },
      ]),
      tip: fc.constantFrom(0, 200),
    }),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({
        number,
        jobs: fc.option(fc.constantFrom([1], [2], [1, 2]), { nil: undefined }),
        off: fc.option(
          fc.record({
            by: fc.oneof(
              fc.record({ amount: fc.constantFrom(100, 2400, 9000) }),
              fc.record({ partsPerMillion: fc.constantFrom(100_000, 333_333, 1_000_000) }),
            ),
            reason: fc.constant("gift"),
          }),
        ),
      })
      .map(({ jobs, ...rest }) => ({ type: "discounted", ...rest, ...(jobs === undefined ? {} : { jobs }) })),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("undo-paid"), number }) },
  { weight: 2, arbitrary: fc.record({ type: fc.constant("claimed"), number }) },
  {
    weight: 1,
    arbitrary: fc.record({ type: fc.constant("lift-claims"), minutes: fc.constantFrom(null, 1, 60) }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      type: fc.constant("changed"),
      number,
      changes: fc.array(
        fc.oneof(
          fc.record({
            type: fc.constant("instead"),
            jobs: fc.uniqueArray(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 2 }),
            garment,
          }),
          fc.record({ type: fc.constant("add"), line }),
          fc.record({ type: fc.constant("take-off"), jobs: fc.constantFrom([1], [2], [1, 2]) }),
        ),
        { minLength: 1, maxLength: 2 },
      ),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("garment-refunded"),
      number,
      jobs: fc.constantFrom([1], [2], [1, 2]),
      keeps: fc.boolean(),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("garment-exchanged"),
      number,
      n: fc.integer({ min: 1, max: 2 }),
      instead: garment,
      keeps: fc.boolean(),
      chance: fc.constant(0.5),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("undo-garment-refunded"),
      number,
      jobs: fc.constantFrom([1], [2]),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("undo-garment-exchanged"),
      number,
      n: fc.integer({ min: 1, max: 2 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("unracked"),
      key: job,
      as: fc.constantFrom("thrown", "released"),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("left-out"), number }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constantFrom("given-back", "undo-given-back"), number }) },
  {
    weight: 2,
    arbitrary: fc.record({ type: fc.constant("taken-instead"), number, wanted: garment, instead: garment }),
  },
  { weight: 4, arbitrary: fc.record({ type: fc.constant("pull"), press }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("pull"), press, job }) },
  {
    weight: 2,
    arbitrary: fc.record({ type: fc.constant("set-reserve"), press, on: fc.boolean() }),
  },
  { weight: 4, arbitrary: fc.record({ type: fc.constant("fill-reserve"), press }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("reserve-asked-back"), press }) },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("reserve-returned"),
      press,
      jobs: fc.array(job, { maxLength: 3 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constantFrom("press-down", "press-up"), press }) },
  {
    weight: 1,
    arbitrary: fc.record({ type: fc.constant("set-hands"), hands: fc.constantFrom(null, 1, 2) }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("keep-open"), open: fc.boolean() }) },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("set-off-menu"),
      piece: fc.constantFrom("sku:tee.navy.L", "transfer:kite", "sku:tee.pink.L"),
      off: fc.boolean(),
    }),
  },
  { weight: 4, arbitrary: fc.record({ type: fc.constant("pressed"), job }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("undo-pressed"), job }) },
  {
    weight: 2,
    arbitrary: fc.record({ type: fc.constant("spoiled"), job, lost, reason: fc.constant("crooked") }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("spoiled"),
      job,
      lost: fc.constant("both"),
      reason: fc.constantFrom("wrong-size", "crooked"),
      rack: fc.constantFrom({}, { size: "L" }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ type: fc.constant("undo-spoiled"), job }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("returned"), job }) },
  { weight: 2, arbitrary: fc.record({ type: fc.constant("closed"), number, as: endings }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("undo-closed"), number, was: endings }) },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("change-stock"),
      entries: fc.tuple(stock).map((entries) => entries.map((entry) => StockEntry.parse(entry))),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      { type: "close-day", day: "2027-06-12" },
      { type: "reopen-day", day: "2027-06-12", reason: "the cash box" },
      { type: "count-passers-by", people: 40, seconds: 300 },
      { type: "set-costs", day: "2027-06-12", costs: { blanks: [], transfers: [], fees: [] } },
      { type: "take-lessons", lessons: [{ id: "elsewhere/1", fair: "Elsewhere", day: "2026-05-02" }] },
      { type: "tell-crowd", day: "2027-06-12", crowd: { passersBy: 4000, uncertainty: 0.2 } },
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      { type: "set-web-orders", open: false },
      { type: "set-web-orders", open: true },
      { type: "pause", reason: "rain" },
      { type: "resume" },
      { type: "tick" },
    ),
  },
);

type OnFloor = {
  readonly onPress: PressId;
  readonly act: string;
  readonly lost: Lost;
  readonly ago: number | null;
};

/** Names the garment that lies on a press when the command comes, so that most of them hit one. */
const onFloor = fc.record({
  onPress: press,
  act: fc.constantFrom("pressed", "pressed", "spoiled", "returned"),
  lost,
  /** How long ago it was tapped, in seconds; a tablet's clock may be fast. */
  ago: fc.constantFrom(null, null, -30, 0, 20, 600, 90_000),
});

type FromRack = {
  /** Which of the garments that hang there. */
  readonly hanging: number;
  readonly act: "bought" | "exchanged";
  readonly customer: CustomerId;
  readonly number: number;
  readonly n: number;
  readonly paid: boolean;
};

/** Names a garment of the rack when the command comes; sometimes none hangs there. */
const fromRack = fc.record({
  hanging: fc.nat({ max: 5 }),
  act: fc.constantFrom("bought", "exchanged", "exchanged"),
  customer: who,
  number,
  n: fc.integer({ min: 1, max: 2 }),
  paid: fc.boolean(),
});

function ofRack({ hanging, act, paid, n, ...rest }: FromRack, { rack }: StallState): object {
  const keys = [...rack.keys()];
  const key = keys[hanging % Math.max(1, keys.length)] ?? "101-1";
  const { offer, colour, size } = rack.get(key) ?? { offer: "longtail-tee", colour: "navy", size: "L" };
  const made = { offer, colour, size, rack: key };
  const { customer: buyer, number: order } = rest;
  if (act === "exchanged")
    return { type: "garment-exchanged", number: order, n, instead: made, keeps: paid, chance: 0.5 };
  const payment = paid ? { paid: { tender: "cash" } } : {};
  const bought = { type: "place", customer: buyer, takenBy: "counter", asks: [0], chance: 0.5 };
  return { ...bought, lines: [{ ...made, quantity: 1 }], ...payment };
}

function resolved(what: object, state: StallState, now: number): object {
  if ("hanging" in what) return ofRack(what as FromRack, state);
  if (!("onPress" in what)) return what;
  const { onPress, act, lost: pieces, ago } = what as OnFloor;
  const on = state.orderIndex.onPress.get(onPress);
  const garmentOn = on === undefined ? "101-1" : `${on.number}-${on.n}`;
  const at = ago === null ? {} : { press: onPress, at: now - ago * 1000 };
  return {
    type: act,
    job: garmentOn,
    ...at,
    ...(act === "spoiled" ? { lost: pieces, reason: "crooked" } : {}),
  };
}

describe.each(["before-pressing", "before-handover", "not-tracked"] as const)(
  "any run of commands, payment %s",
  (payment) => {
    it("keeps stock, memory, records and journal in agreement", () => {
      const menu = exampleMenu();
      fc.assert(
        fc.property(
          fc.array(
            fc.tuple(
              fc.oneof(
                { weight: 12, arbitrary: command },
                { weight: 4, arbitrary: onFloor },
                { weight: 1, arbitrary: fromRack },
              ),
              fc.integer({ min: 0, max: 90 }),
            ),
            { minLength: 5, maxLength: 90, size: "max" },
          ),
          (run) => {
            const stall = testStall(
              {
                ...menu,
                wishes: WISHES,
                bundles: BUNDLES,
                rules: { ...menu.rules, payment, secondsAmountOff: 700 },
              },
              [...COUNTS, ...TRANSFERS],
            );
            let now = OPENS;
            for (const [what, seconds] of run) {
              now += seconds * 1000;
              // Each day's drawer is opened before any money moves on it.
              if (stall.state.dayTotals.get(accountDay(stall.state, now))?.drawer === undefined)
                stall.run({ type: "float-set", amount: 10_000 }, now);
              const before = stall.state.version;
              // The arbitraries are written to the commands' shapes; their ids are plain strings.
              const { events, refusal } = stall.run(resolved(what, stall.state, now) as Command, now);
              expect(stall.state.version).toBe(before + (events.length > 0 ? 1 : 0));
              if (refusal !== null) {
                const follows = new Set([
                  "asked",
                  "released",
                  "closed",
                  // What is owed on an order that ends, and the pressed garments of it.
                  "owed-set",
                  "racked",
                  "supplied",
                  "last-orders",
                  // What a silent press lost, the orders that end by that, and who is found late when the line moves.
                  "reserve-let-go",
                  "closing-declined",
                  "ran-late",
                  // An order with reserved garments does not end at once: they are asked back first.
                  ...(refusal.code === "on-press" ? ["reserve-asked-back"] : []),
                  ...(refusal.code === "reserved" ? ["reserve-asked-back", "closing-asked"] : []),
                ]);
                expect(
                  events.filter(({ type }) => !follows.has(type)),
                  refusal.code,
                ).toEqual([]);
              }
              expectStockHolds(stall.state);
              expectFloorHolds(stall.state);
            }
            expectAgreement(stall.state, stall.store);
            expect(flowsOf(stall.store)).toEqual({
              backlog: toPress(stall.state),
              takings: takingsFromJournal(readJournal(stall.store)),
            });
            expect(stall.state.orderIndex.backlog).toBe(toPress(stall.state));
            expectAccounts(stall, now);
            expectDrawer(stall);
            const hand = onHandFromJournal(readJournal(stall.store));
            for (const key of stall.state.counts.keys()) {
              expect(onHand(stall.state.count(key as PieceKey)), key).toBe(hand.get(key as PieceKey) ?? 0);
            }
          },
        ),
        { numRuns: 75 },
      );
    });
  },
);

describe("a stall with a garment", () => {
  const place = (name: string): Command => placing(name);
  it("presses the oldest first and hands over what is ready", () => {
    const stall = testStall(exampleMenu(), [...COUNTS, ...TRANSFERS]);
    stall.run(place("ann"), OPENS);
    stall.run(place("ben"), OPENS + 1000);
    stall.run({ type: "pull", press: ids.press("A") }, OPENS + 2000);
    expect(stall.state.orderIndex.onPress.get(ids.press("A"))?.number).toBe(101);
    stall.run({ type: "pressed", job: ids.job("101-1") }, OPENS + 60_000);
    expect(stall.state.order(101)?.readyAt).toBe(OPENS + 60_000);
    const unpaid = stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 70_000);
    expect(unpaid.refusal).toEqual({ code: "not-paid", number: 101 });
    stall.run({ type: "paid", number: 101, tender: "cash" }, OPENS + 71_000);
    expect(stall.run({ type: "closed", number: 101, as: "collected" }, OPENS + 72_000).refusal).toBeNull();
    expect(stall.state.order(101)).toBeUndefined();
    stall.evict();
    expect(stall.state.past.get("000101")?.closed?.as).toBe("collected");
  });
  it("makes the latest order short when a count falls below what is promised, and supplies it first", () => {
    const stall = testStall(exampleMenu(), [...COUNTS, ...TRANSFERS]);
    for (const name of ["ann", "ben", "cat"]) stall.run(place(name), OPENS);
    stall.run(
      { type: "change-stock", entries: [StockEntry.parse({ sku: "tee.navy.L", counted: 2 })] },
      OPENS + 1000,
    );
    expect(stall.state.order(103)?.jobs[0]?.stage).toBe("short");
    expect(stall.state.order(102)?.jobs[0]?.stage).toBe("waiting");
    stall.run(
      { type: "change-stock", entries: [StockEntry.parse({ sku: "tee.navy.L", delivered: 1 })] },
      OPENS + 2000,
    );
    expect(stall.state.order(103)?.jobs[0]?.stage).toBe("waiting");
  });
});
