/** Pickup numbers and words, of one order and of the blocks that counters have beforehand; and turns in line. */
import type { Language } from "../../../model/basics/words.ts";
import { BLOCK_SIZE } from "../../../model/orders/block-size.ts";
import type { DeviceId, Numbered } from "../../../model/orders/counter.ts";
import { blockOf, isUsable, isWordTaken, numberAfter } from "../../state/pickup-numbers.ts";
import type { StallEvent } from "../../state/shapes/event.ts";
import type { Order } from "../../state/shapes/order.ts";
import type { StallState } from "../../state/state.ts";
import { accept, type Decision, type Of } from "../commands.ts";
import { pickupWord } from "./pickup-words.ts";

/** More devices than a stall has. A browser that loses its storage asks for a block as a new device. */
const DEVICES_MOST = 12;

/** The number and word of an order: those its customer has if no other order has the number, else new ones. */
export function numberedFor(state: StallState, { paper, block, chance, language }: Of<"place">): Numbered {
  if (block !== undefined && isUsable(state, block.device, block.number)) {
    const given = blockOf(state, block.device).find(({ number }) => number === block.number);
    return given ?? { number: block.number, word: block.word };
  }
  return {
    number: paper?.number ?? state.status.nextNumber,
    word: pickupWord(chance, language ?? languageOf(state), (word) => isWordTaken(state, word)),
  };
}

const languageOf = ({ menu }: StallState): Language => menu?.language ?? "en";

/**
 * The order that a command asks for a second time, after its idempotency key was forgotten: it has the number, the word
 * and the garments of the command's block.
 */
export function sameOrder(state: StallState, { block, lines }: Of<"place">): Order | undefined {
  const order = block === undefined ? undefined : state.anyOrder(block.number);
  if (order?.word !== block?.word || order?.takenBy !== "counter") return undefined;
  const areSame = order.lines.every((line, index) => {
    const { offer, colour, size, quantity } = lines[index] ?? {};
    const isSame = line.offer === offer && line.colour === colour && line.size === size;
    return isSame && line.quantity === quantity;
  });
  return areSame && order.lines.length === lines.length ? order : undefined;
}

/** Fills a device's block up to its size. Numbers given but never received count, so that none is wasted. */
export function giveNumbers(state: StallState, command: Of<"give-numbers">): Decision {
  const { device, have, after, chances } = command;
  const underWay = blockOf(state, device).filter(({ number }) => number > after);
  const missing = BLOCK_SIZE - have - underWay.length;
  if (missing <= 0) return accept();
  const words = new Set<string>();
  const numbers: Numbered[] = [];
  for (let number = state.status.nextNumber; numbers.length < missing; number = numberAfter(number)) {
    const chance = chances[numbers.length] ?? 0;
    const word = pickupWord(chance, languageOf(state), (one) => words.has(one) || isWordTaken(state, one));
    words.add(word);
    numbers.push({ number, word });
  }
  return accept(...oldestLetGo(state, device), { type: "numbers-given", device, numbers });
}

/** Room for one more device: the one whose numbers are lowest is let go. */
function oldestLetGo(state: StallState, device: string): readonly StallEvent[] {
  const { blocks } = state;
  if (blocks.get(device) !== undefined || blocks.size < DEVICES_MOST) return [];
  const first = (key: string): number => blocks.get(key)?.[0]?.number ?? 0;
  const oldest = [...blocks.keys()].reduce((one, other) => (first(other) < first(one) ? other : one));
  return [letGo(oldest)];
}

/** Releases all blocks once a day is closed. */
export const blocksLetGo = ({ blocks }: StallState): readonly StallEvent[] => [...blocks.keys()].map(letGo);

const letGo = (device: string): StallEvent => ({
  type: "numbers-let-go",
  device: device as DeviceId, // the table's keys are the ids of devices
});
/** Turn numbers reserved for each command, so that an order's garments have turns of their own. */

export const TURNS_PER_ORDER = 64;
/** A turn ahead of every garment now in line. */

export const headTurn = ({ version }: StallState, n: number): number => -(version + 1) * TURNS_PER_ORDER + n;
