/** A garment of the rack in words: its kind, and why it is there. */
import type { RackGarment } from "../../../../model/orders/rack.ts";

/** "Longtail tee, Navy, L, Back print". */
export const rackWords = ({ name, colourName, sizeName, wishes = [] }: RackGarment): string =>
  [name, colourName, sizeName, ...wishes].join(", ");

const WHY: Readonly<Record<RackGarment["why"], string>> = {
  dropped: "Its order was cancelled",
  uncollected: "Not collected",
  returned: "Brought back, money given back",
  exchanged: "Brought back, exchanged",
  "wrong-size": "Pressed in the wrong size",
  misprint: "Misprint: sell it as a second",
  brought: "From an earlier fair",
  ahead: "Printed ahead",
};

/** Says why a garment hangs on the rack, or for whom it is kept. */
export const whyRacked = ({ why, keptFor }: RackGarment): string =>
  keptFor === null ? WHY[why] : `Paid on order ${keptFor} and not fetched: kept until the day is closed`;
