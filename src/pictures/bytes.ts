/** Numbers and letters in the header of a file. Reading past the end gives NaN, which no check lets through. */

/** An unsigned number of `length` bytes, the most significant first. */
export function bigEndian(bytes: Uint8Array, at: number, length: number): number {
  let value = 0;
  for (let n = 0; n < length; n += 1) value = value * 256 + (bytes[at + n] ?? Number.NaN);
  return value;
}

/** The same with the least significant first. */
export function littleEndian(bytes: Uint8Array, at: number, length: number): number {
  let value = 0;
  for (let n = length - 1; n >= 0; n -= 1) value = value * 256 + (bytes[at + n] ?? Number.NaN);
  return value;
}

/** Bytes as characters of their own number (ISO 8859-1). */
export const letters = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));

export function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
