/** PNG by the W3C's Portable Network Graphics Specification, third edition: its header, and its chunks without words. */
import { ok } from "../model/basics/result.ts";
import { bigEndian, joined, letters } from "./bytes.ts";
import { broken, type PictureReading } from "./reading.ts";

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Chunks a picture needs to look right; texts, times, profiles, thumbnails and further frames are dropped. */
const NEEDED: ReadonlySet<string> = new Set(["IHDR", "PLTE", "tRNS", "gAMA", "sRGB", "IDAT", "IEND"]);
const HEADER_BYTES = 13;
/** Colour types with the bit depths that each may have (section 11.2.1). */
const DEPTHS: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
};

export const isPng = (bytes: Uint8Array): boolean => SIGNATURE.every((byte, at) => bytes[at] === byte);

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value >>> 0;
});

/** The check value of a chunk's type and data (annex D: CRC-32 of ISO/IEC 3309). */
function crc(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) value = (CRC_TABLE[(value ^ byte) & 0xff] ?? 0) ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}

/** A PNG with only the chunks it needs, or its flaw. Bytes after its end are dropped. */
export function readPng(bytes: Uint8Array): PictureReading {
  const kept: Uint8Array[] = [bytes.subarray(0, SIGNATURE.length)];
  let [width, height] = [0, 0];
  let isIndexed = false;
  const seen = new Set<string>();
  for (let at = SIGNATURE.length; ; ) {
    const length = bigEndian(bytes, at, 4);
    const end = at + 12 + length;
    if (!(end <= bytes.length)) return broken("ends-early");
    const type = letters(bytes, at + 4, 4);
    if (bigEndian(bytes, end - 4, 4) !== crc(bytes.subarray(at + 4, end - 4)))
      return broken("wrong-check-value", /^[A-Za-z]{4}$/.test(type) ? type : "?");
    if (seen.size === 0 && type !== "IHDR") return broken("header-not-first");
    if (seen.has(type) && type !== "IDAT" && NEEDED.has(type)) return broken("doubled-part", type);
    seen.add(type);
    if (type === "IHDR") {
      if (length !== HEADER_BYTES) return broken("impossible-header");
      [width, height] = [bigEndian(bytes, at + 8, 4), bigEndian(bytes, at + 12, 4)];
      const [depth = 0, colour = -1, compression, filter, interlace = 2] = bytes.subarray(at + 16, at + 21);
      if (!DEPTHS[colour]?.includes(depth) || compression !== 0 || filter !== 0 || interlace > 1)
        return broken("impossible-header");
      isIndexed = colour === 3;
    } else if (!NEEDED.has(type) && /^[A-Z]/.test(type)) return broken("unknown-part", type);
    if (NEEDED.has(type)) kept.push(bytes.subarray(at, end));
    if (type === "IEND") break;
    at = end;
  }
  if (!seen.has("IDAT")) return broken("empty");
  if (isIndexed && !seen.has("PLTE")) return broken("no-colours");
  return ok({ type: "image/png", width, height, bytes: joined(kept) });
}
