/** Bytes as text and back (RFC 4648, section 4). */

/** So many bytes at once become arguments of one call. */
const PART = 8192;

export function base64Of(bytes: Uint8Array): string {
  let binary = "";
  for (let at = 0; at < bytes.length; at += PART)
    binary += String.fromCharCode(...bytes.subarray(at, at + PART));
  return btoa(binary);
}

export const fromBase64 = (text: string): Uint8Array =>
  Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
