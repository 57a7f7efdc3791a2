/** Stock as it is counted and shown. */

import { z } from "zod";
import { DesignId, Sku } from "../basics/ids.ts";
import { plainText } from "../basics/words.ts";
import { RackGarment } from "./rack.ts";

const pieces = (least: number) => z.int().min(least).max(100_000);

const reason = plainText(80).optional();

/** One line of a stock sheet: a count, a delivery or a correction. */
export const StockEntry = z
  .union([
    z.strictObject({ sku: Sku, counted: pieces(0), reason }),
    z.strictObject({ sku: Sku, delivered: pieces(1), reason }),
    z.strictObject({ sku: Sku, corrected: pieces(-100_000), reason }),
    z.strictObject({ design: DesignId, counted: pieces(0), reason }),
    z.strictObject({ design: DesignId, delivered: pieces(1), reason }),
    z.strictObject({ design: DesignId, corrected: pieces(-100_000), reason }),
  ])
  .meta({
    id: "StockEntry",
    description:
      "counted: all that is not pressed yet, what lies on a press included; delivered: pieces added; corrected: pieces added or taken away (negative)",
  });
export type StockEntry = z.infer<typeof StockEntry>;

export const StockChange = z
  .strictObject({ entries: z.array(StockEntry).min(1).max(2000) })
  .meta({ id: "StockChange" });
export type StockChange = z.infer<typeof StockChange>;

const off = z.boolean().default(true).describe("false puts it back");

/** A blank or a transfer that nothing new is to be promised of. */
export const OffMenu = z
  .union([z.strictObject({ sku: Sku, off }), z.strictObject({ design: DesignId, off })])
  .meta({ id: "OffMenu" });

const counts = {
  onHand: z.int().min(0),
  promised: z.int().min(0),
  free: z.int().min(0),
};

export const StockView = z
  .strictObject({
    skus: z.array(z.strictObject({ sku: Sku, ...counts })),
    transfers: z.array(z.strictObject({ design: DesignId, ...counts })),
    rack: z
      .array(RackGarment)
      .optional()
      .describe("Pressed garments that nobody took, the longest there first"),
  })
  .meta({ id: "Stock" });
export type StockView = z.infer<typeof StockView>;
