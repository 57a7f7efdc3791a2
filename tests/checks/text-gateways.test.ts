/**
 * The Open Mobile Alliance's RESTful Network API for Short Messaging V1.0 (OMA-TS-REST_NetAPI_ShortMessaging-V1_0):
 * the notification of an inbound message and the delivery notification; field names as public code has them, the
 * specification's own text was not opened. RFC 9110 section 10.2.3: both forms of Retry-After, and 5.6.7: the
 * three forms of an HTTP date, with that section's own examples.
 */
import { describe, expect, it } from "vitest";
import { readReceipts, readTexts } from "../../src/texting/mapping/inbound.ts";
import { OPEN_STANDARD } from "../../src/texting/mapping/mappings.ts";
import { requestFor } from "../../src/texting/mapping/outgoing.ts";
import { httpDate, retryAfter } from "../../src/texting/sending/retry-after.ts";

describe("the open standard's messages", () => {
  it("an inbound notification is read", () => {
    const notification = `{"inboundSMSMessageNotification":{"callbackData":"...","inboundSMSMessage":{
      "dateTime":"2012-04-14T10:00:00Z","destinationAddress":"tel:+12125550100",
      "senderAddress":"tel:+12125550101","messageId":"msg1","message":"1"}}}`;
    expect(readTexts(OPEN_STANDARD.inbound, notification)).toEqual({
      ok: true,
      value: [
        {
          id: "msg1",
          from: "tel:+12125550101",
          to: "tel:+12125550100",
          text: "1",
          at: Date.UTC(2012, 3, 14, 10),
        },
      ],
    });
  });
  it("an outbound request has its names, and says who it is for", async () => {
    const bindings: Readonly<Record<string, string>> = {
      GATEWAY_URL: "https://gateway.example",
      GATEWAY_TOKEN: "token",
      GATEWAY_NOTIFY_URL: "https://stall.example/receipts",
    };
    const text = { id: "b.tern.1", from: "+12125550100", to: "+12125550101", text: 'Order 101 "ready"' };
    const request = await requestFor(OPEN_STANDARD.outbound, text, (name) => bindings[name]);
    expect(request.url).toBe("https://gateway.example/smsmessaging/v1/outbound/tel:%2B12125550100/requests");
    expect(JSON.parse(request.body)).toEqual({
      outboundSMSMessageRequest: {
        address: ["tel:+12125550101"],
        senderAddress: "tel:+12125550100",
        outboundSMSTextMessage: { message: 'Order 101 "ready"' },
        clientCorrelator: "b.tern.1",
        receiptRequest: { notifyURL: "https://stall.example/receipts", callbackData: "b.tern.1" },
      },
    });
  });
  it.each([
    ["DeliveredToTerminal", "delivered"],
    ["DeliveryImpossible", "failed"],
    ["DeliveredToNetwork", "under-way"],
    ["DeliveryUncertain", "under-way"],
    ["MessageWaiting", "under-way"],
  ])("a delivery notification of %s means %s", (deliveryStatus, how) => {
    const body = JSON.stringify({
      deliveryInfoNotification: {
        callbackData: "b.tern.1",
        deliveryInfo: { address: "tel:+12125550101", deliveryStatus },
      },
    });
    const { receipts } = OPEN_STANDARD;
    if (receipts === undefined) throw new Error("the mapping reads receipts");
    expect(readReceipts(receipts, body, new URLSearchParams())).toEqual({
      ok: true,
      value: [{ id: "b.tern.1", how }],
    });
  });
});

describe("Retry-After", () => {
  const now = Date.parse("1999-12-31T23:57:59Z");
  it("takes seconds", () => {
    expect(retryAfter("120", now)).toBe(120_000);
    // No more than ten minutes is our own rule: RFC 9110 leaves it to the sender how long it waits.
    expect(retryAfter("86400", now)).toBe(600_000);
    expect(retryAfter("9".repeat(40), now)).toBe(600_000);
  });
  it("takes a date", () => {
    expect(retryAfter("Fri, 31 Dec 1999 23:59:59 GMT", now)).toBe(120_000);
    expect(retryAfter("Fri, 31 Dec 1999 23:57:00 GMT", now)).toBe(0);
  });
  it.each(["", "soon", "-5", "1.5", "tomorrow", "31 Dec 1999 23:59:59", null])(
    "makes nothing of %j",
    (header) => {
      expect(retryAfter(header, now)).toBe(0);
    },
  );
  it.each(["Sun, 06 Nov 1994 08:49:37 GMT", "Sunday, 06-Nov-94 08:49:37 GMT", "Sun Nov  6 08:49:37 1994"])(
    "reads the date %s",
    (text) => {
      expect(httpDate(text, Date.parse("2027-01-01T00:00:00Z"))).toBe(Date.UTC(1994, 10, 6, 8, 49, 37));
    },
  );
});
