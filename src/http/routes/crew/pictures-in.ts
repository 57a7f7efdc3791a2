/** The pictures in a file that a stall is made from: checked as those are that a crew sends. */
import type { Fault } from "../../../model/basics/faults.ts";
import { ok, type Result, refused } from "../../../model/basics/result.ts";
import type { CarriedPicture } from "../../../model/garment/picture.ts";
import { fromBase64 } from "../../../pictures/base64.ts";
import { pictureFrom } from "../../../pictures/kept-picture.ts";
import type { PictureOf } from "../../../stall/storage/picture-bytes.ts";
import { pictureWords } from "../../requests/picture-problems.ts";

/** All of the pictures, or the first one that is refused. */
export async function picturesIn(
  carried: readonly CarriedPicture[],
): Promise<Result<readonly PictureOf[], Fault>> {
  const pictures: PictureOf[] = [];
  for (const [index, { design, base64 }] of carried.entries()) {
    const read = await pictureFrom(fromBase64(base64));
    if (!read.ok)
      return refused({ pointer: `#/pictures/${index}/base64`, detail: pictureWords(read.refusal) });
    pictures.push({ design, picture: read.value });
  }
  return ok(pictures);
}
