/** What reading a picture's bytes comes to. */
import type { PictureType } from "../model/garment/picture.ts";

export type NotTaken = {
  readonly ok: false;
  readonly why: "kind" | "broken" | "too-many-bytes" | "too-many-pixels";
  /** What is wrong, and what to do. */
  readonly detail: string;
};

export type Bare =
  | {
      readonly ok: true;
      readonly type: PictureType;
      readonly width: number;
      readonly height: number;
      /** The file without names, places, times, notes and previews. */
      readonly bytes: Uint8Array<ArrayBuffer>;
    }
  | NotTaken;

/** A file that does not keep to its own format. */
export const broken = (how: string): NotTaken => ({
  ok: false,
  why: "broken",
  detail: `The picture is broken: ${how}. Save it again and send it.`,
});
