import { toPitch } from "../../request/net.ts";
import type { Prepared, Stock } from "../../request/prepared.ts";

/** One kind of thing that can be brought, as the search for the best stock sees it. Sums are in minor units. */
export type Goods = Pick<
  Stock,
  "id" | "cost" | "breaks" | "worth" | "owned" | "minimum" | "maximum" | "pack" | "vanShare"
> & {
  /** The parts of a garment decorated beforehand; absent for goods brought as bought. */
  readonly made?: Made;
};

type Made = {
  /** Blank and transfer: their places among all stocks, and how many of each one garment takes, spoiled ones included. */
  readonly parts: readonly { readonly at: number; readonly stock: Stock; readonly pieces: number }[];
  /** The cost of the work on one. */
  readonly work: number;
};

/**
 * The ways to meet requests. A *way* makes one garment out of one or two kinds of goods: a blank and a transfer pressed
 * on site, a blank as it is, or a garment decorated beforehand.
 */
export type Shop = {
  readonly goods: readonly Goods[];
  /** For each way: the goods it uses; -1 if there is no second. */
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** For each way: its product, its platen (-1: none or no limit), and whether it may spoil. */
  readonly makes: Int32Array;
  readonly platen: Int8Array;
  readonly spoils: Uint8Array;
  /** Per way: what a sale leaves, and what the goods it uses would have been worth at home. */
  readonly net: Float64Array;
  readonly worthUsed: Float64Array;
  /** Per way: the part of its price that the pitch takes, and the least that the pitch takes of a fair. */
  readonly toPitch: Float64Array;
  readonly pitchAtLeast: number;
  /** Per way: what the goods it uses cost, if they are bought again overnight. */
  readonly costUsed: Float64Array;
  /** Ways a customer is content with, best first: those of product p and reaction r start at from[REACTIONS p + r]. */
  readonly calm: Lists;
  /** The same when the presses are behind or the day is nearly over: ready-made garments come first. */
  readonly busy: Lists;
  readonly presses: readonly { readonly count: number; readonly seconds: number }[];
  /** A wait in minutes beyond which, and a time of day after which, ready-made garments are reached for first. */
  readonly busyWait: number;
  readonly busyFrom: number;
  /** Days of the fair, and whether each begins with the full stock. */
  readonly days: number;
  readonly restocks: boolean;
};

/** What a customer does whose choice is gone: walks, or takes another colour, another design or a neighbouring size. */
export const REACTIONS = 4;

type Lists = { readonly from: Int32Array; readonly ways: Int32Array };

/**
 * Which products are decorated beforehand (their indices), beside those that are so already, and whether anything is
 * pressed on site.
 */
export type Strategy = { readonly pressed: boolean; readonly readyMade: readonly number[] };

export const ON_SITE: Strategy = { pressed: true, readyMade: [] };

/** Presses this far behind, or this near to closing, make the crew reach for ready-made garments (common practice, no source). */
const BUSY_WAIT_MINUTES = 6;
const CLOSING_MINUTES = 90;

/**
 * The shop that works in this manner: only its goods, ways and what customers settle for. A product that
 * was dropped from the menu is asked for as before and cannot be had.
 */
export function openShop(
  prepared: Prepared,
  manner: Strategy,
  dropped: ReadonlySet<number> = new Set(),
): Shop {
  const { products, offers, blanks, stocks } = prepared;
  const goods: Goods[] = manner.pressed ? [...stocks] : [];
  const ways: { product: number; first: number; second: number; platen: number; spoils: boolean }[] = [];
  const pressWay = new Map<number, number>();
  const readyWay = new Map<number, number>();
  const platens = prepared.presses.map(({ platen }) => platen);

  if (manner.pressed) {
    products.forEach((product, index) => {
      if (dropped.has(index)) return;
      const blank = blanks[offers[product.offer]?.blank ?? -1];
      const decorated = product.transfer >= 0;
      pressWay.set(index, ways.length);
      ways.push({
        product: index,
        first: product.sku,
        second: product.transfer,
        platen: decorated && blank !== undefined ? platens.indexOf(blank.platen) : -1,
        spoils: decorated,
      });
    });
  }
  const inPlan = new Set(manner.readyMade);
  for (const index of [...manner.readyMade, ...readyProducts(prepared).filter((one) => !inPlan.has(one))]) {
    const product = products[index];
    if (product === undefined) continue;
    if (!dropped.has(index)) {
      readyWay.set(index, ways.length);
      ways.push({ product: index, first: goods.length, second: -1, platen: -1, spoils: false });
    }
    const made = readyMadeGoods(prepared, index);
    goods.push(inPlan.has(index) ? made : { ...made, maximum: made.owned });
  }

  const worth = (index: number) => goods[index]?.worth ?? 0;
  const cost = (index: number) => goods[index]?.cost ?? 0;
  const { costs } = prepared;
  const offerOf = (product: number) => offers[products[product]?.offer ?? -1];
  const wear = costs.wearPerPressing * (1 + prepared.spoilage);
  return {
    goods,
    first: Int32Array.from(ways, ({ first }) => first),
    second: Int32Array.from(ways, ({ second }) => second),
    makes: Int32Array.from(ways, ({ product }) => product),
    platen: Int8Array.from(ways, ({ platen }) => platen),
    spoils: Uint8Array.from(ways, ({ spoils }) => (spoils ? 1 : 0)),
    net: Float64Array.from(ways, ({ product, spoils }) => (offerOf(product)?.net ?? 0) - (spoils ? wear : 0)),
    toPitch: Float64Array.from(ways, ({ product }) => toPitch(costs) * (offerOf(product)?.price ?? 0)),
    pitchAtLeast: costs.pitchShare.atLeast,
    worthUsed: Float64Array.from(
      ways,
      ({ first, second }) => worth(first) + (second < 0 ? 0 : worth(second)),
    ),
    costUsed: Float64Array.from(ways, ({ first, second }) => cost(first) + (second < 0 ? 0 : cost(second))),
    // What is owned already is sold first: it cost nothing more, and is worth less at home than its parts.
    calm: lists(prepared, (product) => {
      const ways = [pressWay.get(product), readyWay.get(product)];
      return (prepared.products[product]?.ready ?? 0) > 0 ? ways.reverse() : ways;
    }),
    busy: lists(prepared, (product) => [readyWay.get(product), pressWay.get(product)]),
    presses: prepared.presses,
    busyWait: BUSY_WAIT_MINUTES,
    busyFrom: prepared.closesMinute - CLOSING_MINUTES,
    days: prepared.days.length,
    restocks: prepared.restocks,
  };
}

