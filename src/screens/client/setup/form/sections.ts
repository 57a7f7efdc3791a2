/** The parts of the menu as the page asks for them. */

import { Outline } from "../../../../model/garment/outline.ts";
import { SpotName } from "../../../../model/garment/spot.ts";
import { guessedSwatch } from "../../../../model/garment/swatch.ts";
import type { TransferKind } from "../../../../model/menu/catalogue.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { colour, type Field, figure, list, money, words, yesNo } from "./field.ts";

/** The kinds of transfer by their names on the page. */
export const KIND_NAMES: Readonly<Record<TransferKind, string>> = {
  "screen-printed": "Screen-printed, hot peel",
  film: "Printed film",
  "cut-vinyl": "Cut vinyl",
  "dye-sublimation": "Dye sublimation (polyester only)",
};
const PLATENS = [
  ["Flat", "flat"],
  ["Cap", "cap"],
] as const;
const OUTLINES: NonNullable<Field["choices"]> = [
  ["as its name says", undefined],
  ...Outline.options.map((outline) => [outline.replace("-", " "), outline] as const),
];
/** Places of a print; inches that the menu has beside the place stay. */
const spots = (inches: Json | undefined): NonNullable<Field["choices"]> => [
  ["place its words say", undefined],
  ...SpotName.options.map(
    (at) => [at.replace("-", " "), inches === undefined ? { at } : { at, inches }] as const,
  ),
];
const asSaid = (...choices: readonly string[]) => choices.map((word) => [word, word] as const);

const name = (at: string, help?: string): Field => words(`${at}/name`, "Name", { help });
const onSale = (at: string): Field => yesNo(`${at}/offered`, "On sale");

/** The name in the other language of the conversation. */
function otherName(menu: Json, at: string): Field {
  const spanish = valueAt(menu, "#/language") !== "es";
  return words(`${at}/translations/${spanish ? "es" : "en"}`, spanish ? "In Spanish" : "In English", {
    help: "If customers write in it; else the name above is used.",
  });
}

const pressFields = (_: Json, at: string): readonly Field[] => [
  words(`${at}/id`, "Name on the tablet", { help: "1 to 4 capital letters or digits: A, B, CAP1." }),
  words(`${at}/platen`, "Platen", { choices: PLATENS }),
  figure(`${at}/garmentSeconds`, "A garment takes", {
    unit: "seconds",
    help: "From one pull to the next. Promises start from this until garments have been timed.",
  }),
];

const blankFields = (menu: Json, at: string): readonly Field[] => [
  name(at, "What a customer calls it: Tee, Cap, Tote."),
  otherName(menu, at),
  words(`${at}/platen`, "Pressed on a", { unit: "platen", choices: PLATENS }),
  words(`${at}/fabric`, "Fabric", {
    choices: asSaid("cotton", "polyester", "blend", "other"),
    help: "Polyester and blends bring a caution with hot transfers.",
  }),
  words(`${at}/outline`, "Drawn as", {
    choices: OUTLINES,
    help: "The shape on customers’ phones, the board and the prints.",
  }),
  onSale(at),
];

const designFields = (menu: Json, at: string): readonly Field[] => [
  name(at),
  otherName(menu, at),
  words(`${at}/kind`, "Kind of transfer", {
    choices: Object.entries(KIND_NAMES).map(([kind, called]) => [called, kind]),
    help: "Picking a kind fills in what is usual for it.",
  }),
  figure(`${at}/widthInches`, "Print width", { unit: "inches" }),
  figure(`${at}/heightInches`, "Print height", { unit: "inches" }),
  words(`${at}/placement`, "Where it goes", {
    help: "For the operator: centre front, 3 in below the collar.",
  }),
  words(`${at}/spot`, "Drawn on the", {
    choices: spots(valueAt(menu, `${at}/spot/inches`)),
    help: "As far below the collar as the words say. Left and right are the wearer’s.",
  }),
  figure(`${at}/settings/temperatureFahrenheit`, "Temperature", { unit: "°F" }),
  figure(`${at}/settings/dwellSeconds`, "Dwell", { unit: "seconds" }),
  words(`${at}/settings/pressure`, "Pressure", { choices: asSaid("light", "medium", "firm") }),
  words(`${at}/settings/peel`, "Peel", { choices: asSaid("hot", "warm", "cold") }),
  figure(`${at}/settings/presses`, "Presses", { unit: "times" }),
  figure(`${at}/settings/secondDwellSeconds`, "Dwell of the second press", { unit: "seconds" }),
  onSale(at),
];

const named = (menu: Json, list: string): readonly (readonly [string, Json])[] =>
  rowsAt(menu, list).map((_, index) => [
    String(valueAt(menu, `${list}/${index}/name`) ?? ""),
    valueAt(menu, `${list}/${index}/id`) ?? "",
  ]);

