/** Ids for tests from plain words: the only place that gives a brand without the schema's check. */
import type {
  BlankId,
  BundleId,
  ColourId,
  CustomerId,
  DesignId,
  FairId,
  JobId,
  OfferId,
  PressId,
  SizeId,
  Sku,
  StallId,
  WishId,
} from "../src/model/basics/ids.ts";

export const ids = {
  blank: (text: string) => text as BlankId,
  bundle: (text: string) => text as BundleId,
  colour: (text: string) => text as ColourId,
  customer: (text: string) => text as CustomerId,
  design: (text: string) => text as DesignId,
  fair: (text: string) => text as FairId,
  job: (text: string) => text as JobId,
  offer: (text: string) => text as OfferId,
  press: (text: string) => text as PressId,
  size: (text: string) => text as SizeId,
  sku: (text: string) => text as Sku,
  stall: (text: string) => text as StallId,
  wish: (text: string) => text as WishId,
} as const;
