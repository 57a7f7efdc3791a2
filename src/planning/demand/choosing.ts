import type { Random } from "../../maths/random.ts";
import type { Prepared } from "../request/prepared.ts";

/** Where the products of an offer lie, and which of its blank's colours and sizes it comes in. */
type OfferChoices = {
  readonly base: number;
  readonly blank: number;
  readonly colours: readonly number[];
  readonly sizes: readonly number[];
};

/** The menu as a customer chooses from it. */
export type Choosing = {
  readonly sharing: readonly number[];
  readonly sharingWeights: readonly number[];
  /** For each day of the fair, the offers that are asked for: 1, or 0. */
  readonly onDays: readonly (readonly number[])[];
  readonly choices: readonly OfferChoices[];
  readonly mixes: readonly { readonly colours: readonly number[]; readonly sizes: readonly number[] }[];
};

export function choosing(prepared: Prepared, apart: ReadonlySet<number>): Choosing {
  const sharing = prepared.offers.flatMap((offer, index) =>
    offer.stated === null && !apart.has(index) ? [index] : [],
  );
  const choices = prepared.offers.map((offer, index) => {
    const base = prepared.products.findIndex((product) => product.offer === index);
    const own = prepared.products.filter((product) => product.offer === index);
    const colours = [...new Set(own.map(({ colour }) => colour))];
    const sizes = [...new Set(own.map(({ size }) => size))];
    return { base, blank: offer.blank, colours, sizes };
  });
  return {
    sharing,
    sharingWeights: sharing.map((index) => prepared.offers[index]?.weight ?? 0),
    onDays: prepared.days.map((_, day) =>
      sharing.map((index) => (prepared.offers[index]?.onDays[day] === false ? 0 : 1)),
    ),
    choices,
    mixes: prepared.blanks.map((blank) => ({ colours: blank.colours.weights, sizes: blank.sizes.weights })),
  };
}

type Ladder = readonly number[];

/** One fair's tastes: for each day cumulative chances of its offers, and for each offer of its colours and sizes. */
export type Shares = {
  readonly offers: readonly (readonly { readonly offer: number; readonly upTo: number }[])[];
  readonly colours: readonly Ladder[];
  readonly sizes: readonly Ladder[];
};

export function drawShares(menu: Choosing, draw: (weights: readonly number[]) => readonly number[]): Shares {
  const mixes = menu.mixes.map((mix) => ({ colours: draw(mix.colours), sizes: draw(mix.sizes) }));
  const wanted = draw(menu.sharingWeights);
  return {
    // What a day does not have, its customers leave for what it has.
    offers: menu.onDays.map((asked) => {
      const upTo = ladder(wanted.map((share, index) => share * (asked[index] ?? 1)));
      return menu.sharing.map((offer, index) => ({ offer, upTo: upTo[index] ?? 1 }));
    }),
    colours: menu.choices.map(({ blank, colours }) =>
      ladder(colours.map((at) => mixes[blank]?.colours[at] ?? 0)),
    ),
    sizes: menu.choices.map(({ blank, sizes }) => ladder(sizes.map((at) => mixes[blank]?.sizes[at] ?? 0))),
  };
}

/** Cumulative shares that end at 1. */
function ladder(shares: readonly number[]): Ladder {
  const sum = shares.reduce((total, share) => total + share, 0);
  let upTo = 0;
  return shares.map((share) => {
    upTo += sum > 0 ? share / sum : 1 / shares.length;
    return upTo;
  });
}

/** The product one garment of an offer is asked for in. */
export function pickProduct(menu: Choosing, shares: Shares, offer: number, random: Random): number {
  const choice = menu.choices[offer];
  const colour = step(shares.colours[offer], random.next());
  const size = step(shares.sizes[offer], random.next());
  return choice === undefined ? 0 : choice.base + colour * choice.sizes.length + size;
}

function step(rungs: Ladder | undefined, turn: number): number {
  if (rungs === undefined) return 0;
  for (let at = 0; at < rungs.length - 1; at++) if (turn < (rungs[at] ?? 1)) return at;
  return Math.max(0, rungs.length - 1);
}
