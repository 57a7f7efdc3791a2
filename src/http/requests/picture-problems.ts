/** The words for a refused picture: as a problem for whoever sends one, and as a fault in a file that holds several. */
import type { Context } from "hono";
import type { Flaw, PictureRefusal } from "../../pictures/reading.ts";
import { type ProblemResponse, problem } from "./problems.ts";

const FLAWS: Readonly<Record<Flaw, string>> = {
  "ends-early": "it ends too early",
  empty: "there is nothing in it",
  "no-size": "it says that it is empty",
  "two-sizes": "it gives two different sizes",
  "header-not-first": "it does not begin with its header",
  "two-headers": "it has two headers",
  "impossible-header": "its header is not one that its format allows",
  "misplaced-header": "its header is out of place",
  "misplaced-part": "its parts are out of order",
  "doubled-part": "it has a part twice",
  "unknown-part": "it has an unknown part",
  "wrong-check-value": "the check value of a part is wrong",
  "no-colours": "its colours are missing",
  "colours-not-drawn": "it must be grey or in three colours, of 8 bits each",
  "not-drawn": "browsers do not draw this kind of JPEG",
  "two-pictures": "it holds two pictures",
  moving: "moving pictures are not taken",
};

/** What is wrong with a picture, and what to do about it. */
export function pictureWords(refusal: PictureRefusal): string {
  switch (refusal.code) {
    case "not-a-picture":
      return "A picture must be a PNG, JPEG or WebP file. Save it as one of these and send it again.";
    case "too-many-bytes":
      return `A picture may have ${refusal.most / 1000} kB; this one has ${Math.ceil(refusal.bytes / 1000)} kB. The set-up page makes it smaller.`;
    case "too-many-pixels":
      return `A picture may be ${refusal.most} pixels wide and high; this one is ${refusal.width} by ${refusal.height}. The set-up page makes it smaller.`;
    case "broken": {
      const part = refusal.part === undefined ? "" : ` (${refusal.part})`;
      return `The picture is broken: ${FLAWS[refusal.flaw]}${part}. Save it again and send it.`;
    }
    default:
      return refusal satisfies never;
  }
}

/** The response to a picture that is not taken. */
export function pictureRefused(c: Context, refusal: PictureRefusal): ProblemResponse {
  const detail = pictureWords(refusal);
  switch (refusal.code) {
    case "not-a-picture":
      return problem(c, "unsupported-type", [415, "Not a picture that is kept here", detail]);
    case "too-many-bytes":
      return problem(c, "too-large", [413, "Too large", detail]);
    case "too-many-pixels":
      return problem(c, "too-many-pixels", [422, "Too many pixels", detail]);
    case "broken":
      return problem(c, "broken-picture", [422, "The picture is broken", detail]);
    default:
      return refusal satisfies never;
  }
}
