/** RFC 9421 HTTP Message Signatures with RFC 9530 digests: hmac-sha256 and ed25519. */
import {
  type InnerList,
  type Item,
  isInnerList,
  parseDictionary,
  serializeInnerList,
} from "structured-headers";
import { bytesOf, hmacFits } from "./signature.ts";

/** A request as it came. */
export type Incoming = {
  readonly method: string;
  readonly url: string;
  /** Names in small letters. */
  readonly headers: ReadonlyMap<string, string>;
  readonly body: string;
};

export type SignatureKey = {
  readonly algorithm: "hmac-sha256" | "ed25519";
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Where given, only signatures that name this key count. */
  readonly keyId?: string | undefined;
};

/** A component's value for the signature base (RFC 9421, sections 2.1 and 2.2), or null if it has none. */
function componentOf({ method, url, headers }: Incoming, name: string): string | null {
  const target = new URL(url);
  switch (name) {
    case "@method":
      return method;
    case "@target-uri":
      return url;
    case "@authority":
      return target.host;
    case "@scheme":
      return target.protocol.slice(0, -1);
    case "@path":
      return target.pathname;
    case "@query":
      return target.search === "" ? "?" : target.search;
    case "@request-target":
      return target.pathname + target.search;
    default:
      return name.startsWith("@") ? null : (headers.get(name)?.trim() ?? null);
  }
}

/** The signature base (section 2.5), or null if a component is missing, doubled or of an unknown kind. */
function signatureBase(request: Incoming, input: InnerList): string | null {
  const lines: string[] = [];
  const seen = new Set<string>();
  for (const [name, parameters] of input[0]) {
    // A component with parameters is a part or a variant of a field; no gateway needs one.
    if (typeof name !== "string" || parameters.size > 0 || seen.has(name)) return null;
    seen.add(name);
    const value = componentOf(request, name);
    if (value === null) return null;
    lines.push(`"${name}": ${value}`);
  }
  return [...lines, `"@signature-params": ${serializeInnerList(input)}`].join("\n");
}

async function fits(key: SignatureKey, base: string, signature: Uint8Array<ArrayBuffer>): Promise<boolean> {
  if (key.algorithm === "hmac-sha256") return hmacFits(key.bytes, "SHA-256", bytesOf(base), signature);
  const imported = await crypto.subtle.importKey("raw", key.bytes, { name: "Ed25519" }, false, ["verify"]);
  return crypto.subtle.verify({ name: "Ed25519" }, imported, signature, bytesOf(base));
}

function dictionary(header: string | undefined): ReadonlyMap<string, Item | InnerList> {
  try {
    return parseDictionary(header ?? "");
  } catch {
    return new Map();
  }
}

const DIGESTS = { "sha-256": "SHA-256", "sha-512": "SHA-512" } as const;

/** Whether Content-Digest is present and every digest of a known kind in it is the body's (RFC 9530). */
export async function digestFits(header: string | undefined, body: string): Promise<boolean> {
  let known = 0;
  for (const [name, item] of dictionary(header)) {
    if (name !== "sha-256" && name !== "sha-512") continue;
    if (isInnerList(item) || !(item[0] instanceof ArrayBuffer)) return false;
    const wanted = new Uint8Array(item[0]);
    const found = new Uint8Array(await crypto.subtle.digest(DIGESTS[name], bytesOf(body)));
    if (wanted.length !== found.length || !wanted.every((byte, index) => byte === found[index])) return false;
    known += 1;
  }
  return known > 0;
}

export type Wanted = { readonly covers: readonly string[]; readonly toleranceSeconds: number };

/**
 * Whether one of the request's signatures was made with the key, covers the required parts, and is recent. `now` is in
 * milliseconds since 1970.
 */
export async function messageSignatureFits(
  request: Incoming,
  key: SignatureKey,
  { covers, toleranceSeconds }: Wanted,
  now: number,
): Promise<boolean> {
  const signatures = dictionary(request.headers.get("signature"));
  for (const [label, input] of dictionary(request.headers.get("signature-input"))) {
    const signature = signatures.get(label);
    if (!isInnerList(input) || signature === undefined || isInnerList(signature)) continue;
    const [items, parameters] = input;
    const named = new Set(items.map(([name]) => name));
    if (!covers.every((component) => named.has(component))) continue;
    const algorithm = parameters.get("alg");
    if (algorithm !== undefined && algorithm !== key.algorithm) continue;
    if (key.keyId !== undefined && parameters.get("keyid") !== key.keyId) continue;
    const created = parameters.get("created");
    const expires = parameters.get("expires");
    if (typeof created !== "number" || Math.abs(now / 1000 - created) > toleranceSeconds) continue;
    if (typeof expires === "number" && now / 1000 > expires) continue;
    const base = signatureBase(request, input);
    const [bytes] = signature;
    if (base === null || !(bytes instanceof ArrayBuffer)) continue;
    const digest = named.has("content-digest");
    if (digest && !(await digestFits(request.headers.get("content-digest"), request.body))) continue;
    if (await fits(key, base, new Uint8Array(bytes))) return true;
  }
  return false;
}
