import { describe, expect, it } from "vitest";
import type { CustomerId } from "../../src/model/basics/ids.ts";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { answerMessage, reply } from "../../src/stall/messages/conversation.ts";
import { forget } from "../../src/stall/messages/erasing.ts";
import { customerOfNumber } from "../../src/stall/messages/known-numbers.ts";
import { write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { customer, exampleMenu, OPENS, testStall } from "./test-stall.ts";

const PHONE = "+12125550152" as PhoneNumber; // brand put on
const HASH = customer("the hash of a number");

function open() {
  const counts = [
    { sku: "tee.navy.L", counted: 20 },
    { design: "longtail", counted: 20 },
  ].map((entry) => StockEntry.parse(entry));
  const { store } = testStall(exampleMenu(), counts);
  const unit = new UnitOfWork(store);
  let texts = 0;
  const say = (words: string, from: { readonly web: CustomerId } | "phone") => {
    const at = OPENS + ++texts * MINUTE;
    const byPhone = from === "phone";
    const who = byPhone ? customerOfNumber(unit, HASH, customer(`number ${texts}`)) : from.web;
    const number = byPhone ? { number: HASH } : {};
    const said = { id: `t${texts}`, text: words, customer: who, phone: byPhone ? PHONE : null, chance: 0 };
    const heard = answerMessage(unit, { ...said, ...number }, at);
    if (!heard.ok) throw new Error(heard.refusal.code);
    if (byPhone) reply(unit, exampleMenu(), said, heard.value.replies, at);
    write(store, unit.drain());
    return heard.value.replies[0] ?? "";
  };
  /** All rows about people, as they are stored. */
  const stored = (): string =>
    JSON.stringify(
      ["person:", "talk:", "at-order:", "known:"].flatMap((prefix) => [...store.list({ prefix })]),
    );
  return { unit, store, say, stored };
}

describe("a customer who wants to be forgotten", () => {
  it("by text: number, words and what leads to them go; the order stays on, and the next text is a stranger's", () => {
    const { unit, say, stored } = open();
    say("1 navy L", "phone");
    say("yes", "phone");
    const [order] = [...unit.state.orders.values()];
    if (order === undefined) throw new Error("an order stands");
    expect(stored()).toContain(PHONE);
    expect(say("Erase me!", "phone")).toContain("erased");
    expect(stored()).not.toContain(PHONE);
    expect(stored()).not.toContain("1 navy L");
    expect([...unit.people.out.values()].map(({ text }) => text.includes("erased"))).toEqual([true]);
    expect(unit.state.order(order.number)?.word).toBe(order.word);
    expect(say("status", "phone")).not.toContain(String(order.number));
    // With the number and the word, the customer has the order again.
    expect(say(`${order.number} ${order.word}`, "phone")).not.toContain("Order");
  });
  it("on the page: the number that texted the order's code goes as well", () => {
    const { unit, store, say, stored } = open();
    const web = customer("somebody on the page");
    say("1 navy L", { web });
    say("yes", { web });
    const [order] = [...unit.state.orders.values()];
    if (order === undefined) throw new Error("an order stands");
    say(`${order.number} ${order.word}`, "phone");
    expect(stored()).toContain(PHONE);
    forget(unit, web);
    write(store, unit.drain());
    expect(stored()).not.toContain(PHONE);
    expect(stored()).not.toContain(HASH);
    expect(unit.state.order(order.number)).toBeDefined();
  });
});
