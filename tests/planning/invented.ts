import { seededRandom } from "../../src/maths/random.ts";
import { PlanRequest, type PlanRequestSent } from "../../src/model/planning/plan-request.ts";

/** A request with every default filled in; throws if it is not valid. */
export function request(sent: PlanRequestSent): PlanRequest {
  return PlanRequest.parse(sent);
}

export type Invented = {
  readonly seed: number;
  readonly blanks: number;
  readonly colours: number;
  readonly sizes: number;
  readonly designs: number;
  readonly passersBy: number;
  readonly scenarios: number;
};

const SIZE_NAMES = ["S", "M", "L", "XL", "2XL", "3XL"];

/** An invented fair of a given size, with prices, costs and shares drawn from a seed; no limits of any kind. */
export function inventedFair(size: Invented): PlanRequestSent {
  const random = seededRandom(size.seed);
  const money = (low: number, high: number) => Math.round((low + random.next() * (high - low)) * 100) / 100;
  const shares = (count: number) => {
    const raw = Array.from({ length: count }, () => 0.3 + random.next());
    const sum = raw.reduce((total, value) => total + value, 0);
    return raw.map((value) => value / sum);
  };
  const ids = (what: string, count: number) =>
    Array.from({ length: count }, (_, index) => `${what}-${index + 1}`);
  const offers = ids("blank", size.blanks).flatMap((blank) =>
    ids("design", size.designs).map((design) => ({ blank, design })),
  );
  const offerShares = shares(offers.length);
  const prices = ids("blank", size.blanks).map(() => money(14, 32));
  return {
    name: "An invented fair",
    seed: size.seed,
    scenarios: size.scenarios,
    traffic: {
      kind: "total",
      passersBy: { low: size.passersBy * 0.6, likely: size.passersBy, high: size.passersBy * 1.5 },
    },
    buying: {
      share: { low: 0.025, likely: 0.04, high: 0.06 },
      garmentsPerOrder: [
        { garments: 1, share: 0.75 },
        { garments: 2, share: 0.25 },
      ],
    },
    blanks: ids("blank", size.blanks).map((id) => {
      const colours = shares(size.colours);
      const sizes = shares(size.sizes);
      return {
        id,
        cost: money(2.5, 7),
        leftoverWorth: money(0.5, 0.9),
        colours: ids("colour", size.colours).map((colour, index) => ({
          id: colour,
          share: colours[index] ?? 0,
        })),
        sizes: SIZE_NAMES.slice(0, size.sizes).map((one, index) => ({ id: one, share: sizes[index] ?? 0 })),
      };
    }),
    designs: ids("design", size.designs).map((id) => ({ id, cost: money(1, 4) })),
    offers: offers.map(({ blank, design }, index) => ({
      id: `${design}-on-${blank}`,
      blank,
      design,
      price: (prices[ids("blank", size.blanks).indexOf(blank)] ?? 20) + money(-2, 2),
      share: offerShares[index] ?? 0,
    })),
  };
}
