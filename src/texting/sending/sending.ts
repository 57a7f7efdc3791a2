/** What a stall needs of its fair's gateway to send texts on its own. */

import type { StallId } from "../../model/basics/ids.ts";
import type { GatewayMapping, OutboundMapping } from "../../model/fair/gateway.ts";
import type { Bindings } from "../bindings.ts";
import { numberOf } from "../mapping/own-number.ts";
import { digitsOf } from "../numbers.ts";

export type Sending = {
  /** Grows whenever any of this changes. */
  readonly version: number;
  readonly outbound: OutboundMapping;
  /** The number the stall's texts come from; may be a binding's slot. */
  readonly from: string;
  /** Whether other stalls send from the same number, so that every reply names its stall. */
  readonly shared: boolean;
  readonly prefixes: readonly string[];
  readonly segmentsPerSender: number;
};

type Numbers = GatewayMapping["numbers"];

/** The stalls that send from the shared number. */
const onOpenNumber = (numbers: Numbers, stalls: readonly StallId[]): readonly StallId[] =>
  stalls.filter((stall) => !numbers.some((number) => number.stall === stall));

/**
 * The stalls whose texts change when one is added: the new one, and the one that had the shared number alone. The
 * others learn of the new version with the answer to their next report.
 */
export function changedByAdding(
  numbers: Numbers,
  added: StallId,
  stalls: readonly StallId[],
): readonly StallId[] {
  const onOpen = onOpenNumber(numbers, stalls);
  return onOpen.length === 2 && onOpen.includes(added) ? onOpen : [added];
}

/** The sending settings of one of the fair's stalls. */
export function sendingFor(
  mapping: GatewayMapping,
  stall: StallId,
  stalls: readonly StallId[],
  version: number,
): Sending {
  const { numbers, outbound, prefixes, limits } = mapping;
  const own = numbers.find((number) => number.stall === stall);
  const open = numbers.find((number) => number.stall === undefined);
  return {
    version,
    outbound,
    from: (own ?? open ?? numbers[0])?.number ?? "",
    shared: own === undefined && onOpenNumber(numbers, stalls).length > 1,
    prefixes,
    segmentsPerSender: limits.segmentsPerSender,
  };
}

/** The stall that owns the number a text was sent to; null if the number is shared or not ours. */
export function ownerOf(numbers: Numbers, to: string, bindings: Bindings): StallId | null {
  const found = numbers.find(({ number }) => {
    const own = numberOf(number, bindings);
    return own !== null && digitsOf(own) === digitsOf(to);
  });
  return found?.stall ?? null;
}
