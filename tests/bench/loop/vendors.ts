/**
 * Vendors with a known truth that they do not know: they guess the usual shares, and differ from them and from fair to
 * fair. The figures are round numbers, no source. Nothing here shares code with the planner.
 */
import { drawPoisson } from "../../../src/maths/counts.ts";
import { drawDirichlet } from "../../../src/maths/dirichlet.ts";
import { standardNormal } from "../../../src/maths/normal-draw.ts";
import { type Random, seededRandom } from "../../../src/maths/random.ts";
import type { Lessons } from "../../../src/model/accounts/lessons.ts";
import type { PlanRequestSent } from "../../../src/model/planning/plan-request.ts";

const SIZES = { S: 0.14, M: 0.27, L: 0.29, XL: 0.19, "2XL": 0.11 };
const COLOURS = { black: 0.4, white: 0.35, sand: 0.25 };
const OFFERS = { heron: 1 / 3, otter: 1 / 3, kite: 1 / 3 };
const GUESSED_RATE = 0.03;
const PASSERS_BY = 2500;
const PRICE = 25;
const BLANK = 4.5;
const TRANSFER = 2.5;
/** The value of a leftover blank, as a share of its cost; a leftover transfer is worth nothing. */
const LEFT = 0.8;
const GARMENT_COSTS = 0.15;

/** How far a vendor is from the usual, and a fair from its vendor: larger is nearer. */
const VENDOR = { sizes: 60, colours: 20, offers: 12, rate: 0.25 };
const FAIR = { sizes: 120, colours: 60, offers: 40, rate: 0.15, crowd: 0.25 };

export type Truth = {
  readonly sizes: readonly number[];
  readonly colours: readonly number[];
  readonly offers: readonly number[];
  readonly rate: number;
};

const near = (around: readonly number[], weight: number, random: Random): number[] => [
  ...drawDirichlet(
    random,
    around.map((share) => share * weight),
  ),
];

export function vendorOf(random: Random): Truth {
  return {
    sizes: near(Object.values(SIZES), VENDOR.sizes, random),
    colours: near(Object.values(COLOURS), VENDOR.colours, random),
    offers: near(Object.values(OFFERS), VENDOR.offers, random),
    rate: GUESSED_RATE * Math.exp(VENDOR.rate * standardNormal(random)),
  };
}

export function fairOf(vendor: Truth, random: Random): Truth {
  return {
    sizes: near(vendor.sizes, FAIR.sizes, random),
    colours: near(vendor.colours, FAIR.colours, random),
    offers: near(vendor.offers, FAIR.offers, random),
    rate: vendor.rate * Math.exp(FAIR.rate * standardNormal(random)),
  };
}

const pick = (shares: readonly number[], random: Random): number => {
  let turn = random.next();
  const at = shares.findIndex((share) => {
    turn -= share;
    return turn < 0;
  });
  return at < 0 ? shares.length - 1 : at;
};

type Order = { readonly offer: number; readonly colour: number; readonly size: number };
type Day = { readonly passersBy: number; readonly orders: readonly Order[] };

/** A day as it comes: everybody who asks, whether or not there is stock. */
export function dayOf({ sizes, colours, offers, rate }: Truth, random: Random): Day {
  const passersBy = PASSERS_BY * Math.exp(FAIR.crowd * standardNormal(random));
  const count = drawPoisson(random, passersBy * rate);
  const orders = Array.from({ length: count }, () => ({
    offer: pick(offers, random),
    colour: pick(colours, random),
    size: pick(sizes, random),
  }));
  return { passersBy: Math.max(1, Math.round(passersBy)), orders };
}

/** The lessons of a day's account: every request counted, the crowd estimated. */
export function lessonsFrom({ passersBy, orders }: Day, fair: number): Lessons {
  const tally = (names: readonly string[], of: (order: Order) => number) =>
    names.map((name, at) => ({ name, asks: orders.filter((order) => of(order) === at).length }));
  return {
    id: `fair-${fair}`,
    fair: `Fair ${fair}`,
    day: `2027-0${3 + fair}-10`,
    sizes: tally(Object.keys(SIZES), ({ size }) => size).map(({ name, asks }) => ({
      blank: "tee",
      size: name,
      asks,
    })),
    colours: tally(Object.keys(COLOURS), ({ colour }) => colour).map(({ name, asks }) => ({
      blank: "tee",
      colour: name,
      asks,
    })),
    offers: tally(Object.keys(OFFERS), ({ offer }) => offer).map(({ name, asks }) => ({ offer: name, asks })),
    buying: { orders: orders.length, passersBy, passersByUncertainty: 0.15 },
    hours: [],
    handling: [],
  };
}

/** The vendor's request to the planner, with the lessons of earlier fairs, or with the truth about itself. */
export function requestOf(lessons: readonly Lessons[], known: Truth | null = null): PlanRequestSent {
  const rows = (shares: Readonly<Record<string, number>>, truth?: readonly number[]) =>
    Object.entries(shares).map(([id, share], at) => ({ id, share: truth?.[at] ?? share }));
  return {
    scenarios: 300,
    traffic: { kind: "total", passersBy: PASSERS_BY },
    buying: { share: known?.rate ?? GUESSED_RATE },
    blanks: [
      {
        id: "tee",
        cost: BLANK,
        leftoverWorth: LEFT,
        colours: rows(COLOURS, known?.colours),
        sizes: rows(SIZES, known?.sizes),
      },
    ],
    designs: Object.keys(OFFERS).map((id) => ({ id, cost: TRANSFER })),
    offers: rows(OFFERS, known?.offers).map(({ id, share }) => ({
      id,
      blank: "tee",
      design: id,
      price: PRICE,
      share,
    })),
    costs: { perGarment: GARMENT_COSTS },
    lessons: [...lessons],
  };
}

export type Stock = ReadonlyMap<string, number>;

/** The day's result: sales less stock, with a part of the value of leftover blanks. */
export function profitOf(stock: Stock, { orders }: Day): number {
  const left = new Map(stock);
  let sold = 0;
  for (const { offer, colour, size } of orders) {
    const sku = `tee.${Object.keys(COLOURS)[colour]}.${Object.keys(SIZES)[size]}`;
    const design = Object.keys(OFFERS)[offer] ?? "";
    const [blanks, transfers] = [left.get(sku) ?? 0, left.get(design) ?? 0];
    if (blanks === 0 || transfers === 0) continue;
    left.set(sku, blanks - 1);
    left.set(design, transfers - 1);
    sold++;
  }
  const sum = (of: Stock, isBlank: boolean) =>
    [...of].reduce((all, [id, pieces]) => (id.includes(".") === isBlank ? all + pieces : all), 0);
  const paid = BLANK * sum(stock, true) + TRANSFER * sum(stock, false);
  return sold * (PRICE - GARMENT_COSTS) - paid + LEFT * BLANK * sum(left, true);
}

export const randomFor = (vendor: number): Random => seededRandom(1000 + vendor);
