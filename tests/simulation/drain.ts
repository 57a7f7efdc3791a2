/** A fixed backlog of two temperatures, worked off by one pull rule or another. */
import { seededRandom } from "../../src/maths/random.ts";
import { between, lognormal } from "./chances.ts";
import { garments } from "./fair-day.ts";
import { type Day, live } from "./floor.ts";
import { OPENS, openStall, simulatedMenu } from "./stall.ts";

type Span = readonly [number, number];

export type Backlog = {
  readonly garments: number;
  readonly presses: readonly number[];
  /** Share of the orders that need the second temperature. */
  readonly secondTemperatureShare: number;
  readonly fahrenheit: readonly [number, number];
  readonly climbsPerMinute: Span;
  readonly coolsPerMinute: Span;
};

type Work = {
  readonly menuSeconds: number;
  readonly trueToMenu: Span;
  readonly handlingVariation: number;
  readonly garmentsPerOrder: readonly number[];
};

/** Works a seeded backlog off; with `overtakenMost` 0 no garment is ever passed over. */
export function drain(
  backlog: Backlog,
  work: Work,
  seed: number,
  presses: number,
  rules: Readonly<Record<string, unknown>>,
): Day {
  const random = seededRandom(seed);
  const mean = work.menuSeconds * between(random, work.trueToMenu);
  const [buying, working, chance] = [random.fork(), random.fork(), random.fork()];
  const climbs = between(random, backlog.climbsPerMinute);
  const cools = between(random, backlog.coolsPerMinute);
  const menu = simulatedMenu({
    presses,
    garmentSeconds: work.menuSeconds,
    fahrenheit: backlog.fahrenheit,
    rules,
  });
  const arrivals = [];
  for (let count = 0; count < backlog.garments; ) {
    const offer = buying.chance(backlog.secondTemperatureShare) ? "offer-1" : "offer-0";
    const line = garments(buying, work.garmentsPerOrder, offer);
    arrivals.push({ at: OPENS, lines: [line] });
    count += line.quantity;
  }
  return live({
    state: openStall(menu, OPENS + 24 * 3_600_000),
    arrivals,
    breakdowns: [],
    hands: () => Number.POSITIVE_INFINITY,
    handsTold: [],
    takenBy: "counter",
    handlingSeconds: () => lognormal(working, mean, work.handlingVariation),
    changeSeconds: (_press, from, to) => (60 * Math.abs(to - from)) / (to > from ? climbs : cools),
    spoilShare: 0,
    chance,
  });
}
