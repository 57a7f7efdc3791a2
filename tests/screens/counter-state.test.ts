/** The counter's whole page through any run of polls, taps, answers and losses of signal: its controls and its words. */
import fc from "fast-check";
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import type { CrewOrderView } from "../../src/model/orders/order.ts";
import type { QueueView } from "../../src/model/orders/queue.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import type { Actions } from "../../src/screens/client/counter/actions.ts";
import { type Act, isEnding, paying, placing } from "../../src/screens/client/counter/acts.ts";
import { roundSums } from "../../src/screens/client/counter/cash.ts";
import { withTapsOn } from "../../src/screens/client/counter/on-order.ts";
import { asOrder } from "../../src/screens/client/counter/saved.ts";
import { menuOf, ordersOf, savedOrder, withRows } from "../../src/screens/client/counter/shown.ts";
import {
  firstState,
  heardOf,
  nextCustomer,
  opened,
  type State,
  slipTaken,
  turnedTo,
} from "../../src/screens/client/counter/state.ts";
import { orderOf } from "../../src/screens/client/counter/take/slip.ts";
import { Counter } from "../../src/screens/client/counter/view.tsx";
import { isBusy } from "../../src/screens/client/crew/offline.ts";
import {
  type KeptTaps,
  NO_TAPS,
  type Tap,
  type Write,
  without,
  withTap,
} from "../../src/screens/client/crew/taps.ts";
import { stockView } from "../../src/stall/calls/counter/stock-view.ts";
import { menuView } from "../../src/stall/calls/views.ts";
import { exampleMenu, OPENS, testStall } from "../stall/test-stall.ts";
import { type Control, controlsIn } from "./controls.ts";

const example = exampleMenu();
const menu = { ...example, rules: { ...example.rules, payment: "before-handover" as const } };
const stock = ["tee.navy.L", "tee.navy.M"].map((sku) => StockEntry.parse({ sku, counted: 9 }));
const stall = testStall(menu, [...stock, StockEntry.parse({ design: "longtail", counted: 18 })]);
const views = {
  menu: menuView(stall.state, menu, OPENS),
  stock: stockView(stall.state, menu),
  whole: menu,
};

const order = (number: number, more: Partial<CrewOrderView>): CrewOrderView => ({
  ...(asOrder(
    {
      at: OPENS,
      act: {
        type: "place",
        paper: null,
        numbered: { number, word: "heron" },
        taken: {
          lines: [
            { offer: "longtail-tee", colour: "navy", size: "L", quantity: 1, each: 2400, name: "Longtail" },
          ],
          name: null,
          total: 2574,
          tax: 174,
          tender: null,
          by: null,
        },
      },
    },
    menu,
  ) as CrewOrderView), // it has a number and was taken
  ...more,
});

/** A stall that does what a tap says, unless another tablet was there first; and the page before it. */
class Counters {
  readonly known = new Map<number, CrewOrderView>();
  state: State = firstState("");
  book: KeptTaps<Act> = NO_TAPS;
  unseen: readonly Act[] = [];
  lost = false;
  readonly prompt = new Map<string, Tap<Act>>();
  #made = 0;

  get busy(): boolean {
    return isBusy({ keeping: 0, awaited: [...this.prompt.values()], lost: this.lost, ended: false });
  }

  readonly actions: Actions = {
    pressPage: "/crew",
    change: (to) => {
      this.state = withRows(to(this.state));
    },
    send: (write) => this.send(write),
    take: (how) => {
      const asked = orderOf(this.state.slip, menuOf(this.state), how, null, new Date(OPENS));
      if (typeof asked === "string")
        return this.actions.change((now) => ({ ...now, slip: { ...now.slip, missing: asked } }));
      const numbered = { number: 500 + this.#made, word: "anvil", device: "tablet".padEnd(16, "_") };
      this.send(
        placing(asked.wanted, { taken: asked.taken, block: numbered, takenAt: null, late: this.lost }),
      );
    },
    pay: (number, how) => this.send(paying(number, how, new Date(OPENS).toISOString(), null)),
    open: (number) => this.open(number),
    find: () => {},
    turnTo: (view) => this.actions.change((now) => turnedTo(now, view)),
    next: () => this.actions.change(nextCustomer),
    reveal: () => {},
    text: () => {},
    drawer: () => {},
    confirmationsSeen: () => {
      this.book = { ...this.book, confirmed: [] };
    },
    lift: () => {},
  };

  send(write: Write<Act>): void {
    const tap = { ...write, once: `key ${this.#made++}`, page: "counter", at: OPENS, firstSent: null };
    this.book = withTap(this.book, tap);
    this.prompt.set(tap.once, tap);
    if (this.lost) this.hold();
  }

  hold(): void {
    for (const tap of this.prompt.values()) {
      this.prompt.delete(tap.once);
      if (tap.act.type === "place") this.#taken(tap.act.numbered?.number ?? 0, tap.act.paper);
    }
  }

  #taken(number: number, paper: number | null): void {
    this.refresh();
    this.actions.change((now) => slipTaken(now, paper));
    const saved = savedOrder(this.state, number) ?? this.known.get(number);
    if (saved !== undefined) this.actions.change((now) => opened(now, saved, true));
  }

