/** The acts of a simulated fair: a list made from one seed, each act with its own chance. */
import { seededRandom } from "../../../src/maths/random.ts";

export const CUSTOMER_ACTS = ["text", "web-order", "web-talk", "again"] as const;
export const CREW_ACTS = [
  "walk-up",
  "paper",
  "counter",
  "keep",
  "pull",
  "pressed",
  "spoiled",
  "undo-spoiled",
  "returned",
  "undo-pressed",
  "paid",
  "undo-paid",
  "claimed",
  "lift-claims",
  "changed",
  "discounted",
  "garment-refunded",
  "garment-exchanged",
  "undo-returned",
  "rack",
  "drawer",
  "left-out",
  "texted",
  "given-back",
  "closed",
  "undo-closed",
  "stock",
  "press",
  "reserve",
  "look",
  "hands",
  "pause",
  "intake",
  "menu",
  "key",
  "read",
  "day",
] as const;
export const MOVING_ACTS = ["carry", "rehearse", "save"] as const;
export const FAULT_ACTS = ["evict", "kill", "kill-after-commit", "refuse-write", "jump", "outage"] as const;
export type ActKind =
  | (typeof CUSTOMER_ACTS)[number]
  | (typeof CREW_ACTS)[number]
  | (typeof MOVING_ACTS)[number]
  | (typeof FAULT_ACTS)[number];

export type Act = {
  readonly index: number;
  readonly kind: ActKind;
  /** Milliseconds since the act before. */
  readonly gap: number;
  /** Its own chance, so that leaving another act out does not change this one. */
  readonly seed: number;
};

const USUAL: Partial<Record<ActKind, number>> = {
  text: 14,
  "web-order": 5,
  "walk-up": 4,
  counter: 4,
  pull: 10,
  pressed: 10,
  paid: 6,
  closed: 6,
  evict: 4,
};

/** Every seed has its own mixture: some acts never come, some come much more often. */
export function planOf(seed: number, acts: number): readonly Act[] {
  const random = seededRandom(seed * 2 + 1);
  const weights = [...CUSTOMER_ACTS, ...CREW_ACTS, ...FAULT_ACTS, ...MOVING_ACTS].map((kind) => {
    const swing = random.pick([0, 0.5, 1, 1, 1, 3]);
    return [kind, (USUAL[kind] ?? 1) * (USUAL[kind] === undefined ? swing : Math.max(0.3, swing))] as const;
  });
  const total = weights.reduce((sum, [, weight]) => sum + weight, 0);
  const pace = random.pick([2000, 8000, 20_000]);
  return Array.from({ length: acts }, (_, index): Act => {
    let left = random.next() * total;
    let kind: ActKind = "text";
    for (const [name, weight] of weights) {
      left -= weight;
      if (left < 0) {
        kind = name;
        break;
      }
    }
    return { index, kind, gap: random.below(2 * pace), seed: random.below(2 ** 31) };
  });
}
