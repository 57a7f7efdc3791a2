/**
 * The counter's lists of open orders: which order is where, what a typed word finds, and that rows keep their places.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OpenOrder, OpenOrders } from "../../src/model/orders/open-orders.ts";
import { withTapsOn } from "../../src/screens/client/counter/on-order.ts";
import { garmentsIn, inPlace, isOn, LISTS, toOpen } from "../../src/screens/client/counter/open/lists.ts";
import { exampleMenu } from "../stall/test-stall.ts";

const menu = exampleMenu();
const money = (amount: number) => ({ amount, currency: menu.currency });

const order = (number: number, more: Partial<OpenOrder> = {}): OpenOrder => ({
  ...OpenOrder.parse({
    number,
    word: "heron",
    stage: "waiting",
    lines: [
      {
        offer: "longtail-tee",
        name: "Longtail tee",
        blank: "tee",
        design: "longtail",
        colour: "navy",
        size: "L",
        quantity: 1,
        each: 2400,
      },
    ],
    jobs: [{ job: `${number}-1`, stage: "waiting" }],
    total: money(2574),
    tax: money(174),
    taxInPrice: false,
    placedAt: "2027-06-12T14:00:00.000Z",
    dueBy: null,
    paid: null,
    takenBy: "text",
    unclaimed: false,
    name: null,
    phone: null,
    dropsAt: null,
    giveBack: null,
    paidTo: null,
    gaveBack: null,
    told: "nothing",
  }),
  ...more,
});
const paid = { tender: "cash", amount: money(2574), at: "2027-06-12T14:01:00.000Z" } as const;
const garments = (one: OpenOrder): string => garmentsIn(one, menu);
const listsOf = (one: OpenOrder, tracked = true) => LISTS.filter((list) => isOn(list, one, tracked));

describe("the lists", () => {
  it.each([
    ["waiting and unpaid", order(101), ["to-pay", "all"]],
    ["waiting and paid", order(101, { paid }), ["all"]],
    ["ready, and its text went out", order(101, { paid, stage: "ready", told: "sent" }), ["to-fetch", "all"]],
    [
      "ready, and its text failed",
      order(101, { paid, stage: "ready", told: "failed" }),
      ["to-fetch", "to-call-out", "all"],
    ],
    [
      "ready, of somebody without a phone, unpaid",
      order(101, { stage: "ready", told: "call-out" }),
      ["to-fetch", "to-call-out", "to-pay", "all"],
    ],
    [
      "from the web, nobody here",
      order(101, { paid, stage: "to-claim", unclaimed: true }),
      ["not-here", "all"],
    ],
    ["handed over", order(101, { stage: "collected", told: "call-out" }), []],
  ] as const)("hold an order that is %s", (_, one, lists) => {
    expect(listsOf(one)).toEqual(lists);
  });

  it("ask for no money if the stall notes none", () => {
    expect(listsOf(order(101), false)).toEqual(["all"]);
  });

  it("follow a tap before the stall has answered it", () => {
    const ready = order(101, { stage: "ready", told: "call-out" });
    const act = (change: Parameters<typeof withTapsOn>[1][number]) => withTapsOn(ready, [change]);
    const pay = { type: "paid", tender: "cash", at: "2027-06-12T14:02:00.000Z", by: null } as const;
    expect(listsOf(act({ type: "order", number: 101, change: pay }))).not.toContain("to-pay");
    expect(listsOf(act({ type: "order", number: 101, change: { type: "closed", as: "collected" } }))).toEqual(
      [],
    );
    expect(act({ type: "order", number: 102, change: { type: "closed", as: "dropped" } })).toEqual(ready);
  });
});

describe("one field for every order", () => {
  const wren = order(101, { word: "heron", name: "Wren", phone: "0104" });
  const zoe = order(102, { word: "anvil", name: "Zoë", phone: "0199" });
  const other = order(1040, { word: "willow", name: "Wrenna" });
  const open = [wren, zoe, other];
  const finds = (typed: string) => {
    const found = toOpen(open, garments, typed);
    return found.type === "one" ? found.number : found.type === "none" ? null : `${found.count} fit`;
  };

  it.each([
    ["101", 101],
    [" 102 ", 102],
    ["HERON", 101],
    ["anv", 102],
    ["wren", 101],
    ["wre", "2 fit"],
    ["zoe", 102],
    ["0199", 102],
    ["0104", 101],
    ["navy wrenna", 1040],
    ["nobody", null],
    ["7", null],
  ])("finds by %s", (typed, found) => {
    expect(finds(typed)).toBe(found);
  });

  it("takes a whole number for a pickup number, also of an order that is closed", () => {
    expect(finds("555")).toBe(555);
    // The beginning of another order's number is not that order.
    expect(finds("104")).toBe(104);
  });

  it("takes four digits that are an open order's number for that number, whoever's telephone ends so", () => {
    const clash = order(103, { phone: "1040" });
    expect(toOpen([...open, clash], garments, "1040")).toEqual({ type: "one", number: 1040 });
  });
});

describe("the places of rows", () => {
  it("stay through any polls; new ones come at the end", () => {
    const list = fc.uniqueArray(fc.integer({ min: 100, max: 130 }));
    fc.assert(
      fc.property(list, fc.array(list, { maxLength: 6 }), (first, polls) => {
        let places: readonly number[] = first;
        for (const now of polls) {
          const next = inPlace(places, now);
          expect(next.slice(0, places.length)).toEqual(places);
          expect(new Set(next)).toEqual(new Set([...places, ...now]));
          expect(new Set(next).size).toBe(next.length);
          places = next;
        }
      }),
    );
  });
});

it("leaves out of an open order what is worked out for the one on the counter only", () => {
  const all = { version: 1, orders: [order(101)], more: 0 };
  expect(OpenOrders.parse(all)).toEqual(all);
  expect(OpenOrder.safeParse({ ...order(101), place: 1 }).success).toBe(false);
});
