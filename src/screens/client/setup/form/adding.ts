/** What a new entry of the menu begins with. */
import { USUAL_SETTINGS } from "../../../../model/menu/usual-settings.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { pressIdAfter, sizeIdOf, slugOf, unique } from "../../start/short-name.ts";

type Entry = { readonly [name: string]: Json };

const idsAt = (menu: Json, list: string): readonly string[] =>
  rowsAt(menu, list).map((_, index) => String(valueAt(menu, `${list}/${index}/id`)));

/** Sizes that most adult garments come in. */
const SIZES = ["S", "M", "L", "XL", "2XL"];

export function newPress(menu: Json): Entry {
  return { id: pressIdAfter(idsAt(menu, "#/presses")), platen: "flat", garmentSeconds: 75 };
}

export function newBlank(menu: Json, name: string): Entry {
  return {
    id: unique(slugOf(name) ?? "blank", idsAt(menu, "#/blanks")),
    name,
    offered: true,
    platen: /\b(?:cap|hat|visor)s?\b/i.test(name) ? "cap" : "flat",
    fabric: "cotton",
    colours: [],
    sizes: SIZES.map((size) => newSize([], size)),
  };
}

export const newColour = (taken: readonly string[], name: string): Entry => ({
  id: unique(slugOf(name) ?? "colour", taken),
  name,
  offered: true,
});

export const newSize = (taken: readonly string[], name: string): Entry => ({
  id: unique(sizeIdOf(name) ?? "size", taken),
  name,
  offered: true,
  child: false,
});

export function newDesign(menu: Json, name: string): Entry {
  return {
    id: unique(slugOf(name) ?? "design", idsAt(menu, "#/designs")),
    name,
    offered: true,
    kind: "screen-printed",
    settings: USUAL_SETTINGS["screen-printed"],
  };
}

/** The next design and blank that are not sold together yet, the newest design first. */
export function newOffer(menu: Json): Entry {
  const sold = new Set(
    rowsAt(menu, "#/offers").map(
      (_, index) =>
        `${valueAt(menu, `#/offers/${index}/design`)} ${valueAt(menu, `#/offers/${index}/blank`)}`,
    ),
  );
  const pairs = rowsAt(menu, "#/designs").flatMap((_, design) =>
    rowsAt(menu, "#/blanks").map((__, blank) => ({
      design: `#/designs/${design}`,
      blank: `#/blanks/${blank}`,
    })),
  );
  const id = (at: string): string => String(valueAt(menu, `${at}/id`));
  const free = pairs.find(({ design, blank }) => !sold.has(`${id(design)} ${id(blank)}`)) ?? pairs[0];
  const name = free === undefined ? "" : offerName(menu, id(free.design), id(free.blank));
  return {
    id: unique(slugOf(name) ?? "offer", idsAt(menu, "#/offers")),
    name,
    offered: true,
    design: free === undefined ? "" : id(free.design),
    blank: free === undefined ? "" : id(free.blank),
  };
}

/** "Otter Tee" for the otter design on the tee. */
export function offerName(menu: Json, design: string, blank: string): string {
  const named = (list: string, id: string): string => {
    const index = idsAt(menu, list).indexOf(id);
    return index < 0 ? "" : String(valueAt(menu, `${list}/${index}/name`) ?? "");
  };
  return `${named("#/designs", design)} ${named("#/blanks", blank)}`.trim();
}
