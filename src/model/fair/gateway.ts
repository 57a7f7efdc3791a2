/**
 * One message gateway's own formats: where its web hooks carry a text, how they are signed, and which request sends
 * one. A gateway is described here, never named.
 */
import { z } from "zod";
import { StallId } from "../basics/ids.ts";
import { Currency, minorUnits } from "../basics/money.ts";
import { plainText } from "../basics/words.ts";
import { PhoneNumber } from "../orders/order.ts";

/**
 * A secret or setting of the deployment, by name. Only names that begin with GATEWAY_ can be used, so that no
 * mapping can send the deployment's own keys away.
 */
const BindingName = z
  .string()
  .regex(/^GATEWAY_[A-Z0-9_]{1,50}$/, "must be the name of a binding, and begin with GATEWAY_")
  .meta({ id: "BindingName", examples: ["GATEWAY_SECRET"] });

const headerName = () =>
  z
    .string()
    .regex(/^[A-Za-z0-9!#$%&'*+.^_`|~-]{1,64}$/, "must be the name of a header")
    .transform((name) => name.toLowerCase());

/** RFC 6901 JSON Pointer into a JSON body ("/from"; "" is the whole), or the name of a form's field. */
const where = () => z.string().max(200);

const template = (most = 2000) => z.string().max(most);

type Leaf = string | number | boolean | null;
type Nested<T> = T | readonly T[] | { readonly [name: string]: T };
/** JSON of a few levels. As deep as one likes at run time; the type ends, so that objects can pass it on. */
export type MappingJson = Nested<Nested<Nested<Nested<Leaf>>>>;

// Anything that came as JSON is JSON; only its depth is not checked.
const json = () => z.unknown() as z.ZodType<MappingJson, MappingJson>;

const hmac = {
  secret: BindingName.describe("Holds the shared secret"),
  hash: z.enum(["SHA-1", "SHA-256", "SHA-512"]),
  encoding: z.enum(["hex", "base64"]),
  header: headerName().describe("Carries the signature"),
  prefix: z.string().max(20).default("").describe('What stands before it, such as "sha256="'),
};

/** One of the things that are signed, in their order. */
export const SignedPart = z
  .discriminatedUnion("part", [
    z.strictObject({ part: z.literal("body") }),
    z.strictObject({ part: z.literal("url") }),
    z.strictObject({ part: z.literal("method") }),
    z.strictObject({ part: z.literal("header"), name: headerName() }),
    z.strictObject({ part: z.literal("field"), name: z.string().min(1).max(64) }),
    z
      .strictObject({ part: z.literal("fields") })
      .describe("Every field of the form, by name: each name and its value"),
    z.strictObject({ part: z.literal("words"), words: z.string().min(1).max(64) }),
  ])
  .meta({ id: "SignedPart" });
export type SignedPart = z.infer<typeof SignedPart>;

export const Verification = z
  .discriminatedUnion("by", [
    z.strictObject({ by: z.literal("none") }).describe("Only if nobody but this computer can call"),
    z.strictObject({
      by: z.literal("hmac"),
      ...hmac,
      parts: z.array(SignedPart).min(1).max(10),
      joiner: z.string().max(4).default(""),
      time: z
        .strictObject({
          header: headerName(),
          unit: z.enum(["seconds", "milliseconds"]).default("seconds"),
          toleranceSeconds: z.int().min(1).max(3600).default(300),
        })
        .optional()
        .describe("A signed time; refused if older or newer than the tolerance"),
    }),
    z.strictObject({
      by: z.literal("header"),
      header: headerName(),
      secret: BindingName,
      prefix: z.string().max(20).default(""),
    }),
    z
      .strictObject({
        by: z.literal("message-signature"),
        algorithm: z.enum(["hmac-sha256", "ed25519"]),
        secret: BindingName.describe(
          "Base64: the shared secret, or for ed25519 the gateway's 32-byte public key",
        ),
        keyId: z.string().max(200).optional(),
        covers: z
          .array(
            z
              .string()
              .regex(/^@?[a-z0-9-]{1,64}$/, "must be a derived component or a header in small letters"),
          )
          .min(1)
          .max(20)
          .describe("Components a signature must cover to count"),
        toleranceSeconds: z.int().min(1).max(3600).default(300),
      })
      .describe("RFC 9421 HTTP Message Signatures, with RFC 9530 Content-Digest for the body"),
  ])
  .meta({ id: "Verification" });
export type Verification = z.infer<typeof Verification>;

const body = {
  body: z.enum(["json", "form"]),
  messages: where().default("").describe("In JSON, where the message or the list of messages is"),
};

export const InboundMapping = z
  .strictObject({
    ...body,
    id: where().describe("The gateway's id of the message"),
    from: where(),
    to: where().optional(),
    text: where(),
    at: where().optional().describe("When it was sent, RFC 3339 or seconds since 1970"),
    answer: z
      .strictObject({
        status: z.int().min(200).max(299).default(200),
        contentType: z.enum(["application/json", "application/xml", "text/xml", "text/plain"]),
        body: template().describe("With the slot {replies} if the answer carries the reply"),
        reply: template().optional().describe("One reply in the answer, with the slot {text}"),
      })
      .default({ status: 200, contentType: "application/json", body: '{"taken":true}' }),
    sample: json().describe("A real body of this gateway, form bodies as text: the mapping is tried on it"),
  })
  .meta({ id: "InboundMapping" });
export type InboundMapping = z.infer<typeof InboundMapping>;

export const ReceiptMapping = z
  .strictObject({
    ...body,
    id: where().describe('Our own id of the text; "?name" reads it from the query of the address'),
    status: where(),
    delivered: z.array(z.string().max(60)).min(1).max(10),
    failed: z.array(z.string().max(60)).min(1).max(20),
    sample: json(),
  })
  .meta({ id: "ReceiptMapping" });
export type ReceiptMapping = z.infer<typeof ReceiptMapping>;

export const OutboundMapping = z
  .strictObject({
    method: z.enum(["POST", "PUT"]).default("POST"),
    url: template().describe("Slots are percent-encoded; the host is written out or is a whole binding"),
    headers: z.record(headerName(), template()).default({}),
    body: z.discriminatedUnion("as", [
      z.strictObject({ as: z.literal("json"), value: json() }),
      z.strictObject({ as: z.literal("form"), fields: z.record(z.string().max(64), template()) }),
    ]),
    signature: z
      .strictObject(hmac)
      .nullable()
      .default(null)
      .describe("An HMAC of the body, if the gateway wants one"),
  })
  .meta({ id: "OutboundMapping" });
export type OutboundMapping = z.infer<typeof OutboundMapping>;

export const GatewayMapping = z
  .strictObject({
    name: plainText(40).describe("What the organiser calls it"),
    numbers: z
      .array(z.strictObject({ number: template(40), stall: StallId.optional() }))
      .min(1)
      .max(50)
      .describe("Ours; one with a stall is that stall's own and needs no code, one without is shared"),
    country: z
      .string()
      .regex(/^[A-Z]{2}$/, "must be an ISO 3166-1 code of two capital letters")
      .describe("Whose numbers may come without a country code"),
    prefixes: z
      .array(
        z.string().regex(/^\+[1-9]?[0-9]{0,5}$/, 'must be a plus sign and digits; "+" allows every country'),
      )
      .min(1)
      .max(40)
      .describe("Only numbers that begin with one of these are sent anything"),
    limits: z
      .strictObject({
        segmentsPerDay: z.int().min(1).max(1_000_000).default(5000).describe("Of the whole fair"),
        segmentsPerSender: z
          .int()
          .min(1)
          .max(10_000)
          .default(100)
          .describe("A day, to one number, at one stall"),
      })
      .default({ segmentsPerDay: 5000, segmentsPerSender: 100 }),
    price: z
      .strictObject({ perThousandSegments: minorUnits(), currency: Currency })
      .optional()
      .describe("What the gateway charges, for the estimate"),
    verification: Verification,
    inbound: InboundMapping,
    receipts: ReceiptMapping.optional(),
    outbound: OutboundMapping,
  })
  .meta({
    id: "GatewayMapping",
    description: "How a message gateway's web hooks are read and verified, and what request sends a text",
  });
export type GatewayMapping = z.infer<typeof GatewayMapping>;

export const TryGateway = z
  .strictObject({ to: PhoneNumber.describe("The organiser's own number") })
  .meta({ id: "TryGateway" });

export const TriedGateway = z
  .strictObject({
    accepted: z.boolean().describe("Whether the gateway took the text"),
    detail: z.string().describe("What the gateway said, and what to do"),
  })
  .meta({ id: "TriedGateway" });
export type TriedGateway = z.infer<typeof TriedGateway>;
