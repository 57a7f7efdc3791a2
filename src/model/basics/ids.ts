/** Ids of everything that has one. */

import { z } from "zod";
import { slug } from "./words.ts";

export const FairId = slug()
  .brand<"FairId">()
  .meta({ id: "FairId", examples: ["brackenfield"] });
export type FairId = z.infer<typeof FairId>;

const REHEARSAL = ".rehearsal";

/** A stall's short name; with ".rehearsal" behind it, the stall's twin for trying things out, which is no stall of the fair. */
export const StallId = z
  .string()
  .max(32 + REHEARSAL.length)
  .regex(
    /^[a-z0-9]+(?:-[a-z0-9]+)*(?:\.rehearsal)?$/,
    "must be lower-case letters and digits joined by single hyphens",
  )
  .brand<"StallId">()
  .meta({ id: "StallId", examples: ["tern"] });
export type StallId = z.infer<typeof StallId>;

/** The short name that a stall of the fair may have. */
export const OwnStallId = slug()
  .brand<"StallId">()
  .meta({ id: "OwnStallId", examples: ["tern"] });

export const isRehearsal = (stall: StallId): boolean => stall.endsWith(REHEARSAL);

/** The twin of a stall. */
export function rehearsalStall(stall: StallId): StallId {
  return `${stall}${REHEARSAL}` as StallId; // a brand can only be put on by a cast; the part is a checked id
}

export const BlankId = slug()
  .brand<"BlankId">()
  .meta({ id: "BlankId", examples: ["tee"] });
export type BlankId = z.infer<typeof BlankId>;

export const ColourId = slug()
  .brand<"ColourId">()
  .meta({ id: "ColourId", examples: ["navy"] });
export type ColourId = z.infer<typeof ColourId>;

export const SizeId = z
  .string()
  .regex(/^[A-Za-z0-9-]{1,8}$/, "must be 1 to 8 letters, digits or hyphens")
  .brand<"SizeId">()
  .meta({ id: "SizeId", examples: ["L"] });
export type SizeId = z.infer<typeof SizeId>;

export const DesignId = slug()
  .brand<"DesignId">()
  .meta({ id: "DesignId", examples: ["longtail"] });
export type DesignId = z.infer<typeof DesignId>;

export const OfferId = slug()
  .brand<"OfferId">()
  .meta({ id: "OfferId", examples: ["longtail-tee"] });
export type OfferId = z.infer<typeof OfferId>;

export const WishId = slug()
  .brand<"WishId">()
  .meta({ id: "WishId", examples: ["back-print"] });
export type WishId = z.infer<typeof WishId>;

export const BundleId = slug()
  .brand<"BundleId">()
  .meta({ id: "BundleId", examples: ["two-tees"] });
export type BundleId = z.infer<typeof BundleId>;

export const PressId = z
  .string()
  .regex(/^[A-Z0-9]{1,4}$/, "must be 1 to 4 capital letters or digits")
  .brand<"PressId">()
  .meta({ id: "PressId", examples: ["A"] });
export type PressId = z.infer<typeof PressId>;

/** One blank in one colour and size, written `tee.navy.L`; what is counted. */
export const Sku = z
  .string()
  .regex(/^[a-z0-9-]{1,32}\.[a-z0-9-]{1,32}\.[A-Za-z0-9-]{1,8}$/, "must be written blank.colour.size")
  .brand<"Sku">()
  .meta({ id: "Sku", examples: ["tee.navy.L"] });
export type Sku = z.infer<typeof Sku>;

/** The sku of a blank in a colour and size. */
export function skuOf(blank: BlankId, colour: ColourId, size: SizeId): Sku {
  return `${blank}.${colour}.${size}` as Sku; // a brand can only be put on by a cast; the parts are checked ids
}

/** The n-th garment of order 127 is job `127-n`. */
export const JobId = z
  .string()
  .regex(/^[1-9][0-9]{2,5}-[1-9][0-9]?$/, "must be an order number, a hyphen and the garment's number")
  .brand<"JobId">()
  .meta({ id: "JobId", examples: ["127-1"] });
export type JobId = z.infer<typeof JobId>;

/** The id of the n-th garment (from 1) of an order. */
export function jobId(number: number, n: number): JobId {
  return `${number}-${n}` as JobId; // brand put on: the parts are whole numbers
}

/** The order number and garment number that a job id names. */
export function jobParts(job: JobId): { readonly number: number; readonly n: number } {
  const [number, n] = job.split("-");
  return { number: Number(number), n: Number(n) };
}

/** An opaque id for a customer: says nothing of the person, and is all that orders and the journal hold. */
export const CustomerId = z
  .string()
  .regex(/^[A-Za-z0-9_-]{16,32}$/)
  .brand<"CustomerId">()
  .meta({ id: "CustomerId" });
export type CustomerId = z.infer<typeof CustomerId>;
