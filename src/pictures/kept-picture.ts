/** A picture from outside: told by its bytes, measured by its own header, and kept without words. */
import { MOST_PICTURE_BYTES, MOST_PIXELS, type PictureFacts, PictureHash } from "../model/garment/picture.ts";
import { isJpeg, readJpeg } from "./jpeg.ts";
import { isPng, readPng } from "./png.ts";
import type { Bare, NotTaken } from "./reading.ts";
import { isWebp, readWebp } from "./webp.ts";

export type KeptPicture = { readonly facts: PictureFacts; readonly bytes: Uint8Array<ArrayBuffer> };

const refused = (why: NotTaken["why"], detail: string): NotTaken => ({ ok: false, why, detail });

function bareOf(bytes: Uint8Array): Bare {
  if (bytes.length > MOST_PICTURE_BYTES)
    return refused(
      "too-many-bytes",
      `A picture may have ${MOST_PICTURE_BYTES / 1000} kB; this one has ${Math.ceil(bytes.length / 1000)} kB. The set-up page makes it smaller.`,
    );
  if (isPng(bytes)) return readPng(bytes);
  if (isJpeg(bytes)) return readJpeg(bytes);
  if (isWebp(bytes)) return readWebp(bytes);
  return refused(
    "kind",
    "A picture must be a PNG, JPEG or WebP file. Save it as one of these and send it again.",
  );
}

const hex = (bytes: ArrayBuffer): string =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/** A picture as it is kept, named by the SHA-256 of what is kept; or why it is not. */
export async function pictureFrom(
  given: Uint8Array,
): Promise<({ readonly ok: true } & KeptPicture) | NotTaken> {
  const bare = bareOf(given);
  if (!bare.ok) return bare;
  const { type, width, height, bytes } = bare;
  if (width < 1 || height < 1) return refused("broken", "The picture is broken: it says that it is empty.");
  if (width > MOST_PIXELS || height > MOST_PIXELS)
    return refused(
      "too-many-pixels",
      `A picture may be ${MOST_PIXELS} pixels wide and high; this one is ${width} by ${height}. The set-up page makes it smaller.`,
    );
  const hash = PictureHash.parse(hex(await crypto.subtle.digest("SHA-256", bytes)));
  return { ok: true, facts: { hash, type, width, height, bytes: bytes.length }, bytes };
}
