/** A counter through any run of taps, answers, polls, reloads and losses of signal, against the stall's own rules. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Numbered } from "../../src/model/orders/counter.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { type Act, placing } from "../../src/screens/client/counter/acts.ts";
import {
  afterLateOrder,
  type Block,
  begunAgain,
  isBusy,
  leftAfter,
  numbersWanted,
  type SlipLine,
  savedOrders,
  takeNumber,
  withNumbers,
} from "../../src/screens/client/crew/offline.ts";
import {
  asSent,
  type KeptTaps,
  NO_TAPS,
  type Tap,
  without,
  withTap,
} from "../../src/screens/client/crew/taps.ts";
import type { Reply } from "../../src/screens/client/kit/api.ts";
import { stockView } from "../../src/stall/calls/counter/stock-view.ts";
import { menuView } from "../../src/stall/calls/views.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { blockOf } from "../../src/stall/state/pickup-numbers.ts";
import { customer, exampleMenu, OPENS, type TestStall, testStall } from "../stall/test-stall.ts";

const LINE: SlipLine = {
  offer: "longtail-tee",
  colour: "navy",
  size: "L",
  quantity: 1,
  each: 2400,
  name: "Longtail tee, Navy, L",
};
const DEVICE = "tablet".padEnd(16, "_");
const reply = (status: number, body: unknown): Reply => ({ status, body, tag: null, date: null });

const stallWith = (pieces: number): TestStall =>
  testStall(exampleMenu(), [
    StockEntry.parse({ sku: "tee.navy.L", counted: pieces }),
    StockEntry.parse({ design: "longtail", counted: 500 }),
  ]);

/** The stall behind its idempotency keys, which answers a key the same way each time. */
class Answering {
  readonly stall: TestStall;
  readonly #answers = new Map<string, Reply>();
  #who = 0;

  constructor(pieces: number) {
    this.stall = stallWith(pieces);
  }

  place(body: object, once: string): Reply {
    const before = this.#answers.get(once);
    if (before !== undefined) return before;
    const command = {
      type: "place",
      customer: customer(`who${this.#who++}`),
      takenBy: "counter",
      asks: [],
      chance: 0.4,
      ...body,
      takenAt: OPENS,
    } as unknown as Command; // as the route makes it of the body
    const { events, refusal } = this.stall.run(command, OPENS);
    const placed = events.find((event) => event.type === "placed")?.order;
    const answer =
      placed === undefined
        ? reply(409, { type: `/problems/${refusal?.code}` })
        : reply(201, { number: placed.number, word: placed.word });
    this.#answers.set(once, answer);
    return answer;
  }

  give(block: Block): readonly Numbered[] {
    const wanted = numbersWanted(block);
    if (wanted === null) return [];
    const chances = Array.from({ length: 20 }, (_, n) => n / 20);
    this.stall.run({ type: "give-numbers", ...wanted, chances }, OPENS);
    return blockOf(this.stall.state, wanted.device).filter(({ number }) => number > wanted.after);
  }
}

const LINES = { lines: [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }] };

/** The page: the contents of its disk, and what it loses on reload. */
class Counter {
  block = begunAgain(DEVICE);
  book: KeptTaps<Act> = NO_TAPS;
  lost = false;
  awaited = new Map<string, Tap<Act>>();
  /** The numbers that customers left with, in order. */
  readonly given: Numbered[] = [];
  unnumbered = 0;
  #made = 0;

  readonly once = (): string => `key ${this.#made++}`;

  get busy(): boolean {
    return isBusy({ keeping: 0, awaited: [...this.awaited.values()], lost: this.lost, ended: false });
  }

  take(): void {
    if (this.busy) return;
    const { block, taken } = takeNumber(this.block);
    this.block = block;
    const write = placing(LINES, {
      taken: { lines: [LINE], name: null, total: 2574, tax: 174, tender: "cash", by: null },
      block: taken === null ? null : { ...taken, device: DEVICE },
      takenAt: null,
      late: this.lost,
    });
    const tap = { ...write, once: this.once(), page: "counter", at: OPENS, firstSent: null };
    this.book = withTap(this.book, tap);
    this.awaited.set(tap.once, tap);
    if (this.lost) this.hold();
  }

  /** All that is awaited counts as taken: its customers go away with their numbers. */
  hold(only: (tap: Tap<Act>) => boolean = () => true): void {
    for (const tap of [...this.awaited.values()].filter(only)) {
      this.awaited.delete(tap.once);
      this.#handed(tap);
    }
  }

  #handed({ act }: Tap<Act>): void {
    if (act.type !== "place") return;
    if (act.numbered === undefined) this.unnumbered += 1;
    else this.given.push(act.numbered);
  }

  lose(): void {
    this.lost = true;
    this.hold();
  }

  /** Sends the first; the answer may be lost. */
  send(stall: Answering, isAnswered: boolean): void {
    const [tap] = this.book.taps;
    if (tap === undefined) return;
    this.book = asSent(this.book, tap.once, OPENS);
    const answer = stall.place(tap.body as object, tap.once); // as orders are written
    if (!isAnswered) return this.lose();
    this.lost = false;
    if (!this.awaited.delete(tap.once)) {
      this.book = afterLateOrder(this.book, tap, answer, this.once, "refused") ?? this.book;
      return;
    }
    this.book = without(this.book, tap.once);
    // An immediate refusal is shown to the customer, who leaves without a number.
    if (answer.status < 400) this.#handed(tap);
  }
}

