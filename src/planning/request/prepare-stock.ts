/** The stock that a plan chooses from: blanks by sku, transfers, and the garments made of them. */
import type { PlanRequest } from "../../model/planning/plan-request.ts";
import type { SheetRequest } from "../../model/planning/sheets.ts";
import type { Faults } from "./faults.ts";
import type { Reader } from "./given.ts";
import { unique } from "./prepare-menu.ts";
import type { PreparedBlank, PreparedOffer, Product, Stock } from "./prepared.ts";

/** A blank's price breaks as numbers; each must come after the one before and take more off. */
function prepareBreaks(
  { blanks }: PlanRequest,
  blank: number,
  read: Reader,
  faults: Faults,
): { from: number; off: number }[] {
  const path = ["blanks", blank, "priceBreaks"];
  const rows = (blanks[blank]?.priceBreaks ?? []).map(({ from, off }, at) => ({
    from,
    off: read.share(off, [...path, at, "off"]),
  }));
  rows.forEach((row, at) => {
    const before = rows[at - 1];
    if (before !== undefined && (row.from <= before.from || row.off <= before.off))
      faults.add(
        [...path, at],
        `from ${row.from} does not go on from the break before, at ${before.from}`,
        "put the breaks in rising order, each with more off",
      );
  });
  return rows;
}
/** The sheets that the plan's transfers are bought in, if it is to find the cheapest; undefined if not. */

export function sheetsToBuy({
  parts,
  currency,
}: Pick<PlanRequest, "parts" | "currency">): SheetRequest | undefined {
  return parts?.sheets?.question.ask === "least-cost" ? { ...parts.sheets, currency } : undefined;
}
/** By offer, colour and size: garments that are decorated already, and their line's place. */
function readyOf({ ready }: PlanRequest, faults: Faults): Map<string, { owned: number; index: number }> {
  const found = new Map<string, { owned: number; index: number }>();
  for (const [index, { offer, colour, size, owned }] of ready.entries()) {
    const key = `${offer}.${colour}.${size}`;
    if (found.has(key))
      faults.add(["ready", index], `${key} is listed twice`, "keep one line for each garment");
    found.set(key, { owned, index });
  }
  return found;
}

export type MenuStock = {
  readonly products: readonly Product[];
  readonly stocks: readonly Stock[];
  readonly skuCount: number;
};
/** Every garment of the menu and the stock it is made of. */

