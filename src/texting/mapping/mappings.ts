/** Mappings that are ready to use: our own plain form, and the open standard's. */
import { GatewayMapping } from "../../model/fair/gateway.ts";
import { SIGNATURE_HEADER } from "../signing/signature.ts";

/**
 * Our own plain JSON, signed with HMAC-SHA-256 of the body: a fair's mapping until it sets another. Its address and
 * secret are the bindings GATEWAY_URL, GATEWAY_SECRET and GATEWAY_NUMBER.
 */
export const PLAIN: GatewayMapping = GatewayMapping.parse({
  name: "Plain",
  numbers: [{ number: "{binding:GATEWAY_NUMBER}" }],
  country: "US",
  prefixes: ["+"],
  verification: {
    by: "hmac",
    secret: "GATEWAY_SECRET",
    hash: "SHA-256",
    encoding: "hex",
    header: SIGNATURE_HEADER,
    prefix: "sha256=",
    parts: [{ part: "body" }],
  },
  inbound: {
    body: "json",
    id: "/id",
    from: "/from",
    to: "/to",
    text: "/text",
    sample: { id: "message-1", from: "+12125550100", to: "+12125550199", text: "menu" },
  },
  receipts: {
    body: "json",
    id: "/id",
    status: "/status",
    delivered: ["delivered"],
    failed: ["failed"],
    sample: { id: "brackenfield.tern.101-ready-7", status: "delivered" },
  },
  outbound: {
    url: "{binding:GATEWAY_URL}",
    headers: { "idempotency-key": '"{id}"' },
    body: { as: "json", value: { id: "{id}", to: "{to}", text: "{text}", from: "{from}" } },
    signature: {
      secret: "GATEWAY_SECRET",
      hash: "SHA-256",
      encoding: "hex",
      header: SIGNATURE_HEADER,
      prefix: "sha256=",
    },
  },
});

/**
 * The Open Mobile Alliance's RESTful Network API for Short Messaging V1.0: the notification of an inbound
 * message, the request that sends one, and the delivery notification, with that specification's field names.
 * It leaves signing to others; RFC 9421 is what this mapping asks for.
 */
export const OPEN_STANDARD: GatewayMapping = GatewayMapping.parse({
  name: "OMA Short Messaging",
  numbers: [{ number: "{binding:GATEWAY_NUMBER}" }],
  country: "US",
  prefixes: ["+1"],
  verification: {
    by: "message-signature",
    algorithm: "ed25519",
    secret: "GATEWAY_SECRET",
    covers: ["@method", "@path", "content-digest"],
  },
  inbound: {
    body: "json",
    messages: "/inboundSMSMessageNotification/inboundSMSMessage",
    id: "/messageId",
    from: "/senderAddress",
    to: "/destinationAddress",
    text: "/message",
    at: "/dateTime",
    answer: { status: 204, contentType: "text/plain", body: "" },
    sample: {
      inboundSMSMessageNotification: {
        callbackData: "fair",
        inboundSMSMessage: {
          dateTime: "2027-06-12T14:00:00Z",
          destinationAddress: "tel:+12125550199",
          senderAddress: "tel:+12125550100",
          messageId: "msg1",
          message: "menu",
        },
      },
    },
  },
  receipts: {
    body: "json",
    id: "/deliveryInfoNotification/callbackData",
    status: "/deliveryInfoNotification/deliveryInfo/deliveryStatus",
    delivered: ["DeliveredToTerminal"],
    failed: ["DeliveryImpossible"],
    sample: {
      deliveryInfoNotification: {
        callbackData: "brackenfield.tern.101-ready-7",
        deliveryInfo: { address: "tel:+12125550100", deliveryStatus: "DeliveredToTerminal" },
      },
    },
  },
  outbound: {
    url: "{binding:GATEWAY_URL}/smsmessaging/v1/outbound/tel:{from}/requests",
    headers: { authorization: "Bearer {binding:GATEWAY_TOKEN}" },
    body: {
      as: "json",
      value: {
        outboundSMSMessageRequest: {
          address: ["tel:{to}"],
          senderAddress: "tel:{from}",
          outboundSMSTextMessage: { message: "{text}" },
          clientCorrelator: "{id}",
          receiptRequest: { notifyURL: "{binding:GATEWAY_NOTIFY_URL}", callbackData: "{id}" },
        },
      },
    },
  },
});