const step = fc.oneof(
  { weight: 6, arbitrary: fc.constant("take") },
  { weight: 4, arbitrary: fc.constant("send") },
  ...["answer lost", "lose", "signal", "reload", "patience", "fill", "fill late", "fill lost"].map(
    (what) => ({
      weight: 2,
      arbitrary: fc.constant(what),
    }),
  ),
  { weight: 1, arbitrary: fc.constantFrom("somebody else", "sold out", "delivered", "close the day") },
);

describe("a counter's state without signal", () => {
  it("never leaves the order button dead, uses a number twice, or loses an order", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 120, size: "max" }), (steps) => {
        const stall = new Answering(30);
        const page = new Counter();
        let onItsWay: readonly Numbered[] = [];
        let others = 0;
        for (const what of steps) {
          const kept = page.book.taps.length;
          const busy = page.busy;
          switch (what) {
            case "take":
              page.take();
              expect(page.book.taps.length).toBe(kept + (busy ? 0 : 1));
              break;
            case "send":
              page.send(stall, true);
              break;
            case "answer lost":
              page.send(stall, false);
              break;
            case "lose":
              page.lose();
              break;
            case "signal":
              page.lost = false;
              break;
            case "reload":
              // An order whose answer was not seen: its customer has the number it showed, if it did.
              page.hold();
              break;
            case "patience":
              page.hold(({ patience }) => patience !== undefined);
              break;
            case "fill":
              page.block = withNumbers(page.block, DEVICE, stall.give(page.block));
              break;
            case "fill late":
              page.block = withNumbers(page.block, DEVICE, onItsWay);
              onItsWay = stall.give(page.block);
              break;
            case "fill lost":
              stall.give(page.block);
              break;
            case "somebody else":
              stall.place(LINES, `other ${others++}`);
              break;
            case "close the day":
              stall.stall.run({ type: "close-day", day: "2027-06-12" } as Command, OPENS); // a day as the model has it
              break;
            default: {
              const entry = what === "sold out" ? { counted: 0 } : { delivered: 5 };
              const entries = [StockEntry.parse({ sku: "tee.navy.L", ...entry })];
              stall.stall.run({ type: "change-stock", entries }, OPENS);
            }
          }
          // Dead only while somebody waits for an answer that is expected at once.
          if (page.lost || page.awaited.size === 0) expect(page.busy).toBe(false);
          expect(new Set(page.given.map(({ number }) => number)).size).toBe(page.given.length);
          expect(savedOrders(page.book).length).toBe(page.book.taps.length);
        }
        page.hold();
        for (let round = 0; page.book.taps.length > 0; round++) {
          expect(round).toBeLessThan(1000);
          page.send(stall, true);
        }
        expect(page.book.news.filter(({ tap }) => tap !== undefined)).toEqual([]);
        const { state } = stall.stall;
        for (const { number, word } of page.given)
          expect(state.order(number)?.word, String(number)).toBe(word);
        const all = [...state.orders.keys()].length;
        expect(all).toBeGreaterThanOrEqual(page.given.length + page.unnumbered);
        expect(all).toBeLessThanOrEqual(page.given.length + page.unnumbered + others);
      }),
      { numRuns: 300 },
    );
  });

  it("begins again with the numbers of a stall that was put back to an earlier state", () => {
    const block = withNumbers(begunAgain(DEVICE), DEVICE, [{ number: 140, word: "heron" }]);
    expect(withNumbers(block, DEVICE, [{ number: 101, word: "anvil" }])).toEqual(block);
    const again = withNumbers(begunAgain("another"), "another", [{ number: 101, word: "anvil" }]);
    expect(takeNumber(again).taken).toEqual({ number: 101, word: "anvil" });
    expect(withNumbers(again, DEVICE, [{ number: 141, word: "olive" }])).toEqual(again);
  });
});

describe("the stock that a counter shows", () => {
  it("counts down by what was taken, for every choice that needs the same blank or transfer", () => {
    const menu = exampleMenu();
    const stall = testStall(menu, [
      StockEntry.parse({ sku: "tee.navy.L", counted: 5 }),
      StockEntry.parse({ sku: "tee.sand.L", counted: 9 }),
      StockEntry.parse({ design: "longtail", counted: 7 }),
      StockEntry.parse({ design: "kite", counted: 20 }),
    ]);
    const view = menuView(stall.state, menu, OPENS);
    const stock = stockView(stall.state, menu);
    const act = { type: "place", paper: null, taken: { lines: [{ ...LINE, quantity: 2 }] } };
    const after = leftAfter(view, menu, stock, [act, { type: "order" }]);
    const free = (offer: string, colour: string, seen = after): number | undefined =>
      seen.offers
        .find((one) => one.offer === offer)
        ?.left.find((one) => one.colour === colour && one.size === "L")?.free;
    // Seven transfers are five by now: the nine sand blanks do not make more of them.
    expect([free("longtail-tee", "navy"), free("longtail-tee", "sand")]).toEqual([3, 5]);
    expect([free("red-kite-tee", "navy", view), free("red-kite-tee", "navy")]).toEqual([5, 3]);
    expect(leftAfter(view, menu, stock, [])).toBe(view);
    const all = { ...act, taken: { lines: [{ ...LINE, quantity: 9 }] } };
    expect(free("longtail-tee", "navy", leftAfter(view, menu, stock, [all]))).toBe(0);
    // The stall would promise the same once it has the order.
    stall.run(
      {
        type: "place",
        customer: customer("ann"),
        takenBy: "counter",
        asks: [],
        chance: 0,
        ...LINES,
      } as unknown as Command, // plain ids
      OPENS,
    );
    const one = { ...act, taken: { lines: [LINE] } };
    expect(leftAfter(view, menu, stock, [one]).offers).toEqual(menuView(stall.state, menu, OPENS).offers);
  });
});