/** A field for each size of an offer that costs more, on the blank or here. */
function surchargeFields(menu: Json, at: string, unit: string): readonly Field[] {
  const blank = rowsAt(menu, "#/blanks").find((one) => valueAt(one, "#/id") === valueAt(menu, `${at}/blank`));
  return rowsAt(blank ?? null, "#/sizes").flatMap((size): Field[] => {
    const id = String(valueAt(size, "#/id"));
    const pointer = `${at}/surcharges/${id}`;
    if (valueAt(size, "#/surcharge") === undefined && valueAt(menu, pointer) === undefined) return [];
    const label = `${String(valueAt(size, "#/name") ?? id)} costs more by`;
    return [money(pointer, label, { unit, help: "Empty: as much as on the garment." })];
  });
}

function offerFields(menu: Json, at: string): readonly Field[] {
  const unit = String(valueAt(menu, "#/currency") ?? "");
  const taxed = valueAt(menu, "#/rules/taxInPrice") === true ? "With tax" : "Before tax";
  return [
    words(`${at}/design`, "Design", { choices: named(menu, "#/designs") }),
    words(`${at}/blank`, "On", { choices: named(menu, "#/blanks") }),
    money(`${at}/price`, "Price", { unit, help: `${taxed}. A change holds for new orders only.` }),
    ...surchargeFields(menu, at, unit),
    second(menu, at, []),
    name(at, "As the menu in texts says it; 14 letters or fewer keep replies in one message."),
    otherName(menu, at),
    onSale(at),
  ];
}

/** A second transfer on a garment: none, another design, and for a wish the product's own once more. */
const second = (menu: Json, at: string, own: NonNullable<Field["choices"]>): Field =>
  words(`${at}/second`, "Second transfer", {
    choices: [
      ["none", undefined],
      ...own,
      ...named(menu, "#/designs").map(([called, design]) => [called, { design }] as const),
    ],
    help: "Pressed on its own: two transfers, two presses.",
  });

const wishFields = (menu: Json, at: string): readonly Field[] => [
  name(at, "As the chip, the tag and the texts say it."),
  otherName(menu, at),
  money(`${at}/surcharge`, "Costs more by", {
    unit: String(valueAt(menu, "#/currency") ?? ""),
    help: "Below 0 if it makes the garment cheaper: -5.",
  }),
  figure(`${at}/seconds`, "Takes longer by", { unit: "seconds", help: "At the press, for each garment." }),
  yesNo(`${at}/ownGarment`, "The customer brings the garment"),
  second(menu, at, [["the product’s own design once more", {}]]),
  list(`${at}/asked`, "Words in a text that mean it", {
    wide: true,
    help: "With commas between: on the back, both sides. The text is answered with this wish and its price.",
  }),
  onSale(at),
];

const bundleFields = (menu: Json, at: string): readonly Field[] => [
  money(`${at}/price`, "Price", {
    unit: String(valueAt(menu, "#/currency") ?? ""),
    help: "Of all its garments together. What a size or a wish costs more comes on top.",
  }),
  name(at, "As the slip and the texts say it."),
  otherName(menu, at),
  onSale(at),
];

/** A colour or size is a row of a table: these head its columns. */
const colourFields = (menu: Json, at: string): readonly Field[] => [
  words(`${at}/name`, "Colour"),
  otherName(menu, at),
  colour(`${at}/swatch`, "Swatch", { guess: guessedSwatch(String(valueAt(menu, `${at}/name`) ?? "")) }),
  onSale(at),
];
const sizeFields = (menu: Json, at: string): readonly Field[] => [
  words(`${at}/name`, "Size"),
  otherName(menu, at),
  figure(`${at}/chestInches`, "Chest laid flat, inches"),
  yesNo(`${at}/child`, "Child’s"),
  money(`${at}/surcharge`, `Costs more by, ${String(valueAt(menu, "#/currency") ?? "")}`),
  onSale(at),
];

/** A list of the menu: the name of an entry, its fields, and the field that gets the focus in a new row. */
type List = {
  readonly one: string;
  readonly first: string | null;
  readonly fields: (menu: Json, at: string) => readonly Field[];
};

/** The lists of a menu by their last name in a pointer. */
export const LISTS = {
  blanks: { one: "Garment", first: "colours", fields: blankFields },
  colours: { one: "colour", first: null, fields: colourFields },
  sizes: { one: "size", first: null, fields: sizeFields },
  designs: { one: "Design", first: "widthInches", fields: designFields },
  offers: { one: "Product", first: "price", fields: offerFields },
  wishes: { one: "Wish", first: "surcharge", fields: wishFields },
  bundles: { one: "Bundle", first: "price", fields: bundleFields },
  presses: { one: "Press", first: "id", fields: pressFields },
} as const satisfies Record<string, List>;

export const isList = (name: string | undefined): name is keyof typeof LISTS =>
  name !== undefined && Object.hasOwn(LISTS, name);
