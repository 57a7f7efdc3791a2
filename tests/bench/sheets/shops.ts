/** Seeded shops to plan gang sheets for: invented designs, sheet sizes, price tables and minimum copies. */
import { type Random, seededRandom } from "../../../src/maths/random.ts";
import { SheetRequest } from "../../../src/model/planning/sheets.ts";

/** Sheet sizes a print shop may offer, in inches (common practice, no source). */
const SIZES = [
  [11.25, 14],
  [12, 18],
  [16, 20],
  [22, 24],
] as const;

/** Two to twelve designs, a third of them small, on one to three sheet sizes. */
export function inventedShop(seed: number): SheetRequest {
  const random = seededRandom(7_000 + seed);
  const offered = Array.from({ length: 1 + random.below(3) }, () => random.pick(SIZES));
  const sizes = [...new Set(offered)].sort((a, b) => a[0] * a[1] - b[0] * b[1]);
  const [smallest] = sizes;
  const rate = 5 + random.below(6); // minor units a square inch at the first line of a price table
  const designs = Array.from({ length: 2 + random.below(11) }, (_, at) => {
    const small = random.chance(1 / 3);
    return {
      id: `design-${at + 1}`,
      name: `design ${at + 1}`,
      width: quarters(random, 1.5, small ? 4 : Math.min(10, (smallest?.[0] ?? 11) - 0.5)),
      height: quarters(random, 1, small ? 4 : 12),
      count: 4 + random.below(random.chance(0.3) ? 150 : 60),
      mayTurn: random.chance(0.8),
    };
  });
  return SheetRequest.parse({
    designs,
    sheets: sizes.map(([width, height]) => sizeOf(random, width, height, rate)),
    extraLayoutPrice: random.pick([0, 500, 1500, 3000]),
  });
}

function sizeOf(random: Random, width: number, height: number, rate: number) {
  const first = Math.round((width * height * rate * (0.85 + 0.3 * random.next())) / 5) * 5;
  const lines = [
    { copies: 1, share: 1 },
    { copies: random.pick([5, 10]), share: 0.8 },
    { copies: random.pick([20, 25]), share: 0.62 },
    { copies: random.pick([50, 100]), share: 0.5 },
  ].slice(0, 1 + random.below(4));
  return {
    id: `${width}x${height}`,
    name: `${width} x ${height} in`,
    width,
    height,
    margin: 0.25,
    gap: random.pick([0.125, 0.25]),
    minimumCopies: random.pick([1, 1, 5, 10]),
    prices: lines.map(({ copies, share }) => ({ copies, price: Math.round(first * share) })),
  };
}

/** A length in quarter inches, at least `least` and at most `most` inches. */
function quarters(random: Random, least: number, most: number): number {
  return (Math.round(least * 4) + random.below(Math.max(1, Math.round((most - least) * 4) + 1))) / 4;
}
