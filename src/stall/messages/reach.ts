/** How a customer can be reached. */
import type { CustomerId } from "../../model/basics/ids.ts";
import type { PhoneNumber } from "../../model/orders/order.ts";
import { mayText } from "../../texting/numbers.ts";
import type { Order } from "../state/shapes/order.ts";
import type { Person } from "../storage/people.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

export type Reach =
  /** `lane`: the customer the number writes as; its texts go out in order. */
  | { readonly by: "text"; readonly to: PhoneNumber; readonly lane: CustomerId }
  /** Read in the conversation. */
  | { readonly by: "web"; readonly lane: CustomerId }
  /** Not at all: the crew calls the number out. */
  | { readonly by: "nothing"; readonly why: "call-out" | "opted-out" };

/**
 * Where texts of an order may be sent: to the number that confirmed it, or else to the customer's own. That number wrote
 * first, wants texts, and is in an allowed country.
 */
function textingReach(unit: UnitOfWork, { number, customer }: Order): Reach {
  const { confirmed } = unit.people.atOrder(number);
  const lane = confirmed?.customer ?? customer;
  const writer = unit.people.person(lane);
  const phone = confirmed?.phone ?? ownNumber(writer);
  if (phone === null || !writer.wroteFirst) return { by: "nothing", why: "call-out" };
  if (writer.optedOut) return { by: "nothing", why: "opted-out" };
  const prefixes = unit.people.sending.get("")?.prefixes;
  const allowed = prefixes === undefined || mayText(phone, prefixes);
  return allowed ? { by: "text", to: phone, lane } : { by: "nothing", why: "call-out" };
}

/** The number a customer is known to have; one that was only typed on the web is not. */
export const ownNumber = ({ phone, writesAs = null }: Person): PhoneNumber | null =>
  writesAs === null ? phone : null;

/** How an order's customer is reached: by text if possible, on the web if the order came from there. */
export function reachOf(unit: UnitOfWork, order: Order): Reach {
  const reach = textingReach(unit, order);
  return reach.by === "nothing" && order.takenBy === "web" ? { by: "web", lane: order.customer } : reach;
}
