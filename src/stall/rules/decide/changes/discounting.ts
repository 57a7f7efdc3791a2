/** Taking something off a price: of a whole order, or of some of its garments. */
import { jobId } from "../../../../model/basics/ids.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { jobIn, lineOf, withInstead } from "../../../state/orders.ts";
import type { Discount, Line } from "../../../state/shapes/line.ts";
import type { Order } from "../../../state/shapes/order.ts";
import type { StallState } from "../../../state/state.ts";
import { lineNet } from "../../../stock/bill.ts";
import { discountOn } from "../../../stock/pricing.ts";
import { accept, type Decision, type Of, refuse } from "../../commands.ts";
import { missing } from "../closing.ts";
import { repriced } from "./repricing.ts";

/**
 * An open order, or garments of it, at a lower price, in any stage; a discount on garments takes them out of every bundle.
 * The tax follows the lower price, and of a paid order the difference is to be given back. Refused if it is more than the price.
 */
export function discounted(state: StallState, menu: Menu, { number, jobs, off }: Of<"discounted">): Decision {
  const order = state.order(number);
  if (order === undefined) return refuse(missing(state, number));
  const unknown = jobs?.find((n) => jobIn(order, n) === undefined);
  if (unknown !== undefined) return refuse({ code: "no-such-job", job: jobId(number, unknown) });
  const lowered = jobs === undefined ? order : withLowered(order, jobs, off);
  if (lowered === null) return refuse({ code: "above-price", number });
  const before = repriced(menu, lowered, undefined).lines.reduce((sum, line) => sum + lineNet(line), 0);
  if (jobs === undefined && off !== null && discountOn(before, off.by) > before)
    return refuse({ code: "above-price", number });
  const whole = jobs === undefined ? off : order.discount;
  return accept({
    type: "changed",
    number,
    jobs: lowered.jobs,
    ...repriced(menu, lowered, whole ?? undefined),
    dueBy: order.dueBy,
  });
}

/** The order with some of its garments at a lower price of their own; null if that would be less than nothing. */
function withLowered(
  order: Order,
  jobs: readonly number[],
  off: Pick<Discount, "by" | "reason"> | null,
): Order | null {
  let after = order;
  for (const n of jobs) {
    const job = jobIn(after, n);
    if (job === undefined) return null;
    const { lowered: _, off: __, ...line } = lineOf(after, job);
    const by = off === null ? 0 : discountOn(line.each, off.by);
    if (by > line.each) return null;
    const cheaper: Line = off === null ? line : { ...line, lowered: { by, reason: off.reason } };
    after = withInstead(after, n, cheaper);
  }
  return after;
}