export function prepareStock(
  request: PlanRequest,
  blanks: readonly PreparedBlank[],
  offers: readonly PreparedOffer[],
  read: Reader,
  faults: Faults,
): MenuStock {
  const skus: Stock[] = [];
  const skuPlaces = new Map<string, number>();
  const parts: { offer: number; colour: number; size: number; sku: number; design: number }[] = [];
  const spoken = new Map(request.skus.map((row, index) => [row.sku, index]));
  const priceBreaks = request.blanks.map((_, at) => prepareBreaks(request, at, read, faults));
  const inCartons = request.limits.van !== undefined && "cartons" in request.limits.van;

  offers.forEach((offer, offerIndex) => {
    const blank = blanks[offer.blank];
    const given = request.blanks[offer.blank];
    const sent = request.offers[offerIndex];
    if (blank === undefined || given === undefined || sent === undefined) return;
    const chosen = (part: "colours" | "sizes"): number[] => {
      const wanted: readonly string[] = sent[part] ?? blank[part].names;
      return wanted.flatMap((id, at) => {
        const index = blank[part].names.indexOf(id);
        if (index < 0)
          faults.add(
            ["offers", offerIndex, part, at],
            `the ${blank.id} does not come in ${id}`,
            `take it out or add it to the ${part} of the blank`,
          );
        return index < 0 ? [] : [index];
      });
    };
    const sizes = chosen("sizes");
    for (const colour of chosen("colours")) {
      for (const size of sizes) {
        const id = `${blank.id}.${blank.colours.names[colour]}.${blank.sizes.names[size]}`;
        let sku = skuPlaces.get(id);
        if (sku === undefined) {
          sku = skus.length;
          skuPlaces.set(id, sku);
          const own = spoken.get(id);
          const row = own === undefined ? undefined : request.skus[own];
          const sizeCost = given.sizes[size]?.cost;
          const cost =
            row?.cost !== undefined
              ? read.money(row.cost, ["skus", own ?? 0, "cost"])
              : sizeCost !== undefined
                ? read.money(sizeCost, ["blanks", offer.blank, "sizes", size, "cost"])
                : read.money(given.cost, ["blanks", offer.blank, "cost"]);
          const breaks = row?.cost === undefined ? (priceBreaks[offer.blank] ?? []) : [];
          // A leftover is worth a part of the lowest price, so that nobody buys more than can be used.
          skus.push({
            id,
            kind: "sku",
            cost,
            breaks: breaks.map(({ from, off }) => ({ from, cost: cost * (1 - off) })),
            worth:
              cost *
              (1 - (breaks.at(-1)?.off ?? 0)) *
              read.share(given.leftoverWorth, ["blanks", offer.blank, "leftoverWorth"]),
            owned: row?.owned ?? 0,
            minimum: row?.minimum ?? 0,
            maximum: row?.maximum ?? Number.POSITIVE_INFINITY,
            pack: row?.casePack ?? given.casePack,
            bySheet: false,
            vanShare: inCartons ? 1 / blank.perCarton : 1,
          });
        }
        parts.push({ offer: offerIndex, colour, size, sku, design: offer.design });
      }
    }
  });

  const inSheets = new Set(sheetsToBuy(request)?.designs.map(({ id }) => id));
  const transfers = request.designs.map((design, index): Stock => {
    const cost = read.money(design.cost, ["designs", index, "cost"]);
    return {
      id: design.id,
      kind: "transfer",
      cost,
      breaks: [],
      worth:
        cost *
        (design.day === undefined
          ? read.share(design.leftoverWorth, ["designs", index, "leftoverWorth"])
          : 0),
      owned: design.owned ?? 0,
      minimum: design.minimum ?? 0,
      maximum: design.maximum ?? Number.POSITIVE_INFINITY,
      pack: 1,
      bySheet: inSheets.has(design.id),
      vanShare: 0,
    };
  });
  unique(
    request.designs.map(({ id }) => id),
    ["designs"],
    faults,
  );
  request.skus.forEach((row, index) => {
    if (!skuPlaces.has(row.sku))
      faults.add(
        ["skus", index, "sku"],
        `no offer uses the sku ${row.sku}`,
        "check its blank, colour and size, or take it out",
      );
    if (spoken.get(row.sku) !== index)
      faults.add(["skus", index, "sku"], `${row.sku} is listed twice`, "keep one line for each sku");
  });
  if (skus.length > MOST_SKUS)
    faults.add(
      ["blanks"],
      `the menu has ${skus.length} skus; a plan takes at most ${MOST_SKUS}`,
      "take out colours or sizes, or plan in two parts",
    );
  if (parts.length > MOST_PRODUCTS)
    faults.add(
      ["offers"],
      `the menu has ${parts.length} garments to choose from; a plan takes at most ${MOST_PRODUCTS}`,
      "take out offers, colours or sizes",
    );
  const ready = readyOf(request, faults);
  const products = parts.map(({ design, ...part }): Product => {
    const [blank, offer] = [blanks[offers[part.offer]?.blank ?? -1], offers[part.offer]?.id];
    const key = `${offer}.${blank?.colours.names[part.colour]}.${blank?.sizes.names[part.size]}`;
    const found = ready.get(key);
    ready.delete(key);
    return {
      ...part,
      transfer: design < 0 ? -1 : skus.length + design,
      ready: design < 0 || offers[part.offer]?.stated ? 0 : (found?.owned ?? 0),
    };
  });
  for (const [key, { index }] of ready)
    faults.add(
      ["ready", index],
      `no offer is sold as ${key}`,
      "name its offer, colour and size as the menu has them",
    );
  return { products, stocks: [...skus, ...transfers], skuCount: skus.length };
}
const MOST_SKUS = 200;
const MOST_PRODUCTS = 2000;
