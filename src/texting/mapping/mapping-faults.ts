/** Faults of a gateway mapping, found when it is saved rather than when a text is lost. */
import { type Fault, pointer } from "../../model/basics/faults.ts";
import type { GatewayMapping, InboundMapping, ReceiptMapping } from "../../model/fair/gateway.ts";
import { type Bindings, missingBinding } from "../bindings.ts";
import { isCountry } from "../senders.ts";
import { unsignedParts } from "../signing/unsigned.ts";
import { slotsIn, strings } from "../template.ts";
import { addressIn, hostOf, type PinnedHosts } from "./hosts.ts";
import { readReceipts, readTexts } from "./inbound.ts";
import { slotsFor } from "./outgoing.ts";
import { numberOf } from "./own-number.ts";

type Path = readonly PropertyKey[];
const fault = (path: Path, detail: string): Fault => ({ pointer: pointer(path), detail });

const SLOTS = new Set(["id", "from", "to", "text", "from-digits", "to-digits"]);
const TRIED = { id: "id", from: "+12125550199", to: "+12125550100", text: "text" };

/** The bindings a slot reads, or null if there is no such slot. */
function bindingsIn(slot: string): readonly string[] | null {
  if (SLOTS.has(slot)) return [];
  const [kind, ...names] = slot.split(":");
  if (kind === "binding" && names.length === 1) return names;
  return kind === "basic" && names.length === 2 ? names : null;
}

/** Unknown slots and missing bindings of every template under a path. */
function slotFaults(value: unknown, path: Path, bindings: Bindings): readonly Fault[] {
  return strings(value, path).flatMap(([at, text]) =>
    slotsIn(text).flatMap((slot): readonly Fault[] => {
      const names = bindingsIn(slot);
      if (names === null)
        return [fault(at, `there is no slot {${slot}}; there are ${[...SLOTS].join(", ")}`)];
      return names
        .filter((name) => bindings(name) === undefined)
        .map((name) => fault(at, missingBinding(name)));
    }),
  );
}

function secretFaults({ verification, outbound }: GatewayMapping, bindings: Bindings): readonly Fault[] {
  const secrets: (readonly [Path, string])[] = [];
  if (verification.by !== "none") secrets.push([["verification", "secret"], verification.secret]);
  if (outbound.signature !== null)
    secrets.push([["outbound", "signature", "secret"], outbound.signature.secret]);
  return secrets
    .filter(([, name]) => bindings(name) === undefined)
    .map(([path, name]) => fault(path, missingBinding(name)));
}

function verificationFaults(mapping: GatewayMapping, loopback: boolean): readonly Fault[] {
  const { verification, inbound } = mapping;
  const at = (...path: Path): Path => ["verification", ...path];
  if (verification.by === "none" && !loopback) {
    return [
      fault(
        at("by"),
        "unsigned texts are taken only where nobody but this computer can call: pick another way",
      ),
    ];
  }
  if (verification.by === "message-signature" && !verification.covers.includes("content-digest")) {
    return [fault(at("covers"), "must name content-digest, or the text itself is not signed")];
  }
  const open = unsignedParts(mapping);
  const partly =
    open.length > 0 ? `must sign all that is used, or anybody could change ${open.join(", ")}` : null;
  if (verification.by === "message-signature") return partly === null ? [] : [fault(at("covers"), partly)];
  if (verification.by !== "hmac") return [];
  const { parts, time } = verification;
  const ofForm = parts.findIndex(({ part }) => part === "field" || part === "fields");
  const signsTime = parts.some((part) => part.part === "header" && part.name === time?.header);
  return [
    ...(ofForm >= 0 && inbound.body !== "form"
      ? [fault(at("parts", ofForm), "there are fields only in a form")]
      : []),
    ...(partly === null ? [] : [fault(at("parts"), partly)]),
    ...(time === undefined || signsTime
      ? []
      : [fault(at("time", "header"), "must be among the signed parts, or anybody could change it")]),
  ];
}

const sampleText = (sample: unknown): string =>
  typeof sample === "string" ? sample : JSON.stringify(sample);

/** Places that find nothing in the sample. */
function readingFaults(inbound: InboundMapping, receipts: ReceiptMapping | undefined): readonly Fault[] {
  const faults: Fault[] = [];
  const nothing = "finds nothing in the sample";
  const texts = readTexts(inbound, sampleText(inbound.sample));
  if (!texts.ok) faults.push(fault(["inbound", texts.refusal.field], nothing));
  const [first] = texts.ok ? texts.value : [];
  if (texts.ok && first === undefined)
    faults.push(fault(["inbound", "messages"], "finds no message in the sample"));
  if (inbound.to !== undefined && first?.to === null) faults.push(fault(["inbound", "to"], nothing));
  if (inbound.at !== undefined && first?.at === null)
    faults.push(fault(["inbound", "at"], "finds no time in the sample"));
  if (receipts === undefined) return faults;
  const query = new URLSearchParams(receipts.id.startsWith("?") ? { [receipts.id.slice(1)]: "id" } : {});
  const read = readReceipts(receipts, sampleText(receipts.sample), query);
  if (!read.ok) faults.push(fault(["receipts", read.refusal.field], nothing));
  if (read.ok && read.value.some(({ how }) => how === "under-way"))
    faults.push(
      fault(["receipts", "status"], "finds a status in the sample that is neither delivered nor failed"),
    );
  return faults;
}

