/** Pickup numbers: their order, and the blocks that counters hold in advance. */
import type { DeviceId, Numbered } from "../../model/orders/counter.ts";
import { PAPER_NUMBERS } from "../../model/orders/place-order.ts";
import type { StallState } from "./state.ts";

/** The number after this one; those kept for paper are stepped over. */
export const numberAfter = (number: number): number =>
  number + 1 === PAPER_NUMBERS.first ? PAPER_NUMBERS.last + 1 : number + 1;

const isPaper = (number: number): boolean => number >= PAPER_NUMBERS.first && number <= PAPER_NUMBERS.last;

/** The unused numbers of a device's block, lowest first; none if it was let go. */
export const blockOf = ({ blocks }: StallState, device: DeviceId): readonly Numbered[] =>
  blocks.get(device) ?? [];

/**
 * Whether a device's order may have this number: it was given out once, and no other order or device has it. A number
 * is never given out again, so a number of a released block is still good.
 */
export function isUsable(state: StallState, device: DeviceId, number: number): boolean {
  if (number >= state.status.nextNumber || isPaper(number) || state.anyOrder(number) !== undefined)
    return false;
  for (const other of state.blocks.keys())
    if (other !== device && state.blocks.get(other)?.some((one) => one.number === number)) return false;
  return true;
}

/** Whether an open order or a block has this pickup word. */
export function isWordTaken(state: StallState, word: string): boolean {
  if ((state.orderIndex.words.get(word) ?? 0) > 0) return true;
  return [...state.blocks.values()].some((block) => block.some((one) => one.word === word));
}
