/** Seeded ganging problems, for tests and benches: an invented stall's designs on the common sheet. */
import { type Random, seededRandom } from "../../src/maths/random.ts";
import { SheetRequest } from "../../src/model/planning/sheets.ts";

/** The common sheet with a common margin and gap (common practice, no source), at invented prices. */
export const COMMON_SHEET = {
  id: "common",
  name: "common sheet",
  width: 11.25,
  height: 14,
  margin: 0.25,
  gap: 0.25,
  minimumCopies: 1,
  prices: [
    { copies: 1, price: 1200 },
    { copies: 10, price: 850 },
    { copies: 25, price: 640 },
    { copies: 50, price: 520 },
  ],
};

/** A length in quarter inches, at least `least` and at most `most` inches. */
function quarters(random: Random, least: number, most: number): number {
  return (Math.round(least * 4) + random.below(Math.round((most - least) * 4) + 1)) / 4;
}

/**
 * Two to eight designs, none so small that more than eight pieces of any kind fit on a sheet (each takes over a ninth
 * of it, its gap included), wanted 5 to 80 times.
 */
export function gangingProblem(seed: number): SheetRequest {
  const random = seededRandom(seed);
  const room = (COMMON_SHEET.width - 0.25) * (COMMON_SHEET.height - 0.25);
  const count = 2 + random.below(7);
  const designs: unknown[] = [];
  while (designs.length < count) {
    const width = quarters(random, 2, 10);
    const height = quarters(random, 2, 12);
    if ((width + 0.25) * (height + 0.25) * 9 <= room) continue;
    const id = `design-${designs.length + 1}`;
    designs.push({ id, name: id, width, height, count: 5 + random.below(76), mayTurn: random.chance(0.8) });
  }
  return SheetRequest.parse({
    designs,
    sheets: [{ ...COMMON_SHEET, minimumCopies: random.pick([1, 1, 5, 10]) }],
    extraLayoutPrice: random.pick([0, 1000, 2500]),
    cuts: random.chance(0.3) ? "guillotine" : "free",
  });
}
