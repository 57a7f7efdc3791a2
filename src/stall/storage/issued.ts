/** Tokens and claims that customers got at this stall's earlier place: its file holds hashes of them. */
import type { Store } from "./records.ts";

export const ISSUED = "issued:";

/** The name under which hashes of a customer's token or an order's claim are kept. */
export const tokenName = (customer: string): string => `customer.${customer}`;
export const claimName = (number: number): string => `claim.${number}`;

/** Whether a key with this name and hash was given out at an earlier place. */
export function wasIssued(store: Store, name: string, hash: string): boolean {
  const hashes = store.get(ISSUED + name) as readonly string[] | undefined; // written under this prefix only
  return hashes?.includes(hash) === true;
}
