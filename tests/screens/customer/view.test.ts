/** The customer's page as text, state by state. */
import fc from "fast-check";
import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { OrderStage, OrderStanding } from "../../../src/model/orders/order.ts";
import {
  cancelling,
  cutOff,
  firstState,
  forgotten,
  heard,
  news,
  noNews,
  refused,
  type State,
  saying,
  typing,
  unpictured,
} from "../../../src/screens/client/customer/state.ts";
import { type Actions, Customer } from "../../../src/screens/client/customer/view.tsx";
import { pageWords } from "../../../src/screens/client/customer/words.ts";

const nothing = (): void => undefined;
const actions: Actions = {
  board: "/at/fair/tern/board",
  yourData: "/at/fair/tern/your-data",
  say: nothing,
  type: nothing,
  sendNow: nothing,
  askToCancel: nothing,
};
const words = pageWords(["en"]);
const markup = (state: State): string => renderToString(h(Customer, { state, words, actions }));
/** The text of a part of the page; the buttons of a row are each in brackets. */
const read = (html: string): string =>
  html
    .replaceAll(/<(?:button|a)\b[^>]*>/g, "[")
    .replaceAll(/<\/(?:button|a)>/g, "]")
    .replaceAll(/<svg.*?<\/svg>/g, "")
    .replaceAll(/<[^>]*>/g, " ")
    .replaceAll(/\s+/g, " ")
    .trim();
const part = (state: State, tag: "header" | "main" | "footer"): string =>
  read(new RegExp(`<${tag}.*?</${tag}>`, "s").exec(markup(state))?.[0] ?? "");

const order = (stage: OrderStage, more: Partial<OrderStanding> = {}): OrderStanding =>
  OrderStanding.parse({
    number: 127,
    place: 4,
    quoteMinutes: 9,
    stage,
    word: "heron",
    claim: "claim",
    total: { amount: 2574, currency: "USD" },
    tax: { amount: 174, currency: "USD" },
    taxInPrice: false,
    paused: false,
    ...more,
  });

const first = unpictured(firstState("Tern & Tide", []));
const one = { id: "a".repeat(22), text: "menu" };
const asks = "Tern & Tide. Text a number:\n1 Longtail tee $24\n2 Tern cap $18";
const answered = (text: string, stage?: OrderStage, more?: Partial<OrderStanding>): State =>
  heard(saying(first, one), one, {
    customer: "token",
    replies: [{ id: "r1", text }],
    ...(stage === undefined ? {} : { order: order(stage, more) }),
  });

