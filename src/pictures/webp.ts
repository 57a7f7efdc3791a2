/** WebP by RFC 9649: its size, and its chunks without words. */
import { ok } from "../model/basics/result.ts";
import { joined, letters, littleEndian } from "./bytes.ts";
import { broken, type PictureReading } from "./reading.ts";

const RIFF_BYTES = 12;
const ALPHA_FLAG = 0x10;
const ANIMATION_FLAG = 0x02;

export const isWebp = (bytes: Uint8Array): boolean =>
  letters(bytes, 0, 4) === "RIFF" && letters(bytes, 8, 4) === "WEBP";

type Size = { readonly width: number; readonly height: number };

/** The size of a lossy picture, by the header of its key frame (RFC 6386, section 9.1); null if it has none. */
function lossySize(data: Uint8Array): Size | null {
  const isKeyFrame = ((data[0] ?? 1) & 1) === 0;
  if (!isKeyFrame || data[3] !== 0x9d || data[4] !== 0x01 || data[5] !== 0x2a) return null;
  return { width: littleEndian(data, 6, 2) & 0x3fff, height: littleEndian(data, 8, 2) & 0x3fff };
}

/** The size of a lossless picture (RFC 9649, section 3.4); null if it has none. */
function losslessSize(data: Uint8Array): Size | null {
  const bits = littleEndian(data, 1, 4);
  if (data[0] !== 0x2f || Number.isNaN(bits) || bits >>> 29 !== 0) return null;
  return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
}

const number = (value: number): Uint8Array =>
  Uint8Array.from([value, value >>> 8, value >>> 16, value >>> 24], (byte) => byte & 0xff);
const text = (words: string): Uint8Array => Uint8Array.from(words, (letter) => letter.charCodeAt(0));

/** A WebP with only the chunks it needs, or its flaw. Bytes after its end are dropped. */
export function readWebp(bytes: Uint8Array): PictureReading {
  const end = 8 + littleEndian(bytes, 4, 4);
  if (!(end <= bytes.length)) return broken("ends-early");
  const kept: Uint8Array[] = [];
  let picture: Size | null = null;
  let canvas: Size | null = null;
  for (let at = RIFF_BYTES; at < end; ) {
    const type = letters(bytes, at, 4);
    const length = littleEndian(bytes, at + 4, 4);
    const next = at + 8 + length + (length % 2);
    if (!(at + 8 + length <= end)) return broken("ends-early");
    const data = bytes.subarray(at + 8, at + 8 + length);
    const chunk = [bytes.subarray(at, at + 8), data, ...(length % 2 === 1 ? [Uint8Array.of(0)] : [])];
    if (type === "VP8 " || type === "VP8L") {
      if (picture !== null) return broken("two-pictures");
      picture = type === "VP8 " ? lossySize(data) : losslessSize(data);
      if (picture === null) return broken("impossible-header");
      kept.push(...chunk);
    } else if (type === "VP8X") {
      if (canvas !== null || picture !== null || length !== 10) return broken("misplaced-header");
      const flags = data[0] ?? 0;
      if ((flags & ANIMATION_FLAG) !== 0) return broken("moving");
      canvas = { width: littleEndian(data, 4, 3) + 1, height: littleEndian(data, 7, 3) + 1 };
      // Of the flags only the one for transparency stays: what the others announce is left out.
      kept.push(
        ...[bytes.subarray(at, at + 8), Uint8Array.of(flags & ALPHA_FLAG, 0, 0, 0), data.subarray(4)],
      );
    } else if (type === "ALPH") {
      if (canvas === null || picture !== null) return broken("misplaced-part");
      kept.push(...chunk);
    } else if (type === "ANIM" || type === "ANMF") return broken("moving");
    at = next;
  }
  if (picture === null) return broken("empty");
  if (canvas !== null && (canvas.width !== picture.width || canvas.height !== picture.height))
    return broken("two-sizes");
  const body = joined([text("WEBP"), ...kept]);
  return ok({
    type: "image/webp",
    ...picture,
    bytes: joined([text("RIFF"), number(body.length), body]),
  });
}