  open(number: number): void {
    const found = savedOrder(this.state, number) ?? this.state.orders.find((one) => one.number === number);
    if (found !== undefined)
      this.actions.change((now) => opened(now, { place: 0, quoteMinutes: 0, ...found }));
  }

  refresh(): void {
    const acts = [...this.unseen, ...this.book.taps.map(({ act }) => act)];
    this.actions.change((now) => ({
      ...now,
      taps: { acts, book: this.book, busy: this.busy, lost: this.lost },
    }));
  }

  poll(): void {
    if (this.lost) return;
    this.unseen = [];
    const orders = [...this.known.values()].filter(({ stage }) => !isEnding(stage));
    const queue = { textsRestUntil: null, unclaimed: [], unpaid: [] } as unknown as QueueView; // what the view reads
    this.actions.change((now) => ({ ...now, seen: { ...views, queue }, orders }));
    const shown = this.known.get(this.state.order?.number ?? 0);
    if (shown !== undefined) this.actions.change((now) => heardOf(now, shown));
  }

  /** The stall hears the first tap; its answer may be lost, or a refusal. */
  answer(isAnswered: boolean, refuses: boolean): void {
    const [tap] = this.book.taps;
    if (tap === undefined) return;
    const { act } = tap;
    const number = act.type === "place" ? (act.numbered?.number ?? 0) : act.type === "order" ? act.number : 0;
    if (!refuses && act.type === "place") {
      const { tender, total } = act.taken ?? { tender: null, total: 0 };
      const amount = { amount: total, currency: menu.currency };
      const paid = tender === null ? null : { tender, amount, at: new Date(OPENS).toISOString() };
      this.known.set(number, order(number, { paid }));
    }
    const before = this.known.get(number);
    if (!refuses && before !== undefined) this.known.set(number, withTapsOn(before, [act]));
    if (!isAnswered) {
      this.lost = true;
      return this.hold();
    }
    this.lost = false;
    this.book = without(this.book, tap.once);
    if (!refuses) this.unseen = [...this.unseen, act];
    const now = this.known.get(number);
    if (this.prompt.delete(tap.once) && act.type === "place" && !refuses) this.#taken(number, act.paper);
    else if (now !== undefined) this.actions.change((state) => heardOf(state, now));
  }

  get controls(): readonly Control[] {
    this.refresh();
    return controlsIn(h(Counter, { state: this.state, actions: this.actions }));
  }
}

/** What the order on the counter allows, derived from the stall's last answer and the taps alone. */
function allowed({ state }: Counters): readonly RegExp[] {
  if (state.view !== "desk" || state.order === null) return [];
  const now = withTapsOn(state.order, state.taps.acts);
  const open = !isEnding(now.stage);
  return [
    ...(open && now.paid === null ? [/^Paid: Cash$/, /^Paid: Card$/, /^Drop it…$/] : []),
    ...(now.stage === "ready" && now.paid !== null ? [/^They said “.*”: hand over$/] : []),
    ...(now.paid !== null && open ? [/^Undo: paid$/, /^Give money back…$/] : []),
    ...(open ? [] : [/^Undo: /]),
    /^Next customer$/,
  ];
}

const step = fc.oneof(
  { weight: 14, arbitrary: fc.nat().map((at) => ({ type: "tap", at }) as const) },
  {
    weight: 6,
    arbitrary: fc
      .constantFrom("poll", "answer", "answer lost", "refused", "lose", "signal", "pressed", "another’s")
      .map((type) => ({ type, at: 0 }) as const),
  },
);