describe("the customer's page", () => {
  it("shows what can be chosen, and an answered step by its name", () => {
    const open = answered(asks);
    expect(part(open, "main")).toContain("[ 1 Longtail tee $24 ][ 2 Tern cap $18 ]");
    const two = { id: "b".repeat(22), text: "2" };
    const next = heard(saying(open, two), two, {
      customer: "token",
      replies: [{ id: "r2", text: "How many? 1 to 2" }],
    });
    expect(part(next, "main")).toBe(
      "Conversation You menu Stall Menu Text a number: 1 Longtail tee $24 2 Tern cap $18 You Tern cap $18 Stall How many? 1 2 [ 1 ][ 2 ] [What we keep about you]",
    );
  });

  it("waits with the talk until it knows how the garments look, so that no picture pushes it away", () => {
    expect(part({ ...answered(asks), looks: null }, "main")).toBe("Conversation");
    expect(part({ ...answered("Thank you!", "waiting"), looks: null }, "header")).toContain("4th in line");
  });

  it("shows the order with its tax, the board, and a way to cancel that asks first", () => {
    const waits = answered("Thank you!", "waiting");
    expect(part(waits, "header")).toContain(
      "Pickup number 127 4th in line about 9 min Pickup word heron $24 + $1.74 tax = $25.74 [Watch the board][Cancel order]",
    );
    expect(part(cancelling(waits, true), "header")).toContain("Cancel order 127? [Keep it][Yes, cancel]");
    // Said yes: the question is gone.
    expect(part(saying(cancelling(waits, true), one), "header")).toContain("[Cancel order]");
  });

  it.each([
    ["pressing", "Being pressed now about 9 min Pickup word heron"],
    ["ready", "Ready. Come and get it! At the counter, say the word heron"],
    ["collected", "Pickup number 127 Handed over. Enjoy it!"],
    ["dropped", "Canceled"],
  ] as const)("says what an order is: %s", (stage, says) => {
    const shown = part(answered("Hello", stage), "header");
    expect(shown).toContain(says);
    expect(shown).not.toContain("Cancel order");
  });

  it("says that the stall has paused", () => {
    expect(part(answered("Hello", "waiting", { paused: true }), "header")).toContain(
      "about 9 min once we start again The stall has paused. You keep your place.",
    );
  });

  it("says what is not sent, and offers to send it now", () => {
    const lost = cutOff(saying(answered(asks), { id: "c".repeat(22), text: "1" }));
    expect(part(lost, "main")).toContain("You Longtail tee $24 not sent yet");
    expect(part(lost, "footer")).toContain(
      "No connection: 1 message is kept here and will be sent. [Send now]",
    );
  });

  it("has every control that its state allows, and none that is dead, whatever came before", () => {
    const id = fc.constantFrom("x", "y", "z").map((letter) => letter.repeat(22));
    const text = fc.constantFrom("1", "yes", "hello");
    const reply = fc.constantFrom(
      asks,
      "Which size? 1 S 2 M",
      "Goodbye.",
      "Order it? 1 YES 2 ADD another 3 CHANGE",
    );
    const stage = fc.option(fc.constantFrom(...OrderStage.options), { nil: undefined });
    type Change = (before: State) => State;
    const change: fc.Arbitrary<Change> = fc.oneof(
      fc.tuple(id, text).map(
        ([who, said]): Change =>
          (before) =>
            saying(before, { id: who, text: said }),
      ),
      fc.tuple(reply, stage).map(
        ([said, now]): Change =>
          (before) => {
            const [next] = before.unsent;
            const replies = [{ id: `${before.lines.length}r`, text: said }];
            return next === undefined
              ? before
              : heard(before, next, {
                  customer: "token",
                  replies,
                  ...(now === undefined ? {} : { order: order(now) }),
                });
          },
      ),
      stage.map(
        (now): Change =>
          (before) =>
            news(before, { messages: [], last: 1, ...(now === undefined ? {} : { order: order(now) }) }),
      ),
      fc.boolean().map(
        (is): Change =>
          (before) =>
            cancelling(before, is),
      ),
      fc.constantFrom<Change>(
        cutOff,
        forgotten,
        (before) => typing(before, "1 na"),
        (before) => noNews(before, { why: "unreachable" }),
        (before) =>
          before.unsent[0] === undefined
            ? before
            : refused(before, before.unsent[0], { why: "refused", problem: "no-menu", detail: "" }),
      ),
    );
    fc.assert(
      fc.property(fc.array(change, { maxLength: 15 }), (changes) => {
        const state = changes.reduce((before, to) => to(before), first);
        const html = markup(state);
        expect(html).not.toMatch(/ (?:aria-)?disabled/);
        expect(part(state, "footer")).toMatch(/\[ ?Send ?\] ?\[Menu\]\[Back\]\[My order\]\[Help\]$/);
        expect(/id="unsent"[^>]*hidden/.test(html)).toBe(!state.isCutOff || state.unsent.length === 0);
        const now = state.order?.stage;
        const may = now === "waiting" || now === "to-pay" || now === "to-claim";
        expect(/Cancel order/.test(html)).toBe(may);
        if (state.unsent.length > 0) expect(html).not.toContain('class="choice');
      }),
      { numRuns: 300 },
    );
  });
});

describe("a message that is refused for a reason the page has no words for", () => {
  it("is told as the stall words it, in English only", () => {
    const said = saying(first, { id: "one", text: "1" });
    const [message] = said.unsent;
    if (message === undefined) throw new Error("nothing was said");
    const told = refused(said, message, { why: "refused", problem: "too-often", detail: "Wait a minute." });
    const shown = (languages: string[]): string =>
      read(renderToString(h(Customer, { state: told, words: pageWords(languages), actions })));
    expect(shown(["en"])).toContain("Wait a minute.");
    expect(shown(["es"])).not.toContain("Wait a minute.");
    expect(shown(["es"])).toContain(pageWords(["es"]).strange);
  });
});
