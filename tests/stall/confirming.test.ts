import { describe, expect, it } from "vitest";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { answerMessage, reply } from "../../src/stall/messages/conversation.ts";
import { takeDue } from "../../src/stall/messages/delivery.ts";
import { tell, tellFromCrew } from "../../src/stall/messages/notices.ts";
import type { Command } from "../../src/stall/rules/commands.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

const PHONE = "+12125550151" as PhoneNumber; // brand put on
const DAY = "2027-06-12";

function open() {
  const counts = [
    { sku: "tee.navy.L", counted: 20 },
    { design: "longtail", counted: 20 },
  ].map((entry) => StockEntry.parse(entry));
  const unit = new UnitOfWork(testStall(exampleMenu(), counts).store);
  let texts = 0;
  const text = (from: string, words: string, at = OPENS + ++texts * MINUTE) => {
    const said = {
      id: `text-${from}-${texts}`,
      text: words,
      customer: customer(from),
      phone: PHONE,
      chance: 0,
    };
    const heard = answerMessage(unit, said, at);
    if (!heard.ok) throw new Error(heard.refusal.code);
    reply(unit, exampleMenu(), said, heard.value.replies, at);
    return heard.value.replies[0] ?? "";
  };
  const order = (who: string, takenBy: "web" | "text" | "counter" = "web") => {
    const lines = [{ offer: "longtail-tee", colour: "navy", size: "L", quantity: 1 }];
    const place = { type: "place", customer: customer(who), takenBy, lines, asks: [], chance: 0 };
    const { events, refusal } = unit.carryOut(place as unknown as Command, OPENS); // plain ids
    if (refusal !== null) throw new Error(refusal.code);
    const placed = events.find((event) => event.type === "placed")?.order;
    if (placed === undefined) throw new Error("nothing was placed");
    return placed;
  };
  return { unit, text, order };
}

describe("an order's code by text", () => {
  it("is refused after five wrong words for that order, the right one too; another order still can be", () => {
    const { text, order } = open();
    const [one, other] = [order("ann"), order("ben")];
    const wrong = text("pat", `${one.number} zephyr`);
    for (let n = 0; n < 4; n++) expect(text("pat", `${one.number} zephyr`)).toBe(wrong);
    const over = text("pat", `${one.number} ${one.word}`);
    expect(over).not.toBe(wrong);
    expect(over).not.toContain(String(one.number));
    expect(text("pat", `${other.number} ${other.word}`)).toContain(String(other.number));
    expect(text("quinn", `${one.number} ${one.word}`)).toContain(String(one.number));
  });
  it("does not fit if another number was typed, if another confirmed, or if it was not ordered on the web", () => {
    const { unit, text, order } = open();
    const typed = order("ann");
    unit.people.atOrders.set(String(typed.number), { given: customer("pat") });
    const wrong = text("quinn", `${typed.number} ${typed.word}`);
    expect(text("pat", `${typed.number} ${typed.word}`)).toContain(String(typed.number));
    const own = order("ben", "text");
    expect(text("rob", `${own.number} ${own.word}`)).toBe(wrong);
    const untyped = order("cy");
    expect(text("rob", `${untyped.number} ${untyped.word}`)).toContain(String(untyped.number));
    expect(text("sam", `${untyped.number} ${untyped.word}`)).toBe(wrong);
  });
  it("lets the number ask for the order and give it up; its own orders then are the confirmed ones", () => {
    const { unit, text, order } = open();
    const placed = order("ann");
    text("pat", `${placed.number} ${placed.word}`);
    expect(text("pat", "status")).toContain(String(placed.number));
    text("pat", `drop ${placed.number}`);
    expect(unit.state.order(placed.number)).toBeUndefined();
  });
  it("binds a walk-up's order to the number that texts its line; the crew's sentences go to that number only", () => {
    const { unit, text, order } = open();
    const placed = order("somebody at the counter", "counter");
    const at = OPENS + 5 * MINUTE;
    const say = (now: number) => tellFromCrew(unit, exampleMenu(), placed, "five-minutes", now);
    expect(say(at)).toBe("not-written");
    expect(unit.people.out.size).toBe(0);
    expect(text("pat", `${placed.number} ${placed.word}`)).toContain(String(placed.number));
    expect(text("pat", "status")).toContain(String(placed.number));
    const before = unit.people.out.size;
    expect(say(at)).toBeNull();
    const sent = [...unit.people.out.values()].at(-1);
    expect(sent).toMatchObject({ to: PHONE, lane: customer("pat"), own: true });
    expect(sent?.text).toBe(`Order ${placed.number} needs about 5 more minutes.`);
    text("pat", "stop");
    expect(say(at + MINUTE)).toBe("opted-out");
    expect([before, unit.people.atOrder(placed.number).texted]).toEqual([2, { say: "five-minutes", at }]);
  });
  it("is answered out of the part of the day's texts that strangers cannot use up", () => {
    const { unit, text, order } = open();
    const placed = order("ann");
    unit.people.budget.set("", { day: DAY, segments: 0, own: 9 });
    text("quinn", "help");
    text("pat", `${placed.number} ${placed.word}`);
    const due = takeDue(unit, OPENS + 9 * MINUTE, DAY, new Set([PHONE]));
    expect(due.map(({ lane }) => lane)).toEqual([customer("pat")]);
    expect(unit.people.budget.get("")?.own).toBeLessThan(9);
  });
  it("is sent nothing about an order before it said the code, though a version before had its number bound", () => {
    const { unit, order } = open();
    const placed = order("ann");
    const earlier = { phone: PHONE, name: null, optedOut: false, lastOrder: placed.number };
    unit.people.persons.set(customer("ann"), { ...earlier, wroteFirst: false, writesAs: customer("pat") });
    unit.people.persons.set(customer("pat"), { ...earlier, wroteFirst: true });
    const { events } = unit.carryOut(
      { type: "closed", number: placed.number, as: "dropped" },
      OPENS + MINUTE,
    );
    tell(unit, exampleMenu(), events, OPENS + MINUTE);
    expect([...unit.people.out.values()].map(({ to }) => to)).toEqual([null]);
  });
});
