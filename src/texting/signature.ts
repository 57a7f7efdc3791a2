/** Signing and checking what goes to and comes from the text gateway: HMAC-SHA-256 of the body, in hex. */
const encoder = new TextEncoder();

const keyOf = (secret: string): Promise<CryptoKey> =>
  crypto.subtle.importKey("raw", encoder.encode(secret), { name: "HMAC", hash: "SHA-256" }, false, [
    "sign",
    "verify",
  ]);

/** The header both sides put the signature in. */
export const SIGNATURE_HEADER = "Text-Signature";

/** The signature of a body under a shared secret, "sha256=" and 64 hex digits. */
export async function sign(secret: string, body: string): Promise<string> {
  const mac = await crypto.subtle.sign("HMAC", await keyOf(secret), encoder.encode(body));
  return `sha256=${[...new Uint8Array(mac)].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
}

/** Whether the header carries the body's signature; compared in constant time. */
export async function verify(secret: string, body: string, header: string | undefined): Promise<boolean> {
  const hex = /^sha256=([0-9a-f]{64})$/.exec(header ?? "")?.[1];
  if (hex === undefined) return false;
  const bytes = Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
  return crypto.subtle.verify("HMAC", await keyOf(secret), bytes, encoder.encode(body));
}
