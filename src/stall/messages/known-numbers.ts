/**
 * Which customer a number writes as. A customer's id is random and stays in the journal. Only the row from a number's
 * keyed hash to the id could tell whose it is, and that row is erased with names and numbers.
 */
import type { CustomerId } from "../../model/basics/ids.ts";
import type { UnitOfWork } from "../storage/unit-of-work.ts";

/** The customer of a number by its keyed hash; undefined if the number is not known here. */
export function knownCustomer({ people }: UnitOfWork, number: CustomerId): CustomerId | undefined {
  const known = people.known.get(number)?.customer;
  if (known !== undefined) return known;
  // In rows of earlier versions the keyed hash itself is the customer's id.
  const isEarlier =
    people.persons.get(number) !== undefined || people.conversations.get(number) !== undefined;
  return isEarlier ? number : undefined;
}

/** The customer of a number; one that is not known yet becomes the customer `fresh`. */
export function customerOfNumber(unit: UnitOfWork, number: CustomerId, fresh: CustomerId): CustomerId {
  const known = knownCustomer(unit, number);
  if (known !== undefined) return known;
  unit.people.known.set(number, { customer: fresh });
  return fresh;
}
