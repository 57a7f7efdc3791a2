/** A gateway mapping as it is being made, in the words of the page. Pure. */
import type { Fault } from "../../../model/basics/faults.ts";
import { ok, type Result, refused } from "../../../model/basics/result.ts";
import type { GatewayMapping, InboundMapping, MappingJson } from "../../../model/fair/gateway.ts";
import { type Received, readTexts } from "../../../texting/mapping/inbound.ts";
import { guessed, readExample } from "./example.ts";
import { exampleOf, type Heard, heardOf, placesWithin } from "./heard.ts";
import { outboundOf, picksIn, type Sending, sendingOf } from "./sending.ts";

/** Roles of an incoming text's fields, with what each is asked as. */
export const TEXT_ROLES = [
  ["from", "Sender"],
  ["text", "Text"],
  ["id", "Message’s id"],
  ["to", "Your number"],
  ["at", "Time"],
] as const;
type TextRole = (typeof TEXT_ROLES)[number][0];

export const RECEIPT_ROLES = [
  ["id", "Your id of the text"],
  ["status", "What became of it"],
] as const;
type ReceiptRole = (typeof RECEIPT_ROLES)[number][0];

export const SEND_ROLES = [
  ["to", "Receiver"],
  ["text", "Text"],
  ["from", "Your number"],
  ["id", "Your id of the text"],
] as const;

type Receipts = Heard<ReceiptRole> & { readonly delivered: string; readonly failed: string };

export type Draft = {
  /** What the page does not ask about stays as it was. */
  readonly base: GatewayMapping;
  readonly name: string;
  /** One a line, with a stall's short name after it if it is that stall's own. */
  readonly numbers: string;
  readonly country: string;
  readonly prefixes: string;
  readonly segmentsPerDay: string;
  readonly verification: GatewayMapping["verification"];
  readonly inbound: Heard<TextRole>;
  readonly answer: InboundMapping["answer"];
  readonly receipts: Receipts | null;
  readonly sending: Sending;
};

/** Parts of the page. */
export type Part = "inbound" | "verification" | "outbound" | "receipts" | "about";

export type Mistake = { readonly part: Part; readonly detail: string };

export const NO_RECEIPTS: Receipts = { sample: "", picks: {}, delivered: "", failed: "" };

/** A saved mapping as the page shows it. */
export function draftOf(base: GatewayMapping): Draft {
  const { name, numbers, country, prefixes, limits, verification, inbound, receipts, outbound } = base;
  const { id, from, to, text, at, answer } = inbound;
  return {
    base,
    name,
    numbers: numbers
      .map(({ number, stall }) => (stall === undefined ? number : `${number} ${stall}`))
      .join("\n"),
    country,
    prefixes: prefixes.join(", "),
    segmentsPerDay: String(limits.segmentsPerDay),
    verification,
    inbound: heardOf<TextRole>(inbound, { id, from, to, text, at }),
    answer,
    receipts:
      receipts === undefined
        ? null
        : {
            ...heardOf<ReceiptRole>(receipts, { id: receipts.id, status: receipts.status }),
            delivered: receipts.delivered.join(", "),
            failed: receipts.failed.join(", "),
          },
    sending: sendingOf(outbound),
  };
}

const words = (list: string): string[] =>
  list
    .split(/[,\n]/)
    .map((word) => word.trim())
    .filter((word) => word !== "");

const mistake = (part: Part, detail: string): Mistake => ({ part, detail });

const UNREADABLE = "This example is neither JSON nor a form. Paste the body alone, without its headers.";
const APART =
  "The chosen fields are not in the same message. Choose all of them inside one entry of the list.";

function numbersOf(typed: string) {
  return typed
    .split("\n")
    .map((line) => line.trim().split(/\s+/))
    .flatMap(([number, stall]) => {
      if (number === undefined || number === "") return [];
      return stall === undefined
        ? [{ number }]
        : [{ number, stall: stall as GatewayMapping["numbers"][number]["stall"] & string }]; // checked where it is saved
    });
}

/** The part of the mapping that reads texts, or what is missing. */
function inboundOf({
  inbound,
  answer,
}: Pick<Draft, "inbound" | "answer">): Result<InboundMapping, readonly Mistake[]> {
  const found = exampleOf(inbound);
  if (found === null) return refused([mistake("inbound", UNREADABLE)]);
  const { example, body, sample } = found;
  const { from, text, id } = inbound.picks;
  if (from === undefined || text === undefined || id === undefined) {
    const missing = TEXT_ROLES.filter(
      ([role]) => ["from", "text", "id"].includes(role) && inbound.picks[role] === undefined,
    );
    return refused(missing.map(([, role]) => mistake("inbound", `${role}: tap the field that holds it.`)));
  }
  const within = placesWithin(example, inbound.picks);
  if (within === null) return refused([mistake("inbound", APART)]);
  const { messages, places } = within;
  return ok({
    body,
    messages,
    ...places,
    id: places.id ?? id,
    from: places.from ?? from,
    text: places.text ?? text,
    answer,
    sample: sample as MappingJson, // what was parsed as JSON is JSON
  });
}

/** The first text that the example holds, as the mapping reads it; null until it does. */
export function readBack(draft: Draft): Received | null {
  const inbound = inboundOf(draft);
  if (!inbound.ok) return null;
  const read = readTexts(inbound.value, draft.inbound.sample.trim());
  return read.ok ? (read.value[0] ?? null) : null;
}

