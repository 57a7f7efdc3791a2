import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/maths/random.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { queueView } from "../../src/stall/calls/queue-view.ts";
import { menuView } from "../../src/stall/calls/views.ts";
import { backlogEnds, lastOrdersCalled } from "../../src/stall/line/closing-time.ts";
import { friendlyMinutes, quoteSeconds } from "../../src/stall/line/quote.ts";
import { nextDue } from "../../src/stall/messages/agenda.ts";
import { answerMessage } from "../../src/stall/messages/conversation.ts";
import { tell } from "../../src/stall/messages/notices.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { KEPT_SHARE, NOTHING_TIMED, withQuotesCorrected } from "../../src/stall/state/pace.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { ids } from "../ids.ts";
import { CLOSES, customer, exampleMenu, type MemoryStore, OPENS, placing, testStall } from "./test-stall.ts";

const STOCK = [
  { sku: "tee.navy.L", counted: 60 },
  { sku: "tee.sand.L", counted: 20 },
  { design: "longtail", counted: 60 },
  { design: "otter", counted: 20 },
].map((entry) => StockEntry.parse(entry));
const A = ids.press("A");
const B = ids.press("B");
const TEE = { platen: "flat", kind: "screen-printed", quantity: 1 } as const;

const place = (n: number, more: object = {}): Command => placing(`customer-${n}`, { chance: 0.3, ...more });

const open = (menu: Menu = exampleMenu()) => testStall(menu, STOCK);

