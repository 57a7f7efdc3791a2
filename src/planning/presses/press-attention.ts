import type { PressSteps } from "./press-day.ts";

/** The time that a garment takes of presses and of hands, and when a closed press needs its person. */

/** Seconds that one garment holds a press, on average. */
export const pressSeconds = (steps: PressSteps): number =>
  steps.load + steps.dwells.reduce((sum, dwell) => sum + dwell, 0) + steps.peel + steps.unload;

/** Seconds of hands for one garment: also the dwell, if the press must be attended and no folding fits in. */
export function handSeconds(steps: PressSteps, opensItself: boolean): number {
  const work = steps.load + steps.peel + steps.unload + steps.fold;
  if (opensItself) return work;
  const dwell = steps.dwells.reduce((sum, each) => sum + each, 0);
  return work + (steps.fold <= Math.max(0, ...steps.dwells) ? dwell - steps.fold : dwell);
}

/** Seconds of hands on opening a press after its nth dwell: peel after the first, unload after the last. */
export function openSeconds(steps: PressSteps, dwell: number): number {
  const peel = dwell === 0 ? steps.peel : 0;
  return dwell === steps.dwells.length - 1 ? peel + steps.unload : peel;
}

/** A span of time in which a press wants its person. */
type Span = { readonly from: number; readonly to: number };

/** All the times at which a press closed for its nth dwell until `until` will want its person. */
export function attention(steps: PressSteps, pace: number, dwell: number, until: number): Span[] {
  const spans: Span[] = [];
  let from = until;
  for (let nth = dwell; nth < steps.dwells.length; nth++) {
    const to = from + openSeconds(steps, nth) * pace;
    spans.push({ from, to });
    from = to + (steps.dwells[nth + 1] ?? 0);
  }
  return spans;
}

/** Whether no span of one list overlaps a span of the other. */
export const apart = (some: readonly Span[], others: readonly Span[]): boolean =>
  some.every((one) => others.every((other) => one.to <= other.from || other.to <= one.from));
