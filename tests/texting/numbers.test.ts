/** Numbers kept for fiction; read as libphonenumber-js 1.13.16 reads them. */
import { describe, expect, it } from "vitest";
import { PhoneNumber } from "../../src/model/orders/order.ts";
import { lastFour, mayText } from "../../src/texting/numbers.ts";
import { readSender } from "../../src/texting/senders.ts";

describe("a sender", () => {
  it.each([
    ["+12125550100", "US", "+12125550100"],
    ["tel:+12125550100", "US", "+12125550100"],
    ["(212) 555-0100", "US", "+12125550100"],
    ["12125550100", "GB", "+12125550100"],
    ["2125550100", "US", "+12125550100"],
    ["07700 900000", "GB", "+447700900000"],
    ["447700900000", "US", "+447700900000"],
    ["+44 20 7946 0000", "US", "+442079460000"],
  ])("%s in %s is %s", (raw, country, phone) => {
    expect(readSender(raw, country)).toEqual({ type: "phone", phone });
  });
  it.each([
    ["12345", "short-code"],
    ["773", "short-code"],
    ["555-012", "short-code"],
    ["Stall News", "name"],
    ["Ñandú", "name"],
    ["+1234567890123456", "unreadable"],
    ["", "unreadable"],
    ["+", "unreadable"],
    ["**", "unreadable"],
  ])("%j is %s and has no number to answer", (raw, type) => {
    expect(readSender(raw, "US")).toEqual({ type });
  });
});

describe("a number", () => {
  const phone = PhoneNumber.parse("+12125550100");
  it("may be sent to only if its country is allowed", () => {
    expect([mayText(phone, ["+1"]), mayText(phone, ["+44", "+34"]), mayText(phone, ["+"])]).toEqual([
      true,
      false,
      true,
    ]);
  });
  it("is shown by its last four digits", () => {
    expect(lastFour(phone)).toBe("…0100");
  });
});
