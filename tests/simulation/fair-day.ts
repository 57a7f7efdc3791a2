/** A fair day drawn from a scenario: who comes when, how long each garment takes, what breaks. */

import { type Random, seededRandom } from "../../src/maths/random.ts";
import { WantedLine } from "../../src/model/orders/order.ts";
import { ids } from "../ids.ts";
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
  /** How many can work at once, drawn for each day and told to the stall at opening; absent: one for each press. */
  readonly hands?: readonly number[];
  /** A share of garments takes several times as long. */
  readonly tail?: { readonly share: number; readonly times: number } | null;
  /** Parties that come at once. */
  readonly partiesPerHour?: number;
  readonly partyOrders?: number;
  /** In place of one breakdown a press at any time: these, of the first press. */
  readonly breakdowns?: readonly {
    readonly fromHour: number;
    readonly minutes: number;
    readonly told: boolean;
  }[];
  /** From an hour on, garments take `pace` times as long as at first, and this many people work. */
  readonly changes?: readonly {
    readonly atHour: number;
    readonly pace: number;
    readonly hands: number | null;
    readonly told: boolean;
  }[];
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

/** A line takes six at most: what a team orders is several. */
const MOST_A_LINE = 6;
const inLines = ({ quantity, ...line }: WantedLine): readonly WantedLine[] =>
  Array.from({ length: Math.ceil(quantity / MOST_A_LINE) }, (_, index) => ({
    ...line,
    quantity: Math.min(MOST_A_LINE, quantity - index * MOST_A_LINE),
  }));

export type FairDay = Day & { readonly presses: number; readonly load: number };

/** Instants at which orders come: one by one, and in parties within a minute. */
function comings(
  random: Random,
  scenario: FairDays,
  closes: number,
  peakPerSecond: number,
): readonly number[] {
  const single = arrivals(random, OPENS, closes, peakPerSecond, (at) => byHour(scenario.loadByHour, at));
  const { partiesPerHour = 0, partyOrders = 0 } = scenario;
  if (partiesPerHour === 0) return single;
  const parties = arrivals(random, OPENS, closes, partiesPerHour / 3600, () => 1).flatMap((at) =>
    Array.from({ length: partyOrders }, () => at + Math.round(60_000 * random.next())),
  );
  return [...single, ...parties].filter((at) => at < closes).sort((one, other) => one - other);
}

function breakdownsOf(
  random: Random,
  scenario: FairDays,
  presses: number,
  closes: number,
): Floor["breakdowns"] {
  if (scenario.breakdowns !== undefined)
    return scenario.breakdowns.map(({ fromHour, minutes, told }) => {
      const from = OPENS + fromHour * HOUR;
      return { press: ids.press(PRESSES[0]), from, until: from + minutes * 60_000, told };
    });
  return PRESSES.slice(0, presses).map((press) => {
    const from = Math.round(between(random, [OPENS, closes]));
    return { press: ids.press(press), from, until: from + scenario.breakdownMinutes * 60_000, told: true };
  });
}

/** One seeded day from opening to the last garment. */
export function fairDay(scenario: FairDays, seed: number): FairDay {
  const random = seededRandom(seed);
  const presses = random.pick(scenario.presses);
  const mean = scenario.menuSeconds * between(random, scenario.trueToMenu);
  const load = between(random, scenario.peakLoad);
  const perOrder = scenario.garmentsPerOrder.reduce((sum, share, index) => sum + share * (index + 1), 0);
  const hands = scenario.hands === undefined ? presses : random.pick(scenario.hands);
  const peakPerSecond = (load * Math.min(presses, hands)) / (mean * perOrder);
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
  const changes = (scenario.changes ?? []).map((change) => ({ ...change, at: OPENS + change.atHour * HOUR }));
  const lastChange = (at: number) => changes.findLast((change) => change.at <= at);
  const handsAt = (at: number): number =>
    changes.findLast((change) => change.at <= at && change.hands !== null)?.hands ?? hands;
  const tailed = (): number => {
    const { tail } = scenario;
    return tail !== undefined && tail !== null && working.chance(tail.share) ? tail.times : 1;
  };
  const floor: Floor = {
    state: openStall(menu, closes),
    arrivals: comings(coming, scenario, closes, peakPerSecond).map((at) => ({
      at,
      lines: inLines(
        garments(buying, scenario.garmentsPerOrder, `offer-${buying.below(scenario.fahrenheit.length)}`),
      ),
    })),
    breakdowns: breakdownsOf(breaking, scenario, presses, closes),
    takenBy: "text",
    hands: handsAt,
    handsTold: [
      ...(scenario.hands === undefined ? [] : [{ at: OPENS, hands }]),
      ...changes.flatMap(({ at, hands: left, told }) => (told && left !== null ? [{ at, hands: left }] : [])),
    ],
    handlingSeconds: (at) =>
      lognormal(working, mean * (lastChange(at)?.pace ?? 1), scenario.handlingVariation) * tailed(),
    changeSeconds: (_press, from, to) => (60 * Math.abs(to - from)) / (to > from ? climbs : cools),
    spoilShare: scenario.spoilShare,
    chance: random.fork(),
  };
  return { ...live(floor), presses, load };
}
