/** HMAC with a shared secret, on the platform's Web Crypto. */
const encoder = new TextEncoder();

export type Hash = "SHA-1" | "SHA-256" | "SHA-512";
export type Encoding = "hex" | "base64";
type Bytes = Uint8Array<ArrayBuffer>;

export const bytesOf = (text: string): Bytes => new Uint8Array(encoder.encode(text));

const hmacKey = (secret: Bytes, hash: Hash): Promise<CryptoKey> =>
  crypto.subtle.importKey("raw", secret, { name: "HMAC", hash }, false, ["sign", "verify"]);

export function encoded(bytes: Bytes, encoding: Encoding): string {
  if (encoding === "base64") return btoa(String.fromCharCode(...bytes));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The bytes of hex or base64 text (also base64url, padded or not), or null if it is neither. */
export function decoded(text: string, encoding: Encoding): Bytes | null {
  if (encoding === "hex") {
    if (!/^(?:[0-9a-fA-F]{2})+$/.test(text)) return null;
    return Uint8Array.from(text.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
  }
  const plain = /^([A-Za-z0-9+/]+)={0,2}$/.exec(text.replaceAll("-", "+").replaceAll("_", "/"))?.[1];
  if (plain === undefined || plain.length % 4 === 1) return null;
  return Uint8Array.from(atob(plain), (character) => character.charCodeAt(0));
}

/** The HMAC of some bytes. */
export async function hmac(secret: Bytes, hash: Hash, data: Bytes): Promise<Bytes> {
  return new Uint8Array(await crypto.subtle.sign("HMAC", await hmacKey(secret, hash), data));
}

/** Whether a MAC matches the bytes; the platform compares in constant time. */
export async function hmacFits(secret: Bytes, hash: Hash, data: Bytes, mac: Bytes): Promise<boolean> {
  return crypto.subtle.verify("HMAC", await hmacKey(secret, hash), mac, data);
}

/** The header our own plain form puts the signature in. */
export const SIGNATURE_HEADER = "Text-Signature";
const PREFIX = "sha256=";

/** The signature of a body in our own plain form: "sha256=" and 64 hex digits. */
export async function sign(secret: string, body: string): Promise<string> {
  return PREFIX + encoded(await hmac(bytesOf(secret), "SHA-256", bytesOf(body)), "hex");
}

/** Whether a header has the body's signature in our own plain form. */
export async function verify(secret: string, body: string, header: string | undefined): Promise<boolean> {
  const mac = header?.startsWith(PREFIX) === true ? decoded(header.slice(PREFIX.length), "hex") : null;
  return mac !== null && (await hmacFits(bytesOf(secret), "SHA-256", bytesOf(body), mac));
}
