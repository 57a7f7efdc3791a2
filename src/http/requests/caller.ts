/** Who makes a request, once its key or token has been checked. */

import type { CustomerId } from "../../model/basics/ids.ts";

/**
 * The caller, as the route's door has found. The fair or stall must still accept the key's generation, since it knows
 * the newest one.
 */
export type Caller =
  | { readonly role: "owner" }
  | { readonly role: "organiser"; readonly generation: number }
  | { readonly role: "crew"; readonly generation: number }
  /** At a press alone: it has the generation of the crew's key, and ends with it. */
  | { readonly role: "press"; readonly generation: number }
  | { readonly role: "customer"; readonly customer: CustomerId }
  | { readonly role: "claim" }
  | { readonly role: "stranger" };
