/** How a customer can be told of something. */
import type { CustomerId } from "../model/ids.ts";
import type { PhoneNumber } from "../model/order.ts";
import { mayText } from "../texting/numbers.ts";
import type { Books } from "./books.ts";
import type { Order } from "./facts.ts";
import type { Person } from "./people.ts";

export type Reach =
  /** `lane`: the customer the number writes as; its texts go out in order. */
  | { readonly by: "text"; readonly to: PhoneNumber; readonly lane: CustomerId }
  /** Read in the conversation. */
  | { readonly by: "web"; readonly lane: CustomerId }
  /** Not at all: the crew calls the number out. */
  | { readonly by: "nothing"; readonly why: "call-out" | "opted-out" };

/** Where the number of a person may be sent texts: it wrote first, wants them, and is in an allowed country. */
export function textingReach(books: Books, customer: CustomerId, person: Person): Reach {
  const { phone } = person;
  const lane = person.writesAs ?? customer;
  const writer = person.writesAs === null ? person : books.people.person(person.writesAs);
  if (phone === null || !writer.wroteFirst) return { by: "nothing", why: "call-out" };
  if (writer.optedOut) return { by: "nothing", why: "opted-out" };
  const prefixes = books.people.sending.get("")?.prefixes;
  const allowed = prefixes === undefined || mayText(phone, prefixes);
  return allowed ? { by: "text", to: phone, lane } : { by: "nothing", why: "call-out" };
}

/** How the customer of an order is told: by text where that is possible, on the web where it was ordered there. */
export function reachOf(books: Books, { customer, takenBy }: Order): Reach {
  const reach = textingReach(books, customer, books.people.person(customer));
  return reach.by === "nothing" && takenBy === "web" ? { by: "web", lane: customer } : reach;
}