function receiptsOf(receipts: Receipts | null): Result<GatewayMapping["receipts"], readonly Mistake[]> {
  if (receipts === null || receipts.sample.trim() === "") return ok(undefined);
  const found = exampleOf(receipts);
  if (found === null) return refused([mistake("receipts", UNREADABLE)]);
  const { id, status } = receipts.picks;
  const missing = RECEIPT_ROLES.filter(([role]) => receipts.picks[role] === undefined);
  if (id === undefined || status === undefined)
    return refused(missing.map(([, role]) => mistake("receipts", `${role}: tap the field that holds it.`)));
  const within = placesWithin(found.example, receipts.picks);
  if (within === null) return refused([mistake("receipts", APART)]);
  return ok({
    body: found.body,
    messages: within.messages,
    id: within.places.id ?? id,
    status: within.places.status ?? status,
    delivered: words(receipts.delivered),
    failed: words(receipts.failed),
    sample: found.sample as MappingJson, // what was parsed as JSON is JSON
  });
}

/** The whole mapping, or what is missing; what is wrong in it is found where it is saved. */
export function mappingOf(draft: Draft): Result<GatewayMapping, readonly Mistake[]> {
  const { base, verification } = draft;
  const inbound = inboundOf(draft);
  const receipts = receiptsOf(draft.receipts);
  const outbound = outboundOf(draft.sending);
  const picked = Object.values(draft.sending.picks);
  const unsent = SEND_ROLES.filter(([role]) => ["to", "text"].includes(role) && !picked.includes(role));
  const mistakes = [
    ...(inbound.ok ? [] : inbound.refusal),
    ...(receipts.ok ? [] : receipts.refusal),
    ...(outbound === null ? [mistake("outbound", UNREADABLE)] : []),
    ...(outbound === null
      ? []
      : unsent.map(([, role]) => mistake("outbound", `${role}: tap the field that holds it.`))),
  ];
  if (!inbound.ok || !receipts.ok || outbound === null || mistakes.length > 0) return refused(mistakes);
  const { receipts: _, ...rest } = base;
  return ok({
    ...rest,
    name: draft.name.trim(),
    numbers: numbersOf(draft.numbers),
    country: draft.country.trim().toUpperCase(),
    prefixes: words(draft.prefixes),
    limits: { ...base.limits, segmentsPerDay: Number(draft.segmentsPerDay) },
    verification,
    inbound: inbound.value,
    outbound,
    ...(receipts.value === undefined ? {} : { receipts: receipts.value }),
  });
}

/** What each place of a mapping is called on the page. */
const CALLED: Readonly<Record<string, string>> = {
  ...Object.fromEntries(TEXT_ROLES.map(([role, name]) => [`inbound/${role}`, name])),
  ...Object.fromEntries(RECEIPT_ROLES.map(([role, name]) => [`receipts/${role}`, name])),
  "inbound/messages": "The list of texts",
  "inbound/answer": "The answer",
  "receipts/delivered": "Words for delivered",
  "receipts/failed": "Words for failed",
  "verification/secret": "The secret",
  "verification/header": "The header",
  "verification/parts": "What is signed",
  "verification/covers": "What is signed",
  "verification/time": "The signed time",
  "verification/by": "How it signs",
  "outbound/url": "The address",
  "outbound/headers": "A header",
  "outbound/body": "The request",
  "outbound/signature": "The signature",
  name: "The name",
  numbers: "Your numbers",
  country: "The country",
  prefixes: "Countries that get texts",
  limits: "The day’s limit",
};

const PARTS: readonly Part[] = ["inbound", "verification", "outbound", "receipts"];

/** A fault that the fair found, in the words of the page. */
export function mistakeOf({ pointer, detail }: Fault): Mistake {
  const [first = "", second = ""] = pointer.replace(/^#\//, "").split("/");
  const called = CALLED[`${first}/${second}`] ?? CALLED[first];
  return {
    part: PARTS.find((part) => part === first) ?? "about",
    detail: called === undefined ? detail : `${called}: ${detail}`,
  };
}

/** The draft with another example of an incoming text; its fields are guessed by their names. */
export function withTextExample(draft: Draft, sample: string): Draft {
  const roles = TEXT_ROLES.map(([role]) => role);
  const picks = guessed(readExample(sample), roles, draft.inbound.picks);
  return { ...draft, inbound: { sample, picks } };
}

/** The same for a receipt. */
export function withReceiptExample(draft: Draft, sample: string): Draft {
  const before = draft.receipts ?? NO_RECEIPTS;
  const picks = guessed(
    readExample(sample),
    RECEIPT_ROLES.map(([role]) => role),
    before.picks,
  );
  return { ...draft, receipts: { ...before, sample, picks } };
}

/** The same for the request that sends a text. */
export function withSendExample(draft: Draft, example: string): Draft {
  const read = readExample(example);
  const names = guessed(
    read,
    SEND_ROLES.map(([role]) => role),
    {},
  );
  const byName = Object.fromEntries(Object.entries(names).map(([role, place]) => [place, role]));
  const shown = picksIn(example);
  const picks = Object.keys(shown).length > 0 ? shown : (byName as Sending["picks"]); // the roles above
  return { ...draft, sending: { ...draft.sending, example, picks } };
}