describe("a quote", () => {
  it("grows with the line, with a press less, and with hands fewer than presses", () => {
    const stall = open();
    const quote = (now: number) => quoteSeconds(stall.state, exampleMenu(), [TEE], now);
    const empty = quote(OPENS);
    for (let n = 0; n < 12; n++) stall.run(place(n), OPENS);
    const twelve = quote(OPENS);
    expect(twelve).toBeGreaterThan(empty + (10 * 75) / 2);
    stall.run({ type: "set-hands", hands: 1 }, OPENS);
    const oneHand = quote(OPENS);
    expect(oneHand / twelve).toBeGreaterThan(1.5);
    stall.run({ type: "set-hands", hands: null }, OPENS);
    expect(quote(OPENS)).toBeCloseTo(twelve, 6);
    stall.run({ type: "press-down", press: A }, OPENS);
    const oneDown = quote(OPENS);
    expect(oneDown).toBeGreaterThan(twelve + 60);
    stall.run({ type: "press-down", press: B }, OPENS);
    expect(quote(OPENS)).toBeGreaterThan(oneDown + 60);
  });
  it("counts no press as free that has no hand", () => {
    const stall = open();
    const quote = (now: number) => quoteSeconds(stall.state, exampleMenu(), [TEE], now);
    const empty = quote(OPENS);
    stall.run(place(0), OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    expect(quote(OPENS)).toBeCloseTo(empty, 6);
    stall.run({ type: "set-hands", hands: 1 }, OPENS);
    expect(quote(OPENS)).toBeGreaterThan(empty + 60);
  });
  it("does not count on an unattended press while garments wait for it", () => {
    const stall = open();
    const quote = (now: number) => quoteSeconds(stall.state, exampleMenu(), [TEE], now);
    for (let n = 0; n < 12; n++) stall.run(place(n), OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    const later = OPENS + 10 * MINUTE;
    const silent = quote(later);
    stall.run({ type: "pull", press: B }, later);
    expect(silent).toBeGreaterThan(quote(later) + 120);
  });
  it("is longer after broken promises, and shorter again after kept ones", () => {
    let pace = NOTHING_TIMED;
    for (let n = 0; n < 20; n++) pace = withQuotesCorrected(pace, false, 0);
    const longer = pace.stretch ?? 0;
    expect(longer).toBeGreaterThan(2);
    for (let n = 0; n < 200; n++) pace = withQuotesCorrected(pace, true, 0);
    expect(pace.stretch).toBeLessThan(longer / 2);
  });
  it("keeps nine promises in ten in the long run, however wrong the model is", () => {
    for (const truth of [0.7, 1, 2]) {
      const random = seededRandom(20270612);
      let pace = NOTHING_TIMED;
      let kept = 0;
      for (let n = 0; n < 20_000; n++) {
        const inTime = truth * (0.5 + random.next()) <= (pace.stretch ?? 1);
        kept += inTime ? 1 : 0;
        pace = withQuotesCorrected(pace, inTime, 0);
      }
      expect(kept / 20_000).toBeCloseTo(KEPT_SHARE, 2);
    }
  });
  it("is not spoilt by one garment left on the press over lunch", () => {
    const stall = open();
    for (let n = 0; n < 8; n++) stall.run(place(n), OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    const before = stall.state.pace.work["flat/screen-printed"];
    expect(before).toBeUndefined();
    stall.run({ type: "pressed", job: ids.job("101-1") }, OPENS + 60 * MINUTE);
    // An hour counts as four times the 75 s that were expected, and no more.
    expect(stall.state.pace.work["flat/screen-printed"]).toMatchObject({ count: 1, mean: 300, squares: 0 });
  });
  it("leaves a platen's change of temperature out of what garments take, and counts it apart", () => {
    const stall = open();
    stall.run({ type: "press-down", press: B }, OPENS);
    stall.run(place(1), OPENS);
    stall.run(place(2, { lines: [{ offer: "otter-tee", colour: "sand", size: "L", quantity: 1 }] }), OPENS);
    stall.run({ type: "pull", press: A }, OPENS);
    stall.run({ type: "pressed", job: ids.job("101-1") }, OPENS + 80_000);
    stall.run({ type: "pull", press: A }, OPENS + 80_000);
    // 365 to 310 °F at 15 °F a minute: 220 s.
    const view = queueView(stall.state, exampleMenu(), OPENS + 81_000).presses[0];
    expect(view?.job?.setTo).toMatchObject({ fahrenheit: 310, aboutMinutes: 4 });
    expect(view?.fahrenheit).toBe(310);
    stall.run({ type: "pressed", job: ids.job("102-1") }, OPENS + 80_000 + 220_000 + 70_000);
    expect(stall.state.pace.work["flat/film"]?.mean).toBe(70);
    expect(stall.state.pace.heating.flat).toMatchObject({ count: 2, mean: 110 });
  });
  it("is a number people say", () => {
    const said = [20, 95, 14.4 * 60, 17 * 60, 18 * 60, 58 * 60, 76 * 60].map(friendlyMinutes);
    expect(said).toEqual([1, 2, 14, 15, 20, 60, 80]);
  });
});

describe("a promise that will be broken", () => {
  it("is announced once, by text, with the new time, when its press goes down", () => {
    const menu = exampleMenu();
    const stall = open();
    const store = stall.store as MemoryStore;
    for (let n = 0; n < 4; n++) stall.run(place(n, { takenBy: "text" }), OPENS);
    const unit = new UnitOfWork(store);
    const speaker = customer("customer-3");
    const person = { ...unit.people.person(speaker), phone: "+12125550104" as never, wroteFirst: true };
    unit.people.persons.set(speaker, person);
    const events = [A, B].flatMap(
      (press) => unit.carryOut({ type: "press-down", press }, OPENS + 31_000).events,
    );
    const late = events.flatMap((event) => (event.type === "ran-late" ? [event.number] : []));
    expect(late).toContain(104);
    expect(unit.state.order(104)?.toldLate).toBe(true);
    tell(unit, menu, events, OPENS + 31_000);
    const texts = [...unit.people.out.values()];
    expect(texts).toHaveLength(1);
    expect(texts[0]?.text).toContain("104");
    const again = unit.carryOut({ type: "tick" }, OPENS + 20 * MINUTE);
    expect(again.events.filter((event) => event.type === "ran-late" && event.number === 104)).toEqual([]);
  });
  it("is found by the alarm if nobody taps anything, and the promise itself stays what it was", () => {
    const stall = open();
    stall.run(place(1), OPENS);
    const dueBy = stall.state.order(101)?.dueBy ?? 0;
    const unit = new UnitOfWork(stall.store);
    unit.people.pushed.set("", {
      version: unit.state.version,
      at: OPENS,
      toldAt: OPENS,
      shares: null,
    });
    expect(nextDue(unit, OPENS)).toBe(dueBy + 1);
    expect(stall.run({ type: "tick" }, dueBy - 5 * MINUTE).events).toEqual([]);
    expect(stall.run({ type: "tick" }, dueBy).events).toEqual([{ type: "ran-late", number: 101 }]);
    expect(stall.state.order(101)).toMatchObject({ dueBy, toldLate: true });
  });
  it("moves with a pause, for each order by as much of it as it stood through", () => {
    const stall = open();
    stall.run(place(1), OPENS);
    const first = stall.state.order(101)?.dueBy ?? 0;
    stall.run({ type: "pause", reason: "rain" }, OPENS + MINUTE);
    stall.run(place(2), OPENS + 11 * MINUTE);
    const second = stall.state.order(102)?.dueBy ?? 0;
    expect(stall.run({ type: "tick" }, first).events).toEqual([]);
    stall.run({ type: "resume" }, OPENS + 21 * MINUTE);
    expect(stall.state.order(101)?.dueBy).toBe(first + 20 * MINUTE);
    expect(stall.state.order(102)?.dueBy).toBe(second + 10 * MINUTE);
  });
});

describe("closing time", () => {
  const text = (n: number) => place(n, { takenBy: "text" });
  it("is announced and closes intake automatically; the crew can keep intake open, and undo that", () => {
    const menu = exampleMenu();
    const stall = open();
    expect(stall.run({ type: "tick" }, CLOSES - 60 * MINUTE).events).toEqual([]);
    const called = CLOSES - 36 * MINUTE;
    expect(stall.run({ type: "tick" }, called).events).toEqual([{ type: "last-orders", closes: CLOSES }]);
    expect(menuView(stall.state, menu, called).lastOrders).toBe(true);
    expect(stall.run({ type: "tick" }, called + MINUTE).events).toEqual([]);
    const late = CLOSES - 6 * MINUTE;
    expect(stall.run(text(1), late).refusal).toMatchObject({ code: "line-too-long" });
    expect(queueView(stall.state, menu, late).intake).toMatchObject({ open: false, lastOrders: true });
    stall.run({ type: "keep-open", open: true }, late);
    expect(queueView(stall.state, menu, late).intake).toMatchObject({ open: true, keptOpen: true });
    expect(lastOrdersCalled(stall.state, late)).toBe(false);
    expect(stall.run(text(1), late).refusal).toBeNull();
    stall.run({ type: "keep-open", open: false }, late);
    expect(stall.run(text(2), late).refusal).toMatchObject({ code: "line-too-long" });
    expect(stall.run({ type: "keep-open", open: true }, CLOSES).refusal).toMatchObject({ code: "not-open" });
  });
  it("is said in the conversation, in its language", () => {
    const unit = new UnitOfWork(open().store);
    const ask = (id: string, language: "en" | "es", now: number): string => {
      const spoken = { id, text: "menu", customer: customer(`customer-${language}`), language, chance: 0 };
      const heard = answerMessage(unit, { ...spoken, phone: null }, now);
      return heard.ok ? heard.value.replies.join(" ") : "";
    };
    const called = CLOSES - 36 * MINUTE;
    expect(ask("1", "en", OPENS)).toContain("Longtail");
    expect(ask("2", "en", OPENS)).not.toContain("Last orders");
    unit.carryOut({ type: "tick" }, called);
    expect(ask("3", "en", called)).toContain("Last orders!");
    expect(ask("4", "es", called)).toContain("¡Últimos pedidos!");
  });
  it("comes earlier for a longer line, and the end of the line is known", () => {
    const menu = exampleMenu();
    const stall = open();
    const before = Date.parse(queueView(stall.state, menu, OPENS).intake.endsAt ?? "");
    expect(backlogEnds(stall.state, menu, OPENS)).toBeNull();
    for (let n = 0; n < 30; n++) stall.run(place(n), OPENS);
    const after = Date.parse(queueView(stall.state, menu, OPENS).intake.endsAt ?? "");
    expect(before - after).toBeGreaterThan(12 * MINUTE);
    const ends = backlogEnds(stall.state, menu, OPENS) ?? 0;
    expect(ends - OPENS).toBeGreaterThan((30 / 2) * 75_000);
    expect(ends - OPENS).toBeLessThan((30 / 2) * 75_000 * 1.7);
  });
});

describe("what runs out", () => {
  it("is reckoned at the pace of today's orders, and nothing that lasts the day is listed", () => {
    const menu = exampleMenu();
    const stall = open();
    for (let n = 0; n < 20; n++) stall.run(place(n), OPENS + n * 3 * MINUTE);
    const now = OPENS + 60 * MINUTE;
    // 20 an hour, 40 left of 60: two hours more.
    const low = queueView(stall.state, menu, now).low;
    const at = new Date(now + 120 * MINUTE).toISOString();
    expect(low.slice(0, 2)).toEqual([
      { sku: "tee.navy.L", free: 40, emptyAt: at },
      { sku: "transfer:longtail", free: 40, emptyAt: at },
    ]);
    expect(low.map(({ sku }) => sku)).not.toContain("tee.sand.L");
  });
});
