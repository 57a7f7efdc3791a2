import { describe, expect, it } from "vitest";
import type { PhoneNumber } from "../../src/model/orders/order.ts";
import { answerMessage } from "../../src/stall/messages/conversation.ts";
import { remember } from "../../src/stall/messages/kept-turns.ts";
import { write } from "../../src/stall/storage/records.ts";
import { UnitOfWork } from "../../src/stall/storage/unit-of-work.ts";
import { customer, exampleMenu, type MemoryStore, OPENS, testStall } from "./test-stall.ts";

const ANN = customer("ann");
const PHONE = "+12125550152" as PhoneNumber; // brand put on

/** The bytes of the stored conversation, as JSON in UTF-8. */
const bytesIn = (store: MemoryStore): number =>
  Buffer.byteLength(JSON.stringify(store.rows.get(`talk:${ANN}`)), "utf8");

describe("a conversation's row", () => {
  it("stays within 20 KiB however long the messages are, and keeps the latest ones", () => {
    const { store } = testStall(exampleMenu(), []);
    const unit = new UnitOfWork(store);
    for (let n = 0; n < 60; n++) {
      const text = `${n} ${"\u{1F9F5}".repeat(799)}`;
      answerMessage(
        unit,
        { id: `message-${n}`, text, customer: ANN, phone: null, chance: 0 },
        OPENS + n * 60_000,
      );
    }
    write(store, unit.drain());
    expect(bytesIn(store)).toBeLessThan(20 * 1024);
    const { turns = [], said } = unit.people.conversations.get(ANN) ?? {};
    expect([turns.at(-1)?.id, said]).toEqual(["message-59", 60]);
    expect(turns.length).toBeGreaterThan(2);
  });

  it("keeps the latest turn even if that alone is longer, and at most 40 short ones", () => {
    const { store } = testStall(exampleMenu(), []);
    const unit = new UnitOfWork(store);
    const talk = { ...unit.people.conversations.get(ANN), talk: {} as never, said: 0, turns: [] };
    remember(unit, ANN, talk, { id: "long", text: "x".repeat(30_000), replies: ["?"], order: null });
    expect(unit.people.conversations.get(ANN)?.turns).toHaveLength(1);
    for (let n = 0; n < 50; n++) {
      const before = unit.people.conversations.get(ANN) ?? talk;
      remember(unit, ANN, before, { id: `m${n}`, text: "hi", replies: ["hello"], order: null });
    }
    expect(unit.people.conversations.get(ANN)?.turns.map(({ id }) => id)).toEqual(
      Array.from({ length: 40 }, (_, n) => `m${n + 10}`),
    );
  });

  it("holds no message that was not answered", () => {
    const { store } = testStall(exampleMenu(), []);
    const unit = new UnitOfWork(store);
    const say = (id: string, text: string) =>
      answerMessage(unit, { id, text, customer: ANN, phone: PHONE, chance: 0 }, OPENS);
    // Texts beyond a number's limit a minute get no answer, nor do texts after STOP.
    for (let n = 0; n < 30; n++) say(`menu-${n}`, "menu");
    const kept = unit.people.conversations.get(ANN)?.turns ?? [];
    expect([kept.length, kept.every(({ replies }) => replies.length > 0)]).toEqual([20, true]);
    answerMessage(
      unit,
      { id: "stop", text: "STOP", customer: ANN, phone: PHONE, chance: 0 },
      OPENS + 120_000,
    );
    answerMessage(
      unit,
      { id: "after", text: "a secret", customer: ANN, phone: PHONE, chance: 0 },
      OPENS + 180_000,
    );
    expect(JSON.stringify(unit.people.conversations.get(ANN))).not.toContain("a secret");
  });
});
