/** The people of a stall's file at its new place, where their numbers have other keyed hashes. */

import type { StallPart } from "../../../model/accounts/whole-stall.ts";
import { CustomerId, type FairId, type StallId } from "../../../model/basics/ids.ts";
import type { NumberOf } from "../../../stall/calls/moving/loading.ts";
import type { Person } from "../../../stall/storage/people.ts";
import { customerAt, senderAt } from "../../../texting/keyed-hash.ts";

type PeopleAt = {
  readonly numbers: readonly NumberOf[];
  /** Keyed hashes, as the fair keeps them, of the numbers that said STOP. */
  readonly stopped: readonly CustomerId[];
};

/**
 * Maps each number to its customer, and lists those who said STOP. A number that was only typed on the web maps to
 * nobody.
 */
export async function peopleAt(
  { persons = [] }: StallPart,
  { fair, stall }: { readonly fair: FairId; readonly stall: StallId },
  opaqueId: (of: string) => Promise<CustomerId>,
): Promise<PeopleAt> {
  const numbers: NumberOf[] = [];
  const stopped: CustomerId[] = [];
  for (const [key, row] of persons) {
    const { phone, writesAs, optedOut } = row as Partial<Person>; // a row as a stall wrote it, or without effect here
    const customer = CustomerId.safeParse(key);
    if (typeof phone !== "string" || typeof writesAs === "string" || !customer.success) continue;
    numbers.push([await opaqueId(customerAt(fair, stall, phone)), customer.data]);
    if (optedOut === true) stopped.push(await opaqueId(senderAt(fair, phone)));
  }
  return { numbers, stopped };
}
