/** Makes a failing run short: leaves acts out as long as the same rule still breaks. */
import { ACTS, type Run, run } from "./run.ts";

export type Shrunk = { readonly acts: readonly number[]; readonly fault: NonNullable<Run["fault"]> };

/** The acts without which a seed no longer fails in the same way; tries at most `most` runs. */
export async function shrink(seed: number, fault: NonNullable<Run["fault"]>, most: number): Promise<Shrunk> {
  let acts = Array.from({ length: Math.min(ACTS, fault.act + 1) }, (_, index) => index);
  let found = fault;
  let runs = 0;
  const fails = async (kept: readonly number[]): Promise<boolean> => {
    runs += 1;
    const keep = new Set(kept);
    const again = await run(seed, ({ index }) => keep.has(index));
    if (again.fault?.rule !== fault.rule) return false;
    found = again.fault;
    return true;
  };
  for (let size = acts.length >> 1; size >= 1 && runs < most; ) {
    let shorter = false;
    for (let from = acts.length - size; from > -size && runs < most; from -= size) {
      const kept = acts.filter((_, place) => place < from || place >= from + size);
      if (kept.length < acts.length && (await fails(kept))) {
        acts = kept;
        shorter = true;
      }
    }
    if (size === 1 && !shorter) break;
    size = Math.max(1, size >> 1);
  }
  return { acts, fault: found };
}
