import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import type { CrewOrderView } from "../../src/model/orders/order.ts";
import { Telling } from "../../src/screens/client/counter/desk/telling.tsx";

const LINE = { text: "TERN 126 PARSLEY", to: "+12125550199" };
const shown = (order: Partial<CrewOrderView>): string => {
  const whole = { number: 126, stage: "waiting", ...order } as CrewOrderView; // what the view reads
  return renderToString(h(Telling, { order: whole, busy: false, say: () => {} })).replaceAll(/<[^>]+>/g, "|");
};
const SENTENCES = ["5 more minutes", "We close soon", "Please come back"];

describe("texting a customer from the counter", () => {
  it("shows the line to text until a number has texted it, and no button", () => {
    const line = shown({ toBeTold: LINE });
    expect(line).toContain(LINE.text);
    expect(line).toContain(LINE.to);
    for (const words of SENTENCES) expect(line).not.toContain(words);
    expect(shown({ toBeTold: LINE, stage: "ready" })).toBe("");
  });
  it("offers the sentences to a number that has written, and to nobody else", () => {
    const told = shown({ mayText: true });
    for (const words of SENTENCES) expect(told).toContain(words);
    expect(shown({})).toBe("");
    const over = shown({ mayText: true, stage: "collected" });
    expect([over.includes("5 more minutes"), over.includes("Please come back")]).toEqual([false, true]);
    const at = "2027-06-12T14:05:00Z";
    expect(shown({ mayText: true, texted: { say: "five-minutes", at } })).toContain("“5 more minutes”");
  });
});
