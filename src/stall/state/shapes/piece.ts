/** What is counted of a stall's stock. */

import type { DesignId, Sku } from "../../../model/basics/ids.ts";
import type { Instant } from "../../../time/instants.ts";

/** What is counted: a blank of one sku, or a design's transfer. */
export type PieceKey = `sku:${Sku}` | `transfer:${DesignId}`;

/**
 * The history of one piece in numbers. What is on hand follows from them, so that
 * `opening + delivered + corrected - pressed - spoiled = onHand` cannot be broken.
 */
export type Count = {
  readonly opening: number;
  readonly delivered: number;
  readonly corrected: number;
  readonly pressed: number;
  readonly spoiled: number;
  /** The opening in which it was last ordered, and how many orders had taken before. */
  readonly day?: { readonly opens: Instant; readonly used: number };
};
