/** From the garments that a plan prints ahead to the stall's rack. */
import { type Fault, pointer } from "../model/basics/faults.ts";
import { CarriedGarment, MOST_ON_RACK } from "../model/orders/rack.ts";
import type { AcceptedPlan } from "../model/planning/accepted-plan.ts";

export type ReadyMade = {
  /** A garment each, as the counter sells them from the rack: those made for this fair, and those decorated already. */
  readonly rack: { readonly made: readonly CarriedGarment[]; readonly owned: readonly CarriedGarment[] };
  /** Notes for the crew: lines that the rack cannot hold, and why. */
  readonly check: readonly Fault[];
  /** Lines that name something the plan does not sell. */
  readonly faults: readonly Fault[];
};

/** `kinds` has the kind of transfer of each design. */
export function readyMade(
  { request, bring: { ready } }: AcceptedPlan,
  kinds: ReadonlyMap<string, string>,
): ReadyMade {
  const faults: Fault[] = [];
  const made: CarriedGarment[] = [];
  const kept: CarriedGarment[] = [];
  let [pieces, uncounted] = [0, 0];
  for (const [at, { offer: id, colour, size, bring, owned }] of ready.entries()) {
    if (bring === 0) continue;
    pieces += bring;
    const offer = request.offers.find((one) => one.id === id);
    const blank = request.blanks.find((one) => one.id === offer?.blank);
    if (colour === undefined || size === undefined) {
      uncounted += bring;
      continue;
    }
    const has = (list: readonly { readonly id: string }[] | undefined, one: string): boolean =>
      list?.some((row) => row.id === one) ?? false;
    const garment = CarriedGarment.safeParse({
      offer: id,
      blank: blank?.id,
      design: offer?.design,
      colour,
      size,
      platen: blank?.platen,
      kind: kinds.get(offer?.design ?? ""),
    });
    if (!garment.success || !has(blank?.colours, colour) || !has(blank?.sizes, size)) {
      const detail = `the plan sells no "${id}" in ${colour}, ${size}; leave the line out, or add it to the request`;
      faults.push({ pointer: pointer(["bring", "ready", at]), detail });
      continue;
    }
    const already = Math.min(owned, bring);
    const each = (length: number) => Array.from({ length }, () => garment.data);
    kept.push(...each(already));
    made.push(...each(bring - already));
  }
  const hung = made.length + kept.length;
  const beyond = Math.max(0, hung - MOST_ON_RACK);
  const check: Fault[] = [];
  const note = (detail: string) => check.push({ pointer: pointer(["bring", "ready"]), detail });
  if (hung > 0)
    note(
      `${hung - beyond} garments printed ahead hang on the rack: sell them at the counter, under Rack. The order page and texts offer only what is pressed at the stall`,
    );
  if (beyond + uncounted > 0)
    note(
      `${beyond + uncounted} of ${pieces} garments printed ahead are not on the rack, which takes ${MOST_ON_RACK} of known colour and size: keep count of those yourself`,
    );
  return {
    rack: {
      owned: kept.slice(0, MOST_ON_RACK),
      made: made.slice(0, Math.max(0, MOST_ON_RACK - kept.length)),
    },
    check,
    faults,
  };
}
