/** A hash that only this deployment can make: HMAC-SHA-256 with its secret, as base64url. */

const encoder = new TextEncoder();
let imported: { readonly secret: string; readonly key: Promise<CryptoKey> } | null = null;

/** One secret an isolate, so it is imported once. */
function keyOf(secret: string): Promise<CryptoKey> {
  if (imported?.secret !== secret) {
    const algorithm = { name: "HMAC", hash: "SHA-256" };
    const key = crypto.subtle.importKey("raw", encoder.encode(secret), algorithm, false, ["sign"]);
    imported = { secret, key };
  }
  return imported.key;
}

/** What the hash of a number is made from, as a sender of texts to a fair. */
export const senderAt = (fair: string, phone: string): string => `sender/${fair}/${phone}`;

/** What the hash of a number is made from, as a customer of one stall. */
export const customerAt = (fair: string, stall: string, phone: string): string =>
  `customer/${fair}/${stall}/${phone}`;

/** The opaque id of a thing, the same as the front door's keys give: the first 132 bits. */
export async function opaqueIdOf(secret: string, what: string): Promise<string> {
  const mac = new Uint8Array(await crypto.subtle.sign("HMAC", await keyOf(secret), encoder.encode(what)));
  const text = btoa(String.fromCharCode(...mac));
  return text.replaceAll("+", "-").replaceAll("/", "_").slice(0, 22);
}
