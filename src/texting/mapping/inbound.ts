/** Reading a gateway's web hook: texts that came in, and receipts of texts that went out. */
import { ok, type Result, refused } from "../../model/basics/result.ts";
import type { InboundMapping, ReceiptMapping } from "../../model/fair/gateway.ts";
import { valueAt } from "../pointer.ts";
import { filled } from "../template.ts";

export type Received = {
  readonly id: string;
  readonly from: string;
  readonly to: string | null;
  readonly text: string;
  readonly at: number | null;
};

export type Receipt = { readonly id: string; readonly how: "delivered" | "failed" | "under-way" };

/** A place of the mapping that finds nothing in a body. */
type NothingFound = { readonly code: "nothing-found"; readonly field: string };
type Reading<T> = Result<readonly T[], NothingFound>;

const nothingAt = (field: string) => refused({ code: "nothing-found", field });

/** Returns the value at a place of one message, or undefined. */
type Look = (place: string) => string | undefined;

type Body = Pick<InboundMapping, "body" | "messages">;

/** The messages of a body, each as a look-up function; null if the body has another media type. */
function messagesOf({ body, messages }: Body, text: string): readonly Look[] | null {
  if (body === "form") {
    const form = new URLSearchParams(text);
    return [(field) => form.get(field) ?? undefined];
  }
  let whole: unknown;
  try {
    whole = JSON.parse(text);
  } catch {
    return null;
  }
  const at = valueAt(whole, messages);
  if (at === undefined) return null;
  const list: readonly unknown[] = Array.isArray(at) ? at : [at];
  return list.map(
    (message): Look =>
      (pointer) => {
        const value = valueAt(message, pointer);
        return typeof value === "string" || typeof value === "number" ? String(value) : undefined;
      },
  );
}

function instantOf(said: string | undefined): number | null {
  if (said === undefined) return null;
  const at = /^[0-9]{9,10}$/.test(said) ? Number(said) * 1000 : Date.parse(said);
  return Number.isNaN(at) ? null : at;
}

const LONGEST_TEXT = 1600;

/** The texts of a web hook, in the order they were sent if it has times. */
export function readTexts(mapping: InboundMapping, body: string): Reading<Received> {
  const messages = messagesOf(mapping, body);
  if (messages === null) return nothingAt("messages");
  const found: Received[] = [];
  for (const look of messages) {
    const [id, from, text] = [look(mapping.id), look(mapping.from), look(mapping.text)];
    if (id === undefined || id === "" || id.length > 300) return nothingAt("id");
    if (from === undefined || from.length > 100) return nothingAt("from");
    if (text === undefined) return nothingAt("text");
    const to = mapping.to === undefined ? undefined : look(mapping.to);
    const at = mapping.at === undefined ? null : instantOf(look(mapping.at));
    found.push({ id, from, to: to ?? null, text: text.slice(0, LONGEST_TEXT), at });
  }
  return ok(found.sort((one, other) => (one.at ?? 0) - (other.at ?? 0)));
}

/** The receipts of a web hook. A status that the mapping does not know is one of a text still under way. */
export function readReceipts(
  mapping: ReceiptMapping,
  body: string,
  query: URLSearchParams,
): Reading<Receipt> {
  const messages = messagesOf(mapping, body);
  if (messages === null) return nothingAt("messages");
  const found: Receipt[] = [];
  for (const look of messages) {
    const id = mapping.id.startsWith("?") ? (query.get(mapping.id.slice(1)) ?? undefined) : look(mapping.id);
    const status = look(mapping.status);
    if (id === undefined) return nothingAt("id");
    if (status === undefined) return nothingAt("status");
    const how = mapping.delivered.includes(status)
      ? "delivered"
      : mapping.failed.includes(status)
        ? "failed"
        : "under-way";
    found.push({ id, how });
  }
  return ok(found);
}

const XML: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&apos;",
};

/** A reply escaped for an answer of that content type. */
function escaped(text: string, contentType: string): string {
  if (contentType === "application/json") return JSON.stringify(text).slice(1, -1);
  if (contentType === "text/plain") return text;
  return text.replaceAll(/[&<>"']/g, (character) => XML[character] ?? character);
}

/** The answer to the gateway, with the replies in it if the mapping puts them there. */
export function answerBody({ answer }: InboundMapping, replies: readonly string[]): string {
  const { body, reply, contentType } = answer;
  if (reply === undefined) return body;
  const each = replies.map((text) =>
    filled(reply, (slot) => (slot === "text" ? escaped(text, contentType) : undefined)),
  );
  const joined = each.join(contentType === "application/json" ? "," : "");
  return filled(body, (slot) => (slot === "replies" ? joined : undefined));
}
