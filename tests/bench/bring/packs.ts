/**
 * Fairs with packs, a budget, owned stock and a van all at once. Their days are lived, and their stock bettered, by code of
 * its own: it shares nothing with the planner but the request, whose every figure is certain, so that both know the
 * same demand.
 */
import type { PlanRequestSent } from "../../../src/model/planning/plan-request.ts";

type Piece = {
  readonly id: string;
  readonly cost: number;
  readonly worth: number;
  readonly owned: number;
  readonly pack: number;
  readonly inVan: boolean;
};
type Product = {
  readonly blank: number;
  readonly transfer: number;
  readonly price: number;
  readonly share: number;
};
export type Case = {
  readonly request: PlanRequestSent;
  readonly pieces: readonly Piece[];
  readonly products: readonly Product[];
  readonly asks: number;
  readonly budget: number;
  readonly van: number;
};
/** Products asked for, one after another. */
export type LivedDay = Uint16Array;

/** Numbers in [0, 1) by a linear congruence modulo 2^32 (Press et al., Numerical Recipes, section 7.1), its upper bits. */
function randomOf(seed: number): () => number {
  let state = (seed * 2_654_435_761) >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
}

const PEOPLE = 2000;
const SIZES = ["S", "M", "L", "XL"] as const;

export function caseOf(seed: number): Case {
  const random = randomOf(seed);
  const among = <T>(list: readonly [T, ...T[]]): T => list[Math.floor(random() * list.length)] ?? list[0];
  const blanks = among([1, 2]);
  const designs = among([2, 3, 4]);
  const colours = ["navy", "sand"].slice(0, among([1, 2]));
  const sizes = SIZES.slice(0, among([3, 4]));
  const rate = 0.02 + 0.03 * random();
  const weights = (count: number) => Array.from({ length: count }, () => 1 + Math.floor(random() * 8));
  const shares = (list: readonly number[]) =>
    list.map((one) => one / list.reduce((sum, other) => sum + other, 0));
  const pieces: Piece[] = [];
  const skus: { sku: string; owned: number }[] = [];
  const blankRows = Array.from({ length: blanks }, (_, at) => ({
    id: `blank-${at}`,
    cost: 3 + Math.floor(random() * 4),
    casePack: among([6, 12]),
    colours: weights(colours.length),
    sizes: weights(sizes.length),
  }));
  for (const { id, cost, casePack } of blankRows)
    for (const colour of colours)
      for (const size of sizes) {
        const owned = random() < 0.3 ? Math.floor(random() * 9) : 0;
        const sku = `${id}.${colour}.${size}`;
        if (owned > 0) skus.push({ sku, owned });
        pieces.push({ id: sku, cost: cost * 100, worth: cost * 80, owned, pack: casePack, inVan: true });
      }
  const designRows = Array.from({ length: designs }, (_, at) => ({
    id: `design-${at}`,
    cost: 1 + Math.floor(random() * 3),
    owned: random() < 0.3 ? Math.floor(random() * 12) : 0,
  }));
  for (const { id, cost, owned } of designRows)
    pieces.push({ id, cost: cost * 100, worth: 0, owned, pack: 1, inVan: false });
  const offers = blankRows.flatMap(({ id }) =>
    designRows.map((design) => ({ blank: id, design: design.id })),
  );
  const offerWeights = weights(offers.length);
  const offerShares = shares(offerWeights);
  const price = 18 + Math.floor(random() * 10);
  const at = (id: string): number => pieces.findIndex((one) => one.id === id);
  const products = offers.flatMap(({ blank, design }, offer) => {
    const row = blankRows.find(({ id }) => id === blank);
    const [ofColour, ofSize] = [shares(row?.colours ?? []), shares(row?.sizes ?? [])];
    return colours.flatMap((colour, c) =>
      sizes.map((size, s) => ({
        blank: at(`${blank}.${colour}.${size}`),
        transfer: at(design),
        price: price * 100,
        share: (offerShares[offer] ?? 0) * (ofColour[c] ?? 0) * (ofSize[s] ?? 0),
      })),
    );
  });
  const asks = PEOPLE * rate;
  const full = asks * (pieces[0]?.cost ?? 0) + asks * 200;
  const budget = Math.round((full * (0.4 + 0.5 * random())) / 100);
  const van = Math.round(asks * (0.7 + 0.6 * random()));
  const sure = 100_000;
  return {
    pieces,
    products,
    asks,
    budget: budget * 100,
    van,
    request: {
      currency: "USD",
      seed: seed + 1,
      traffic: { kind: "total", passersBy: { low: PEOPLE, likely: PEOPLE, high: PEOPLE } },
      buying: {
        share: { low: rate, likely: rate, high: rate },
        bunching: 0,
        sureness: sure,
      },
      blanks: blankRows.map(({ id, cost, casePack, colours: ofColour, sizes: ofSize }) => ({
        id,
        cost,
        casePack,
        sureness: sure,
        colours: colours.map((colour, c) => ({ id: colour, share: ofColour[c] ?? 1 })),
        sizes: sizes.map((size, s) => ({ id: size, share: ofSize[s] ?? 1 })),
      })),
      skus,
      designs: designRows.map(({ id, cost, owned }) => ({ id, cost, owned })),
      offers: offers.map(({ blank, design }, offer) => ({
        id: `offer-${offer}`,
        blank,
        design,
        price,
        share: offerWeights[offer] ?? 1,
      })),
      limits: { budget, van: { pieces: van } },
    },
  };
}

