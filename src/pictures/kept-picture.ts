/** A picture from outside: recognised by its bytes, measured by its own header, and kept without words. */

import { ok, type Result, refused } from "../model/basics/result.ts";
import { MOST_PICTURE_BYTES, MOST_PIXELS, type PictureFacts, PictureHash } from "../model/garment/picture.ts";
import { isJpeg, readJpeg } from "./jpeg.ts";
import { isPng, readPng } from "./png.ts";
import { broken, type PictureReading, type PictureRefusal } from "./reading.ts";
import { isWebp, readWebp } from "./webp.ts";

export type KeptPicture = { readonly facts: PictureFacts; readonly bytes: Uint8Array<ArrayBuffer> };

function bareOf(bytes: Uint8Array): PictureReading {
  if (bytes.length > MOST_PICTURE_BYTES)
    return refused({ code: "too-many-bytes", bytes: bytes.length, most: MOST_PICTURE_BYTES });
  if (isPng(bytes)) return readPng(bytes);
  if (isJpeg(bytes)) return readJpeg(bytes);
  if (isWebp(bytes)) return readWebp(bytes);
  return refused({ code: "not-a-picture" });
}

const hex = (bytes: ArrayBuffer): string =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/** A picture as stored, named by the SHA-256 of its stored bytes; or why it is refused. */
export async function pictureFrom(given: Uint8Array): Promise<Result<KeptPicture, PictureRefusal>> {
  const bare = bareOf(given);
  if (!bare.ok) return bare;
  const { type, width, height, bytes } = bare.value;
  if (width < 1 || height < 1) return broken("no-size");
  if (width > MOST_PIXELS || height > MOST_PIXELS)
    return refused({ code: "too-many-pixels", width, height, most: MOST_PIXELS });
  const hash = PictureHash.parse(hex(await crypto.subtle.digest("SHA-256", bytes)));
  return ok({ facts: { hash, type, width, height, bytes: bytes.length }, bytes });
}
