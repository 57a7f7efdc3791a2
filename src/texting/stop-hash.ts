/**
 * The hash by which a number's STOP moves to another deployment with its stall; the number itself may be erased by
 * then. Somebody with both key and hash can try numbers, so the hash is slow: PBKDF2 (RFC 8018, section 5.2).
 */
import type { PhoneNumber } from "../model/orders/order.ts";

const encoder = new TextEncoder();
const ITERATIONS = 10_000;
const BITS = 128;

/** The hash of a number under a fair's key, as 32 hexadecimal digits. */
export async function stopHash(key: string, phone: PhoneNumber): Promise<string> {
  const number = await crypto.subtle.importKey("raw", encoder.encode(phone), "PBKDF2", false, ["deriveBits"]);
  const derived = { name: "PBKDF2", hash: "SHA-256", salt: encoder.encode(key), iterations: ITERATIONS };
  const bytes = new Uint8Array(await crypto.subtle.deriveBits(derived, number, BITS));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The purpose from which a fair's key for these hashes is derived. */
export const stopKeyOf = (fair: string): string => `stops/${fair}`;
