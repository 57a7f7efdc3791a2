/** The picture of a design: its stored facts, and its limits. */
import { z } from "zod";
import { DesignId } from "../basics/ids.ts";

/** Longest side in pixels: enough for a print of 3 inches across the screen of a phone. */
export const MOST_PIXELS = 640;
export const MOST_PICTURE_BYTES = 60_000;
/** Of all pictures of a stall together. */
export const MOST_PICTURES_BYTES = 4_000_000;
export const MOST_PICTURES = 60;

export const PictureType = z.enum(["image/png", "image/jpeg", "image/webp"]).meta({ id: "PictureType" });
export type PictureType = z.infer<typeof PictureType>;

export const PictureHash = z
  .string()
  .length(64)
  .regex(/^[0-9a-f]{64}$/, "must be 64 digits of 0-9 and a-f")
  .brand<"PictureHash">()
  .meta({ id: "PictureHash", description: "SHA-256 of the picture's bytes (FIPS 180-4), in hexadecimal" });
export type PictureHash = z.infer<typeof PictureHash>;

/** The digits of a hash that name a picture in a list that must be short. */
export const MARK_DIGITS = 12;

export const PictureMark = z
  .string()
  .max(64)
  .regex(/^[0-9a-f]{12,64}$/, "must be 12 to 64 digits of 0-9 and a-f")
  .meta({ id: "PictureMark", description: "A picture's hash, or its first 12 digits or more" });
export type PictureMark = z.infer<typeof PictureMark>;

/** The facts of a picture without its bytes. */
export const PictureFacts = z
  .strictObject({
    hash: PictureHash,
    type: PictureType,
    width: z.int().min(1).max(MOST_PIXELS).describe("Pixels"),
    height: z.int().min(1).max(MOST_PIXELS).describe("Pixels"),
    bytes: z.int().min(1).max(MOST_PICTURE_BYTES),
  })
  .meta({ id: "PictureFacts" });
export type PictureFacts = z.infer<typeof PictureFacts>;

const DesignPicture = z
  .strictObject({ design: DesignId, picture: PictureFacts })
  .meta({ id: "DesignPicture" });

export const PicturesView = z
  .strictObject({
    pictures: z.array(DesignPicture),
    bytes: z.int().min(0).describe("Of all of them together"),
    mostBytes: z.int(),
  })
  .meta({ id: "PicturesView", description: "The pictures of a stall's designs" });
export type PicturesView = z.infer<typeof PicturesView>;

/** A picture on the move, with its bytes. */
export const CarriedPicture = z
  .strictObject({
    design: DesignId,
    base64: z
      .string()
      .regex(
        /^(?:[A-Za-z0-9+/]{4})*(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?$/,
        "must be base64 with its padding",
      )
      .max(Math.ceil(MOST_PICTURE_BYTES / 3) * 4)
      .describe("The file's bytes (RFC 4648, section 4)"),
  })
  .meta({ id: "CarriedPicture" });
export type CarriedPicture = z.infer<typeof CarriedPicture>;
