import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { converse } from "../../src/chat/converse.ts";
import { newTalk } from "../../src/chat/talk/talk.ts";
import { FRESH, read } from "../../src/chat/understand/read.ts";
import { MINUTE } from "../../src/time/instants.ts";
import { exampleMenu } from "./example.ts";
import { anyText } from "./menus.ts";
import { written } from "./notation.ts";
import { READINGS } from "./readings.ts";
import { customer, openShop } from "./stall.ts";

const menu = exampleMenu();

/** Anything at all that can arrive: lone surrogates, direction marks, 1,600 characters. */
const wild = fc.oneof(
  anyText,
  fc.string({ unit: "binary", maxLength: 1600 }),
  fc
    .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 200 })
    .map((units) => String.fromCharCode(...units)),
  fc.constantFrom("stop", "start", "cancel my order", "1 navy L", "1 navy L + 2 sand M", "yes"),
);

const turns = fc.array(
  fc.record({
    who: fc.integer({ min: 1, max: 3 }),
    text: wild,
    channel: fc.constantFrom("text" as const, "web" as const),
    seconds: fc.integer({ min: 0, max: 240 }),
  }),
  { minLength: 1, maxLength: 25 },
);

describe("whatever is texted", () => {
  it("is answered, or met with silence that is meant; the conversation stays plain data", () => {
    fc.assert(
      fc.property(turns, fc.constantFrom(0, 2, 20), (said, pieces) => {
        const shop = openShop(menu, pieces);
        const talks = new Map([1, 2, 3].map((who) => [who, newTalk("en")]));
        for (const { who, text, channel, seconds } of said) {
          shop.now += seconds * 1000;
          const before = talks.get(who) ?? newTalk("en");
          const turn = converse(shop.port(customer(who), channel), before, { text, channel });
          const silent = turn.talk.optedOut || turn.talk.rate.texts > menu.rules.textsPerMinute;
          if (!silent) expect(turn.replies.length).toBeGreaterThan(0);
          for (const reply of turn.replies) expect(reply.trim()).not.toBe("");
          expect(structuredClone(turn.talk)).toEqual(turn.talk);
          expect(JSON.parse(JSON.stringify(turn.talk))).toEqual(turn.talk);
          talks.set(who, turn.talk);
        }
      }),
      { numRuns: 250, seed: 20270501 },
    );
  });

  it("leaves no hold behind once it has expired, and promises only what is ordered", () => {
    fc.assert(
      fc.property(turns, fc.constantFrom(2, 20), (said, pieces) => {
        const shop = openShop(menu, pieces);
        const talks = new Map([1, 2, 3].map((who) => [who, newTalk("en")]));
        for (const { who, text, channel, seconds } of said) {
          shop.now += seconds * 1000;
          const turn = converse(shop.port(customer(who), channel), talks.get(who) ?? newTalk("en"), {
            text,
            channel,
          });
          talks.set(who, turn.talk);
          for (const piece of shop.state.counts.keys()) {
            expect(shop.state.free(piece as never)).toBeGreaterThanOrEqual(0); // keys of counts are pieces
          }
        }
        shop.now += menu.rules.holdMinutes * MINUTE;
        shop.do({ type: "tick" });
        expect(shop.state.holds.size).toBe(0);
        const ordered = [...shop.state.orders.values()].flatMap(({ jobs }) => jobs).length;
        const promised = menu.designs.reduce(
          (sum, { id }) => sum + shop.state.orderIndex.promises.of(`transfer:${id}`),
          0,
        );
        expect(promised).toBe(ordered);
      }),
      { numRuns: 150, seed: 20270501 },
    );
  });
});

describe("a reading", () => {
  // A minus or plus that stands before a number, and line ends, are not mere spacing.
  const rows = READINGS.filter(([text]) => text.length < 200 && text.trim() !== "");

  it.each([
    ["capital letters", (text: string) => text.toUpperCase()],
    ["small letters", (text: string) => text.toLowerCase()],
    ["accents taken apart", (text: string) => text.normalize("NFD")],
    ["accents left out", (text: string) => text.normalize("NFD").replace(/\p{M}/gu, "")],
    ["spaces around and within", (text: string) => `  ${text.replaceAll(" ", "   ")}  `],
    ["a full stop", (text: string) => `${text}.`],
    ["exclamation marks", (text: string) => `${text}!!!`],
    ["a question mark", (text: string) => `${text} ?`],
    ["a smile", (text: string) => `${text} 😀`],
  ])("is the same with %s", (_, change) => {
    for (const [text, language, reading] of rows) {
      expect(written(read(menu, language, FRESH, change(text))), change(text)).toBe(reading);
    }
  });

  it("takes bounded time on any text: 1,600 characters of names, numbers and marks", () => {
    const worst = ["tee ", "2x ", "1 ", "longtial ", "red ", "navy, ", "1 tee and "].map((word) =>
      word.repeat(400).slice(0, 1600),
    );
    for (const text of worst) expect(written(read(menu, "en", FRESH, text)).length).toBeGreaterThan(0);
  });
});
