/** The result of reading a picture's bytes: the picture without its metadata, or its flaw. */

import { type Result, refused } from "../model/basics/result.ts";
import type { PictureType } from "../model/garment/picture.ts";

/** How a file breaks its own format, or what browsers can draw. */
export type Flaw =
  | "ends-early"
  | "empty"
  | "no-size"
  | "two-sizes"
  | "header-not-first"
  | "two-headers"
  | "impossible-header"
  | "misplaced-header"
  | "misplaced-part"
  | "doubled-part"
  | "unknown-part"
  | "wrong-check-value"
  | "no-colours"
  | "colours-not-drawn"
  | "not-drawn"
  | "two-pictures"
  | "moving";

export type PictureRefusal =
  | { readonly code: "not-a-picture" }
  /** `part` is the part of the file that is at fault, by the name its format gives it. */
  | { readonly code: "broken"; readonly flaw: Flaw; readonly part?: string }
  | { readonly code: "too-many-bytes"; readonly bytes: number; readonly most: number }
  | {
      readonly code: "too-many-pixels";
      readonly width: number;
      readonly height: number;
      readonly most: number;
    };

type BarePicture = {
  readonly type: PictureType;
  readonly width: number;
  readonly height: number;
  /** The file without names, places, times, notes and previews. */
  readonly bytes: Uint8Array<ArrayBuffer>;
};

export type PictureReading = Result<BarePicture, PictureRefusal>;

/** Refuses a file that does not keep to its own format. */
export const broken = (flaw: Flaw, part?: string): Result<never, PictureRefusal> =>
  refused({ code: "broken", flaw, ...(part === undefined ? {} : { part }) });