describe("the counter’s page", () => {
  it("leaves no control dead that its state allows, whatever is tapped, answered, polled or lost", () => {
    let sent = 0;
    fc.assert(
      fc.property(fc.array(step, { maxLength: 80, size: "max" }), (steps) => {
        const page = new Counters();
        page.known.set(101, order(101, {}));
        page.known.set(102, order(102, { stage: "ready", unclaimed: true }));
        page.poll();
        for (const { type, at } of steps) {
          const { controls } = page;
          switch (type) {
            case "tap": {
              const able = controls.filter(({ gone }) => !gone);
              const control = able[at % able.length];
              if (control === undefined) break;
              const taps = page.book.taps.length;
              const { busy } = page;
              control.tap();
              const more = page.book.taps.length - taps;
              if (busy && control.busy) expect(more).toBe(0);
              else if (/^(?:Paid: (?!Other)|Undo: |They said|Is here)/.test(control.name))
                expect([control.name, more || page.state.slip.missing]).not.toEqual([control.name, ""]);
              sent += more;
              break;
            }
            case "poll":
              page.poll();
              break;
            case "answer":
              page.answer(true, false);
              break;
            case "answer lost":
              page.answer(false, false);
              break;
            case "refused":
              page.answer(true, true);
              break;
            case "lose":
              page.lost = true;
              page.hold();
              break;
            case "signal":
              page.lost = false;
              break;
            case "pressed":
              for (const [number, one] of page.known)
                if (one.stage === "waiting") page.known.set(number, { ...one, stage: "ready" });
              break;
            default:
              page.known.set(
                101,
                withTapsOn(order(101, {}), [
                  { type: "order", number: 101, change: { type: "closed", as: "dropped" } },
                ]),
              );
          }
          const now = page.controls;
          if (page.lost || page.prompt.size === 0)
            expect(now.filter(({ busy }) => busy).map(({ name }) => name)).toEqual([]);
          for (const wanted of allowed(page))
            expect([String(wanted), now.some(({ name, gone }) => wanted.test(name) && !gone)]).toEqual([
              String(wanted),
              true,
            ]);
          for (const wanted of [/^New order$/, /^Orders$/])
            expect(now.some(({ name }) => wanted.test(name))).toBe(true);
          // A row keeps its place: every open order is listed once at the most.
          const numbers = page.state.rows.map(({ number }) => number);
          expect(new Set(numbers).size).toBe(numbers.length);
          expect(ordersOf(page.state).length).toBe(
            new Set(ordersOf(page.state).map(({ number }) => number)).size,
          );
        }
      }),
      { numRuns: 60 },
    );
    expect(sent).toBeGreaterThan(10);
  });

  it("says nothing after the hand-over that was true before it", () => {
    const page = new Counters();
    const paid = {
      tender: "cash",
      amount: { amount: 2574, currency: menu.currency },
      at: new Date(OPENS).toISOString(),
    } as const;
    page.known.set(101, order(101, { stage: "ready", paid, dueBy: new Date(OPENS).toISOString() }));
    page.poll();
    page.open(101);
    const said = (): string => {
      page.refresh();
      return renderToString(h(Counter, { state: page.state, actions: page.actions })).replaceAll(
        /<[^>]*>/g,
        " ",
      );
    };
    const before = ["They said “heron”: hand over", "heron", "Promised by", "call the number out"];
    for (const words of before) expect(said()).toContain(words);
    page.controls.find(({ name }) => name.startsWith("They said"))?.tap();
    for (const words of before) expect(said()).not.toContain(words);
    expect(said()).toContain("handed over");
    expect(said()).toContain("Undo: handed over");
  });
});

describe("the round sums offered for cash", () => {
  it("are the next ones above what is due, and at most three times as much", () => {
    expect(roundSums(2574)).toEqual([3000, 4000, 5000]);
    expect(roundSums(850)).toEqual([900, 1000, 2000]);
    expect(roundSums(6435)).toEqual([7000, 8000, 10_000]);
    fc.assert(
      fc.property(fc.nat({ max: 500_000 }), (amount) => {
        const sums = roundSums(amount);
        expect(sums.every((sum) => sum > amount && sum < 3 * amount)).toBe(true);
        expect([...sums].sort((one, other) => one - other)).toEqual(sums);
      }),
    );
  });
});