/** The products of which garments are decorated already, by index. */
export const readyProducts = ({ products }: Prepared): readonly number[] =>
  products.flatMap(({ ready }, index) => (ready > 0 ? [index] : []));

/** A garment decorated beforehand: all its costs are sunk in one piece that fits one design, colour and size. */
function readyMadeGoods(prepared: Prepared, index: number): Goods {
  const product = prepared.products[index];
  const sku = prepared.stocks[product?.sku ?? -1];
  const transfer = prepared.stocks[product?.transfer ?? -1];
  const tries = 1 + (transfer === undefined ? 0 : prepared.spoilage);
  const work = transfer === undefined ? 0 : prepared.aheadPerGarment;
  const parts = [product?.sku ?? -1, product?.transfer ?? -1].flatMap((at) => {
    const stock = prepared.stocks[at];
    return stock === undefined ? [] : [{ at, stock, pieces: tries }];
  });
  const cost = tries * ((sku?.cost ?? 0) + (transfer?.cost ?? 0) + work);
  const offer = prepared.offers[product?.offer ?? -1];
  return {
    id: `${offer?.id ?? ""}.${(sku?.id ?? "").split(".").slice(1).join(".")}`,
    cost,
    breaks: [],
    worth: transfer === undefined ? (sku?.worth ?? 0) : cost * prepared.aheadWorth,
    owned: product?.ready ?? 0,
    minimum: product?.ready ?? 0,
    maximum: Math.min(...parts.map(({ stock }) => stock.maximum)),
    pack: 1,
    vanShare: sku?.vanShare ?? 1,
    made: { parts, work: tries * work },
  };
}

/** For every product and reaction, the ways in the order they are tried. */
function lists(prepared: Prepared, waysOf: (product: number) => readonly (number | undefined)[]): Lists {
  const from: number[] = [0];
  const ways: number[] = [];
  const push = (products: readonly number[]) => {
    for (const product of products) for (const way of waysOf(product)) if (way !== undefined) ways.push(way);
    from.push(ways.length);
  };
  for (const others of choicesOf(prepared)) for (const products of others) push(products);
  return { from: Int32Array.from(from), ways: Int32Array.from(ways) };
}

type Choices = readonly (readonly number[])[];
/** Dozens of shops are opened over the same products, with other prices or a smaller menu. */
const choicesByProducts = new WeakMap<Prepared["products"], readonly Choices[]>();

/** For every product: itself alone, then with its other colours, its other designs, its neighbouring sizes. */
function choicesOf(prepared: Prepared): readonly Choices[] {
  const known = choicesByProducts.get(prepared.products);
  if (known !== undefined) return known;
  const made = prepared.products.map((_, product) => [
    [product],
    [product, ...otherColours(prepared, product)],
    [product, ...otherDesigns(prepared, product)],
    [product, ...neighbouringSizes(prepared, product)],
  ]);
  choicesByProducts.set(prepared.products, made);
  return made;
}

/** The same offer and size in its other colours, the most asked for first. */
function otherColours(prepared: Prepared, index: number): number[] {
  const own = prepared.products[index];
  const weights = prepared.blanks[prepared.offers[own?.offer ?? -1]?.blank ?? -1]?.colours.weights;
  return prepared.products
    .flatMap((other, at) =>
      at !== index && other.offer === own?.offer && other.size === own.size ? [at] : [],
    )
    .sort(
      (a, b) =>
        (weights?.[prepared.products[b]?.colour ?? -1] ?? 0) -
        (weights?.[prepared.products[a]?.colour ?? -1] ?? 0),
    );
}

/** The next larger size, then the next smaller, of the same offer and colour; youth and adult sizes are no neighbours. */
function neighbouringSizes(prepared: Prepared, index: number): number[] {
  const own = prepared.products[index];
  const youth = prepared.blanks[prepared.offers[own?.offer ?? -1]?.blank ?? -1]?.youth;
  if (own === undefined || youth === undefined) return [];
  return [own.size + 1, own.size - 1].flatMap((size) => {
    if (youth[size] !== youth[own.size]) return [];
    const at = prepared.products.findIndex(
      (other) => other.offer === own.offer && other.colour === own.colour && other.size === size,
    );
    return at < 0 ? [] : [at];
  });
}

/** Another design on the same sku, the most asked for first. */
function otherDesigns(prepared: Prepared, index: number): number[] {
  const own = prepared.products[index];
  const weight = (at: number) => prepared.offers[prepared.products[at]?.offer ?? -1]?.weight ?? 0;
  return prepared.products
    .flatMap((other, at) => (at !== index && other.sku === own?.sku && other.offer !== own.offer ? [at] : []))
    .sort((a, b) => weight(b) - weight(a));
}
