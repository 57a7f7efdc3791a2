/** What a new entry of the menu begins with. */
import { USUAL_SETTINGS } from "../../../../model/menu/usual-settings.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { pressIdAfter, sizeIdOf, slugOf, unique } from "../../start/short-name.ts";

export type Entry = { readonly [name: string]: Json };

const idsAt = (menu: Json, list: string): readonly string[] =>
  rowsAt(menu, list).map((_, index) => String(valueAt(menu, `${list}/${index}/id`)));

/** Sizes that most adult garments come in. */
const SIZES = ["S", "M", "L", "XL", "2XL"];

export function newPress(menu: Json): Entry {
  return { id: pressIdAfter(idsAt(menu, "#/presses")), platen: "flat", garmentSeconds: 75 };
}

/** An entry of a name, with an id of its own among those of its list. */
const called = (name: string, wanted: string | null, taken: readonly string[]): Entry => ({
  id: unique(wanted ?? "one", taken),
  name,
  offered: true,
});

export const newBlank = (menu: Json, name: string): Entry => ({
  ...called(name, slugOf(name), idsAt(menu, "#/blanks")),
  platen: /\b(?:cap|hat|visor)s?\b/i.test(name) ? "cap" : "flat",
  fabric: "cotton",
  colours: [],
  sizes: SIZES.map((size) => newSize([], "#", size)),
});

export const newColour = (menu: Json, list: string, name: string): Entry =>
  called(name, slugOf(name), idsAt(menu, list));

export const newSize = (menu: Json, list: string, name: string): Entry => ({
  ...called(name, sizeIdOf(name), idsAt(menu, list)),
  child: /\b(?:kid|child|youth|toddler)/i.test(name),
});

export const newDesign = (menu: Json, name: string): Entry => ({
  ...called(name, slugOf(name), idsAt(menu, "#/designs")),
  kind: "screen-printed",
  settings: USUAL_SETTINGS["screen-printed"],
});

/** Wishes that many stalls are asked for: common practice, no source. */
export const USUAL_WISHES: Readonly<Record<string, Entry>> = {
  "Back print": { second: {}, asked: ["on the back", "both sides", "front and back"] },
  "Left chest": { asked: ["left chest", "on the chest"] },
  Name: {},
  "Own garment": { ownGarment: true, asked: ["own garment", "my own shirt", "bring my own"] },
  Gift: { asked: ["gift", "gift wrap"] },
};

export const newWish = (menu: Json, name: string): Entry => ({
  ...called(name, slugOf(name), idsAt(menu, "#/wishes")),
  surcharge: 0,
  seconds: 0,
  ownGarment: false,
  ...USUAL_WISHES[name],
});

/** The next design and blank that are not sold together yet, the newest design first. */
export function newOffer(menu: Json): Entry {
  const sold = rowsAt(menu, "#/offers").map(
    (one) => `${valueAt(one, "#/design")} ${valueAt(one, "#/blank")}`,
  );
  const pairs = idsAt(menu, "#/designs").flatMap((design) =>
    idsAt(menu, "#/blanks").map((blank) => ({ design, blank })),
  );
  const free = pairs.find(({ design, blank }) => !sold.includes(`${design} ${blank}`));
  const { design, blank } = free ?? pairs[0] ?? { design: "", blank: "" };
  const name = offerName(menu, design, blank);
  return { ...called(name, slugOf(name), idsAt(menu, "#/offers")), design, blank };
}

/** A bundle of the garments that its name has: "any 2 tees" two of them, "tee and cap" one of each. */
export function newBundle(menu: Json, name: string): Entry {
  const blanks = rowsAt(menu, "#/blanks");
  const named = blanks.filter((one) =>
    name.toLowerCase().includes(String(valueAt(one, "#/name")).toLowerCase()),
  );
  const taken = named.length === 0 ? blanks.slice(0, 1) : named;
  const quantity = taken.length > 1 ? 1 : Number(/\d+/.exec(name)?.[0] ?? 2);
  const offersOn = (blank: Json): readonly Json[] =>
    rowsAt(menu, "#/offers")
      .filter((one) => valueAt(one, "#/blank") === valueAt(blank, "#/id"))
      .map((one) => valueAt(one, "#/id") ?? "");
  return {
    ...called(name, slugOf(name), idsAt(menu, "#/bundles")),
    takes: taken.map((blank) => ({ offers: offersOn(blank), quantity })),
  };
}

/** One more garment for a bundle: which is still to be said. */
export const newTake = (): Entry => ({ offers: [], quantity: 1 });

/** "Otter Tee" for the otter design on the tee. */
export function offerName(menu: Json, design: string, blank: string): string {
  const named = (list: string, id: string): string => {
    const index = idsAt(menu, list).indexOf(id);
    return index < 0 ? "" : String(valueAt(menu, `${list}/${index}/name`) ?? "");
  };
  return `${named("#/designs", design)} ${named("#/blanks", blank)}`.trim();
}