/** Days of the case: orders as a Poisson number (Knuth's product of uniforms, in parts), each for a product by its share. */
export function daysFor({ products, asks }: Case, count: number, seed: number): readonly LivedDay[] {
  const random = randomOf(seed);
  const upTo: number[] = [];
  for (const { share } of products) upTo.push((upTo.at(-1) ?? 0) + share);
  const poisson = (mean: number): number => {
    if (mean > 20) return poisson(mean / 2) + poisson(mean / 2);
    let [events, product] = [-1, 1];
    for (const least = Math.exp(-mean); product >= least; events++) product *= random();
    return events;
  };
  return Array.from({ length: count }, () =>
    Uint16Array.from({ length: poisson(asks) }, () => {
      const drawn = random() * (upTo.at(-1) ?? 1);
      return Math.max(
        0,
        upTo.findIndex((share) => drawn < share),
      );
    }),
  );
}

export type Judged = { readonly profit: number; readonly gross: number };

/** Mean profit and takings: first come, first served; what is left keeps its worth, what was owned had it before. */
export function judge(
  { pieces, products }: Case,
  stock: readonly number[],
  days: readonly LivedDay[],
): Judged {
  const left = new Int32Array(pieces.length);
  const blanks = Int32Array.from(products, ({ blank }) => blank);
  const transfers = Int32Array.from(products, ({ transfer }) => transfer);
  const price = products[0]?.price ?? 0;
  let sold = 0;
  let worth = 0;
  for (const day of days) {
    left.set(stock);
    for (const product of day) {
      const blank = blanks[product] ?? 0;
      const transfer = transfers[product] ?? 0;
      if ((left[blank] ?? 0) === 0 || (left[transfer] ?? 0) === 0) continue;
      left[blank] = (left[blank] ?? 0) - 1;
      left[transfer] = (left[transfer] ?? 0) - 1;
      sold++;
    }
    pieces.forEach((piece, at) => {
      worth += (left[at] ?? 0) * piece.worth;
    });
  }
  const fixed = pieces.reduce(
    (sum, { cost, worth: each, owned }, at) =>
      sum + Math.max(0, (stock[at] ?? 0) - owned) * cost + each * Math.min(owned, stock[at] ?? 0),
    0,
  );
  const gross = (sold * price) / days.length;
  return { gross, profit: gross + worth / days.length - fixed };
}

export function fits({ pieces, budget, van }: Case, stock: readonly number[]): boolean {
  let [paid, load] = [0, 0];
  for (const [at, { cost, owned, inVan }] of pieces.entries()) {
    const count = stock[at] ?? 0;
    paid += Math.max(0, count - owned) * cost;
    if (inVan) load += count;
  }
  return paid <= budget && load <= van;
}

/**
 * Betters a stock until no move does: a pack more or less of one piece; a pack of one for a pack of another; a pack of a
 * blank with as many transfers of one design, bought, given up or put in the place of others.
 */
export function bettered(of: Case, from: readonly number[], days: readonly LivedDay[]): number[] {
  let best = [...from];
  let most = judge(of, best, days).profit;
  const { pieces } = of;
  const step = (stock: number[], at: number, packs: number): boolean => {
    const { owned, pack } = pieces[at] ?? { owned: 0, pack: 1 };
    const bought = (stock[at] ?? 0) - owned;
    // Owned pieces come along by the piece; what is bought comes in packs.
    const next =
      bought < 0 || (bought === 0 && packs < 0) ? (stock[at] ?? 0) + packs : owned + bought + packs * pack;
    stock[at] = bought < 0 && next > owned ? owned : next;
    return next >= 0;
  };
  const singles = pieces.map((_, at) => at);
  const moves: (readonly (readonly [number, number])[])[] = [];
  for (const at of singles) for (const by of [1, -1]) moves.push([[at, by]]);
  for (const up of singles)
    for (const down of singles)
      if (up !== down)
        moves.push([
          [up, 1],
          [down, -1],
        ]);
  for (const blank of singles.filter((at) => pieces[at]?.inVan === true))
    for (const transfer of singles.filter((at) => pieces[at]?.inVan === false))
      for (const many of [2, 4, 6])
        for (const by of [1, -1]) {
          moves.push([
            [blank, by],
            [transfer, by * many],
          ]);
          for (const other of singles)
            if (other !== blank && pieces[other]?.inVan === true)
              moves.push([
                [blank, by],
                [transfer, many],
                [other, -by],
              ]);
        }
  for (let moved = true; moved; ) {
    moved = false;
    for (const move of moves) {
      const tried = [...best];
      if (!move.every(([at, by]) => step(tried, at, by)) || !fits(of, tried)) continue;
      const { profit } = judge(of, tried, days);
      if (profit <= most + 1e-6) continue;
      [best, most, moved] = [tried, profit, true];
    }
  }
  return best;
}