/** Answers may only use their own slots. */
function answerFaults({ answer }: InboundMapping): readonly Fault[] {
  const check = (text: string, allowed: string, field: string): readonly Fault[] =>
    slotsIn(text)
      .filter((slot) => slot !== allowed)
      .map((slot) =>
        fault(["inbound", "answer", field], `there is no slot {${slot}}; there is {${allowed}}`),
      );
  const { body, reply } = answer;
  if (reply === undefined) {
    const replies = slotsIn(body).includes("replies");
    return replies
      ? [fault(["inbound", "answer", "reply"], "is missing: it says how one reply is written")]
      : [];
  }
  return [
    ...check(body, "replies", "body"),
    ...check(reply, "text", "reply"),
    ...(slotsIn(body).includes("replies")
      ? []
      : [fault(["inbound", "answer", "body"], "has no slot {replies}")]),
  ];
}

/** Says where texts may go, and who can change that. */
export const elsewhere = (hosts: readonly string[]): string =>
  `must be at ${hosts.join(" or ")}: the owner of this deployment lists further hosts in GATEWAY_HOSTS`;

/** The address must be one that nothing of a text can change, and safe from listeners on the way. */
function addressFaults(
  { outbound }: GatewayMapping,
  bindings: Bindings,
  hosts: PinnedHosts,
): readonly Fault[] {
  const at: Path = ["outbound", "url"];
  const address = addressIn(outbound, bindings);
  // A binding that is missing is a fault already.
  if (address === null) return [];
  const found = /^(https?):\/\/([^/?#{}]+)(?:[/?#]|$)/.exec(address);
  if (found === null)
    return [fault(at, "must begin with https:// and a host that is written out, or be a binding")];
  const isLoopback = /^(?:localhost|127\.0\.0\.1|\[::1\])(?::[0-9]+)?$/.test(found[2] ?? "");
  if (found[1] === "http" && !isLoopback) return [fault(at, "must be https, but for this computer itself")];
  const host = hostOf(outbound, bindings);
  if (host === null) return [fault(at, "must be an address")];
  return hosts === null || hosts.includes(host) ? [] : [fault(at, elsewhere(hosts))];
}

/** A number must come out as one: it is shown to everybody, and a binding that is mistyped may hold a secret. */
function numberFaults({ numbers, country }: GatewayMapping, bindings: Bindings): readonly Fault[] {
  const bad = numbers.findIndex(({ number }) => {
    const [, binding] = /^\{binding:(GATEWAY_[A-Z0-9_]+)\}$/.exec(number) ?? [];
    // A binding that is missing is a fault already.
    return numberOf(number, bindings) === null && (binding === undefined || bindings(binding) !== undefined);
  });
  return [
    ...(bad < 0
      ? []
      : [fault(["numbers", bad, "number"], "must be 3 to 15 digits, or a binding that holds them")]),
    ...(isCountry(country) ? [] : [fault(["country"], "is no country whose numbers are known")]),
  ];
}

/** Every fault of a mapping with its place and what to do; empty for a good mapping. */
export function mappingFaults(
  mapping: GatewayMapping,
  bindings: Bindings,
  loopback: boolean,
  hosts: PinnedHosts,
): readonly Fault[] {
  const { outbound, numbers, inbound, receipts } = mapping;
  const slots = slotFaults({ numbers, outbound: { ...outbound, signature: undefined } }, [], bindings);
  const carriesId = strings(outbound).some(([, text]) => slotsIn(text).includes("id"));
  const needed = ["to", "text"].filter(
    (slot) =>
      !strings(outbound).some(([, text]) =>
        slotsIn(text).some((name) => name === slot || name === `${slot}-digits`),
      ),
  );
  return [
    ...slots,
    ...secretFaults(mapping, bindings),
    ...verificationFaults(mapping, loopback),
    ...readingFaults(inbound, receipts),
    ...answerFaults(inbound),
    ...addressFaults(mapping, bindings, hosts),
    ...numberFaults(mapping, bindings),
    ...needed.map((slot) => fault(["outbound"], `nothing carries {${slot}}`)),
    ...(carriesId
      ? []
      : [fault(["outbound"], "nothing carries {id}, so a repeat could not be told from a new text")]),
  ];
}

/** Whether every slot has a value now: a binding may have been removed since the mapping was saved. */
export const canSend = (mapping: GatewayMapping["outbound"], bindings: Bindings): boolean =>
  strings({ ...mapping, signature: undefined }).every(([, text]) =>
    slotsIn(text).every((slot) => slotsFor(TRIED, bindings)(slot) !== undefined),
  ) &&
  (mapping.signature === null || bindings(mapping.signature.secret) !== undefined);
