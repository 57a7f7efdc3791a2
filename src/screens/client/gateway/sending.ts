/** The request that sends a text, from the gateway's own example. */
import type { MappingJson, OutboundMapping } from "../../../model/fair/gateway.ts";
import { slotsIn } from "../../../texting/template.ts";
import { type Example, type Field, readExample, withValues } from "./example.ts";

/** How the gateway knows whose request it is. Secrets are named, never held. */
export type Access =
  | { readonly type: "open" }
  | { readonly type: "bearer"; readonly token: string }
  | { readonly type: "basic"; readonly user: string; readonly password: string }
  | { readonly type: "header"; readonly header: string; readonly token: string };

type SendRole = "to" | "text" | "from" | "id";

export type Sending = Pick<OutboundMapping, "method" | "url" | "signature"> & {
  readonly access: Access;
  /** Headers that the page does not ask about. */
  readonly headers: OutboundMapping["headers"];
  readonly example: string;
  /** Places of the example that a text fills. */
  readonly picks: Readonly<Record<string, SendRole>>;
};

const OF_TEXT = /\{(to|text|from|id)(?:-digits)?\}/;

/** The role that a value of a saved mapping has. */
const roleIn = ({ value }: Field): SendRole | undefined => OF_TEXT.exec(value)?.[1] as SendRole | undefined; // one of the four

/** A picked value with its slot: what stands around a telephone number stays, and digits without a plus stay digits. */
function slotted(value: string, role: SendRole): string {
  if (slotsIn(value).some((slot) => slot.replace("-digits", "") === role)) return value;
  if (role === "text" || role === "id") return `{${role}}`;
  const [number] = /\+?[0-9]{6,15}/.exec(value) ?? [];
  if (number === undefined) return `{${role}}`;
  return value.replace(number, number.startsWith("+") ? `{${role}}` : `{${role}-digits}`);
}

const replacing =
  (picks: Sending["picks"]) =>
  ({ place, value }: Field): string | undefined => {
    const role = picks[place];
    if (role !== undefined) return slotted(value, role);
    return OF_TEXT.test(value) ? value.replaceAll(new RegExp(OF_TEXT, "g"), "") : undefined;
  };

function bodyOf(example: Example, picks: Sending["picks"]): OutboundMapping["body"] {
  const replaced = replacing(picks);
  if (example.body === "json")
    return { as: "json", value: withValues(example.value, replaced) as MappingJson }; // JSON of any depth
  const fields = example.fields.map((field) => [field.place, replaced(field) ?? field.value]);
  return { as: "form", fields: Object.fromEntries(fields) };
}

function accessHeaders(access: Access): Readonly<Record<string, string>> {
  switch (access.type) {
    case "open":
      return {};
    case "bearer":
      return { authorization: `Bearer {binding:${access.token}}` };
    case "basic":
      return { authorization: `Basic {basic:${access.user}:${access.password}}` };
    case "header":
      return { [access.header.toLowerCase()]: `{binding:${access.token}}` };
    default:
      return access satisfies never;
  }
}

/** The mapping of what goes out; null if the example cannot be read. */
export function outboundOf(sending: Sending): OutboundMapping | null {
  const example = readExample(sending.example);
  if (example === null) return null;
  const { method, url, signature, headers, access } = sending;
  return {
    method,
    url: url.trim(),
    headers: { ...headers, ...accessHeaders(access) },
    body: bodyOf(example, sending.picks),
    signature,
  };
}

function accessIn(headers: OutboundMapping["headers"]): {
  readonly access: Access;
  readonly others: OutboundMapping["headers"];
} {
  for (const [header, value] of Object.entries(headers)) {
    const { [header]: _, ...others } = headers;
    const [, bearer] = /^Bearer \{binding:([A-Z0-9_]+)\}$/.exec(value) ?? [];
    if (header === "authorization" && bearer !== undefined)
      return { access: { type: "bearer", token: bearer }, others };
    const [, user, password] = /^Basic \{basic:([A-Z0-9_]+):([A-Z0-9_]+)\}$/.exec(value) ?? [];
    if (header === "authorization" && user !== undefined && password !== undefined)
      return { access: { type: "basic", user, password }, others };
    const [, token] = /^\{binding:([A-Z0-9_]+)\}$/.exec(value) ?? [];
    if (token !== undefined) return { access: { type: "header", header, token }, others };
  }
  return { access: { type: "open" }, others: headers };
}

/** A form as it is typed: slots stay readable. */
const formText = (fields: Readonly<Record<string, string>>): string =>
  Object.entries(fields)
    .map((pair) =>
      pair.map((part) => encodeURIComponent(part).replaceAll(/%7B|%7D|%3A/g, decodeURIComponent)).join("="),
    )
    .join("\n");

/** A saved mapping's request as the page shows it. */
export function sendingOf({ method, url, headers, body, signature }: OutboundMapping): Sending {
  const example = body.as === "json" ? JSON.stringify(body.value, null, 2) : formText(body.fields);
  const { access, others } = accessIn(headers);
  return { method, url, signature, access, headers: others, example, picks: picksIn(example) };
}

/** The roles that the slots of an example show. */
export function picksIn(example: string): Sending["picks"] {
  const fields = readExample(example)?.fields ?? [];
  return Object.fromEntries(
    fields.flatMap((field) => {
      const role = roleIn(field);
      return role === undefined ? [] : [[field.place, role]];
    }),
  );
}
