/** JPEG by ITU-T T.81, annex B: its frame header, and its segments without words. */
import { ok } from "../model/basics/result.ts";
import { bigEndian, joined, letters } from "./bytes.ts";
import { broken, type PictureReading } from "./reading.ts";

const [SOI, EOI, SOS, DQT, DHT, DRI, TEM] = [0xd8, 0xd9, 0xda, 0xdb, 0xc4, 0xdd, 0x01];
/** Application segment 14, which tells decoders how the three components encode colours. */
const APP14 = 0xee;
const APP14_BYTES = 12;
const [BASELINE, EXTENDED, PROGRESSIVE] = [0xc0, 0xc1, 0xc2];
const isFrame = (marker: number): boolean =>
  marker === BASELINE || marker === EXTENDED || marker === PROGRESSIVE;
/** Frames that browsers do not draw: lossless, hierarchical, arithmetic. */
const isOtherFrame = (marker: number): boolean => marker > PROGRESSIVE && marker <= 0xcf && marker !== DHT;
const isRestart = (marker: number): boolean => marker >= 0xd0 && marker <= 0xd7;
const isWords = (marker: number): boolean => (marker >= 0xe0 && marker <= 0xef) || marker === 0xfe;

export const isJpeg = (bytes: Uint8Array): boolean =>
  bytes[0] === 0xff && bytes[1] === SOI && bytes[2] === 0xff;

/** Where the coded data that begins at `at` ends: at a marker that is neither a stuffed zero nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length) {
    const next = bytes[at + 1];
    if (bytes[at] === 0xff && next !== undefined && next !== 0 && next !== 0xff && !isRestart(next))
      return at;
    at += 1;
  }
  return at;
}

/** A JPEG with only the segments it needs, or its flaw. Bytes after its end are dropped. */
export function readJpeg(bytes: Uint8Array): PictureReading {
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let size: { readonly width: number; readonly height: number } | null = null;
  let scans = 0;
  for (let at = 2; ; ) {
    // Fill bytes may come before a marker.
    while (bytes[at] === 0xff && bytes[at + 1] === 0xff) at += 1;
    const marker = bytes[at + 1];
    if (bytes[at] !== 0xff || marker === undefined) return broken("ends-early");
    if (marker === EOI) {
      kept.push(bytes.subarray(at, at + 2));
      break;
    }
    if (marker === SOI || marker === TEM || marker === 0 || isRestart(marker))
      return broken("misplaced-part");
    const end = at + 2 + bigEndian(bytes, at + 2, 2);
    if (!(end <= bytes.length) || end < at + 4) return broken("ends-early");
    if (isOtherFrame(marker)) return broken("not-drawn");
    if (isFrame(marker)) {
      if (size !== null) return broken("two-headers");
      const [depth, components] = [bytes[at + 4], bytes[at + 9]];
      if (depth !== 8 || (components !== 1 && components !== 3)) return broken("colours-not-drawn");
      size = { width: bigEndian(bytes, at + 7, 2), height: bigEndian(bytes, at + 5, 2) };
    }
    const isColourMark =
      marker === APP14 && end === at + 2 + 2 + APP14_BYTES && letters(bytes, at + 4, 5) === "Adobe";
    if (marker === SOS) {
      if (size === null) return broken("header-not-first");
      const scanEnd = endOfScan(bytes, end);
      kept.push(bytes.subarray(at, scanEnd));
      scans += 1;
      at = scanEnd;
      continue;
    }
    if (isFrame(marker) || marker === DQT || marker === DHT || marker === DRI || isColourMark)
      kept.push(bytes.subarray(at, end));
    else if (!isWords(marker)) return broken("unknown-part");
    at = end;
  }
  if (size === null || scans === 0) return broken("empty");
  return ok({ type: "image/jpeg", ...size, bytes: joined(kept) });
}
