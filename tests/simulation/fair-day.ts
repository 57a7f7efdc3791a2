/** A fair day drawn from a scenario: who comes when, how long each garment takes, what breaks. */
import { type Random, seededRandom } from "../../src/maths/random.ts";
import type { PressId } from "../../src/model/basics/ids.ts";
import { WantedLine } from "../../src/model/orders/order.ts";
import { arrivals, between, countBy, lognormal } from "./chances.ts";
import { type Day, type Floor, live } from "./floor.ts";
import { OPENS, openStall, PRESSES, simulatedMenu } from "./stall.ts";

type Span = readonly [number, number];

export type FairDays = {
  readonly hours: number;
  readonly presses: readonly number[];
  readonly menuSeconds: number;
  readonly trueToMenu: Span;
  readonly handlingVariation: number;
  readonly peakLoad: Span;
  /** Load on the hours, as shares of the peak's; between them it is drawn straight. */
  readonly loadByHour: readonly number[];
  readonly garmentsPerOrder: readonly number[];
  readonly breakdownMinutes: number;
  readonly spoilShare: number;
  /** Temperatures of the menu's designs, each as likely to be asked for. */
  readonly fahrenheit: readonly number[];
  readonly climbsPerMinute: Span;
  readonly coolsPerMinute: Span;
};

const HOUR = 3_600_000;

/** Value of a line drawn straight between the hours' values. */
function byHour(values: readonly number[], at: number): number {
  const hours = (at - OPENS) / HOUR;
  const index = Math.floor(hours);
  const before = values[index] ?? 0;
  return before + ((values[index + 1] ?? before) - before) * (hours - index);
}

export const garments = (random: Random, shares: readonly number[], offer: string): WantedLine =>
  WantedLine.parse({ offer, colour: "navy", size: "L", quantity: countBy(random, shares) });

export type FairDay = Day & { readonly presses: number; readonly load: number };

/** One seeded day from opening to the last garment. */
export function fairDay(scenario: FairDays, seed: number): FairDay {
  const random = seededRandom(seed);
  const presses = random.pick(scenario.presses);
  const mean = scenario.menuSeconds * between(random, scenario.trueToMenu);
  const load = between(random, scenario.peakLoad);
  const perOrder = scenario.garmentsPerOrder.reduce((sum, share, index) => sum + share * (index + 1), 0);
  const peakPerSecond = (load * presses) / (mean * perOrder);
  const closes = OPENS + scenario.hours * HOUR;
  const [coming, buying, working, breaking] = [random.fork(), random.fork(), random.fork(), random.fork()];
  const menu = simulatedMenu({
    presses,
    garmentSeconds: scenario.menuSeconds,
    fahrenheit: scenario.fahrenheit,
  });
  const [climbs, cools] = [
    between(random, scenario.climbsPerMinute),
    between(random, scenario.coolsPerMinute),
  ];
  const length = scenario.breakdownMinutes * 60_000;
  const floor: Floor = {
    state: openStall(menu, closes),
    arrivals: arrivals(coming, OPENS, closes, peakPerSecond, (at) => byHour(scenario.loadByHour, at)).map(
      (at) => ({
        at,
        lines: [
          garments(buying, scenario.garmentsPerOrder, `offer-${buying.below(scenario.fahrenheit.length)}`),
        ],
      }),
    ),
    breakdowns: PRESSES.slice(0, presses).map((press) => {
      const from = Math.round(between(breaking, [OPENS, closes]));
      return { press: press as PressId, from, until: from + length }; // a brand for the menu's own ids
    }),
    takenBy: "text",
    handlingSeconds: () => lognormal(working, mean, scenario.handlingVariation),
    changeSeconds: (_press, from, to) => (60 * Math.abs(to - from)) / (to > from ? climbs : cools),
    spoilShare: scenario.spoilShare,
    chance: random.fork(),
  };
  return { ...live(floor), presses, load };
}
