/** The pictures in a file that a stall is made from: checked as those are that a crew sends. */
import type { Fault } from "../../../model/basics/faults.ts";
import type { CarriedPicture } from "../../../model/garment/picture.ts";
import { fromBase64 } from "../../../pictures/base64.ts";
import { pictureFrom } from "../../../pictures/kept-picture.ts";
import type { PictureOf } from "../../../stall/storage/picture-bytes.ts";

/** All of them, or the first that is none. */
export async function picturesIn(
  carried: readonly CarriedPicture[],
): Promise<{ readonly pictures: readonly PictureOf[] } | { readonly fault: Fault }> {
  const pictures: PictureOf[] = [];
  for (const [index, { design, base64 }] of carried.entries()) {
    const read = await pictureFrom(fromBase64(base64));
    if (!read.ok) return { fault: { pointer: `#/pictures/${index}/base64`, detail: read.detail } };
    pictures.push({ design, picture: { facts: read.facts, bytes: read.bytes } });
  }
  return { pictures };
}
