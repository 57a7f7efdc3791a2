/** The stall's papers as one value: the menu, the orders that need a tag, and the chosen sheet. */
import { Language } from "../../../model/basics/words.ts";
import type { Menu } from "../../../model/menu/catalogue.ts";
import { lowestPrice, surchargeOf } from "../../../model/menu/prices.ts";
import type { OpenOrder } from "../../../model/orders/open-orders.ts";
import { differenceWords, moneyWords } from "../crew/words/money.ts";
import { choiceName } from "../crew/words/names.ts";
import type { Looks } from "../garment/garments.ts";

export const SHEETS = [
  ["card", "Price card"],
  ["crew", "Crew’s sheet"],
  ["tags", "Hand tags"],
  ["strip", "Tag strip"],
  ["blank", "Blank tags"],
] as const;
export type Sheet = (typeof SHEETS)[number][0];

export type State = {
  readonly stall: string;
  readonly menu: Menu;
  readonly looks: Looks;
  readonly orders: readonly OpenOrder[];
  readonly sheet: Sheet;
  /** Tags are printed from this number on. */
  readonly from: string;
};

/** How closely a list is set, so that it stays on one page. */
export const closeness = (rows: number): string => (rows > 24 ? "closest" : rows > 12 ? "closer" : "wide");

type Named = { readonly id: string; readonly name: string; readonly offered: boolean };

export type PriceRow = {
  readonly offer: string;
  readonly number: number;
  readonly name: string;
  /** Its colours and sizes, with their surcharges. */
  readonly comes: string;
  readonly price: string;
};

/** The offers on sale by their fixed numbers. */
export function pricesOf(menu: Menu): readonly PriceRow[] {
  const money = (amount: number): string => moneyWords(amount, menu.currency);
  return menu.offers.flatMap((offer, index): PriceRow[] => {
    if (!offer.offered) return [];
    const names = <One extends Named>(
      entries: readonly One[],
      only: readonly string[] | undefined,
      more: (entry: One) => number = () => 0,
    ): string =>
      entries
        .filter(({ id, offered }) => offered && (only?.includes(id) ?? true))
        .map((entry) => `${entry.name} ${differenceWords(more(entry), menu.currency)}`.trim())
        .join(", ");
    const blank = menu.blanks.find(({ id }) => id === offer.blank);
    const { lowest, varies } =
      blank === undefined ? { lowest: offer.price, varies: false } : lowestPrice(offer, blank);
    const comes =
      blank === undefined
        ? ""
        : `${names(blank.colours, offer.colours)} · ${names(blank.sizes, offer.sizes, (size) => surchargeOf(offer, size))}`;
    return [
      {
        offer: offer.id,
        number: index + 1,
        name: offer.name,
        comes,
        price: `${varies ? "from " : ""}${money(lowest)}`,
      },
    ];
  });
}

export type BundleRow = {
  readonly bundle: string;
  readonly name: string;
  readonly of: string;
  /** The same in each language that its name is translated to. */
  readonly others: readonly { readonly language: Language; readonly name: string; readonly of: string }[];
  readonly price: string;
};

/** The bundles on sale: "2 × Otter tee or Longtail tee". */
export function bundlesOf(menu: Menu): readonly BundleRow[] {
  return (menu.bundles ?? []).flatMap(
    ({ id, name, translations = {}, offered, price, takes }): BundleRow[] => {
      const parts = takes.map(({ offers, quantity }) => ({
        quantity,
        any: menu.offers.filter((one) => one.offered && offers.includes(one.id)),
      }));
      if (!offered || parts.some(({ any }) => any.length === 0)) return [];
      const garments = (language: Language, named: (offer: Menu["offers"][number]) => string): string =>
        parts.map(({ quantity, any }) => `${quantity} × ${eitherOf(language, any.map(named))}`).join(" + ");
      const others = Language.options.flatMap((language) => {
        const other = language === menu.language ? undefined : translations[language];
        const of = garments(language, (offer) => offer.translations?.[language] ?? offer.name);
        return other === undefined ? [] : [{ language, name: other, of }];
      });
      const of = garments(menu.language, (offer) => offer.name);
      return [{ bundle: id, name, of, others, price: moneyWords(price, menu.currency) }];
    },
  );
}

/** "Otter tee or Longtail tee", "camiseta u otra". */
const eitherOf = (language: Language, names: readonly string[]): string =>
  new Intl.ListFormat(language, { type: "disjunction" }).format(names);

/** The counter's wishes beyond the menu, with their prices. */
const wishesOf = ({ wishes = [], currency }: Menu): string =>
  wishes
    .filter(({ offered }) => offered)
    .map(({ name, surcharge }) => `${name} ${differenceWords(surcharge, currency)}`.trim())
    .join(", ");

/** Notes to the prices: bundles and sizes, wishes, tax. */
export function notesOf(menu: Menu): readonly string[] {
  const dearer = menu.offers.some((offer) =>
    menu.blanks.some(
      ({ id, sizes }) => id === offer.blank && sizes.some((size) => surchargeOf(offer, size) > 0),
    ),
  );
  const wishes = wishesOf(menu);
  return [
    dearer && bundlesOf(menu).length > 0 ? "A size that costs more costs that on top of a bundle, too." : "",
    wishes === "" ? "" : `Ask at the counter: ${wishes}.`,
    taxWords(menu),
  ].filter((note) => note !== "");
}

export function taxWords({ rules: { taxPartsPerMillion, taxInPrice } }: Menu): string {
  const share = taxPartsPerMillion / 10_000;
  if (share === 0) return "";
  return taxInPrice ? `Prices include sales tax of ${share} %.` : `Sales tax of ${share} % is added.`;
}

export type HandTag = {
  readonly number: number;
  readonly word: string;
  /** "2 × Otter tee, Sand, M". */
  readonly garments: readonly string[];
  /** What its customer texts to get the ready text; absent if there is nothing to text. */
  readonly toText?: string;
};

/** A tag for each open order from a number on, in number order. */
export function tagsOf({ orders, menu, from }: Pick<State, "orders" | "menu" | "from">): readonly HandTag[] {
  const least = Number(from) || 0;
  return orders
    .filter(({ number }) => number >= least)
    .toSorted((one, other) => one.number - other.number)
    .map(({ number, word, lines, toBeTold }) => ({
      number,
      word,
      garments: lines.map(
        ({ quantity, name, blank, colour, size }) =>
          `${quantity} × ${name}, ${choiceName(menu, blank, colour, size)}`,
      ),
      ...(toBeTold === undefined
        ? {}
        : { toText: `For a text when it is ready, text ${toBeTold.text} to ${toBeTold.to}` }),
    }));
}

/** The tags on one sheet of paper. */
export const TAGS_A_SHEET = 8;

/** In groups of a sheet each. */
export const sheetsOf = <T>(tags: readonly T[]): readonly (readonly T[])[] =>
  Array.from({ length: Math.ceil(tags.length / TAGS_A_SHEET) }, (_, at) =>
    tags.slice(at * TAGS_A_SHEET, (at + 1) * TAGS_A_SHEET),
  );
