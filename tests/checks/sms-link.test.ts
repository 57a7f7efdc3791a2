/** RFC 5724: the examples of section 2.5, and the grammar of section 2.2. */
import { describe, expect, it } from "vitest";
import { smsLink } from "../../src/texting/sms-link.ts";

// sms-uri = "sms:" sms-recipient *("," sms-recipient) ["?" sms-fields], one recipient and one body here.
const SMS_URI = /^sms:\+[0-9]+\?body=(?:[A-Za-z0-9\-._~!'()*]|%[0-9A-F]{2})*$/;

describe("an sms: link", () => {
  it("is the RFC's own example", () => {
    expect(smsLink("+15105550101", "hello there")).toBe("sms:+15105550101?body=hello%20there");
  });
  it.each(["tern menu", "1 & 2 = 3?", "¿Qué talla?", "#1 navy, L"])(
    "holds %j as a body that reads back",
    (body) => {
      const link = smsLink("+12125550100", body);
      expect(link).toMatch(SMS_URI);
      expect(decodeURIComponent(link.slice(link.indexOf("=") + 1))).toBe(body);
    },
  );
});
