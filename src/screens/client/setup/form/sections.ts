/** The parts of the menu as the page asks for them. */

import { Outline } from "../../../../model/garment/outline.ts";
import { SpotName } from "../../../../model/garment/spot.ts";
import type { Platen } from "../../../../model/menu/catalogue.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import type { Field } from "./field.ts";
import { KIND_NAMES } from "./kinds.ts";

const PLATENS: readonly (readonly [string, Platen])[] = [
  ["Flat", "flat"],
  ["Cap", "cap"],
];
const OUTLINES: readonly (readonly [string, Json | undefined])[] = [
  ["as its name says", undefined],
  ...Outline.options.map((outline) => [outline.replace("-", " "), outline] as const),
];
/** Places of a print; inches that the menu has beside the place stay. */
const spots = (inches: Json | undefined): readonly (readonly [string, Json | undefined])[] => [
  ["place its words say", undefined],
  ...SpotName.options.map(
    (at) => [at.replace("-", " "), inches === undefined ? { at } : { at, inches }] as const,
  ),
];
const FABRICS = ["cotton", "polyester", "blend", "other"].map((fabric) => [fabric, fabric] as const);

const name = (at: string, help = ""): Field => ({
  pointer: `${at}/name`,
  label: "Name",
  takes: "words",
  help,
});
const onSale = (at: string): Field => ({ pointer: `${at}/offered`, label: "On sale", takes: "yes-no" });

/** The name in the other language of the conversation. */
export function otherName(menu: Json, at: string): Field {
  const spanish = valueAt(menu, "#/language") !== "es";
  return {
    pointer: `${at}/translations/${spanish ? "es" : "en"}`,
    label: spanish ? "In Spanish" : "In English",
    takes: "words",
    help: "If customers write in it; else the name above is used.",
  };
}

export const pressFields = (at: string): readonly Field[] => [
  {
    pointer: `${at}/id`,
    label: "Name on the tablet",
    takes: "words",
    help: "1 to 4 capital letters or digits: A, B, CAP1.",
  },
  { pointer: `${at}/platen`, label: "Platen", takes: "words", choices: PLATENS },
  {
    pointer: `${at}/garmentSeconds`,
    label: "A garment takes",
    unit: "seconds",
    takes: "figure",
    help: "From one pull to the next. Promises start from this until garments have been timed.",
  },
];

export const blankFields = (menu: Json, at: string): readonly Field[] => [
  name(at, "What a customer calls it: Tee, Cap, Tote."),
  otherName(menu, at),
  { pointer: `${at}/platen`, label: "Pressed on a", takes: "words", unit: "platen", choices: PLATENS },
  {
    pointer: `${at}/fabric`,
    label: "Fabric",
    takes: "words",
    choices: FABRICS,
    help: "Polyester and blends bring a caution with hot transfers.",
  },
  {
    pointer: `${at}/outline`,
    label: "Drawn as",
    takes: "words",
    choices: OUTLINES,
    help: "The shape on customers’ phones, the board and the prints.",
  },
  onSale(at),
];

export const designFields = (menu: Json, at: string): readonly Field[] => [
  name(at),
  otherName(menu, at),
  {
    pointer: `${at}/kind`,
    label: "Kind of transfer",
    takes: "words",
    choices: Object.entries(KIND_NAMES).map(([kind, words]) => [words, kind]),
    help: "Picking a kind fills in what is usual for it.",
  },
  { pointer: `${at}/widthInches`, label: "Print width", unit: "inches", takes: "figure" },
  { pointer: `${at}/heightInches`, label: "Print height", unit: "inches", takes: "figure" },
  {
    pointer: `${at}/placement`,
    label: "Where it goes",
    takes: "words",
    help: "For the operator: centre front, 3 in below the collar.",
  },
  {
    pointer: `${at}/spot`,
    label: "Drawn on the",
    takes: "words",
    choices: spots(valueAt(menu, `${at}/spot/inches`)),
    help: "As far below the collar as the words say. Left and right are the wearer’s.",
  },
  { pointer: `${at}/settings/temperatureFahrenheit`, label: "Temperature", unit: "°F", takes: "figure" },
  { pointer: `${at}/settings/dwellSeconds`, label: "Dwell", unit: "seconds", takes: "figure" },
  {
    pointer: `${at}/settings/pressure`,
    label: "Pressure",
    takes: "words",
    choices: same("light", "medium", "firm"),
  },
  { pointer: `${at}/settings/peel`, label: "Peel", takes: "words", choices: same("hot", "warm", "cold") },
  { pointer: `${at}/settings/presses`, label: "Presses", unit: "times", takes: "figure" },
  {
    pointer: `${at}/settings/secondDwellSeconds`,
    label: "Dwell of the second press",
    unit: "seconds",
    takes: "figure",
  },
  onSale(at),
];

const named = (menu: Json, list: string): readonly (readonly [string, Json])[] =>
  rowsAt(menu, list).map((_, index) => [
    String(valueAt(menu, `${list}/${index}/name`) ?? ""),
    valueAt(menu, `${list}/${index}/id`) ?? "",
  ]);

/** A field for each size of an offer that costs more, on the blank or here. */
function surchargeFields(menu: Json, at: string): readonly Field[] {
  const blank = rowsAt(menu, "#/blanks").find((one) => valueAt(one, "#/id") === valueAt(menu, `${at}/blank`));
  return rowsAt(blank ?? null, "#/sizes").flatMap((size): Field[] => {
    const id = String(valueAt(size, "#/id"));
    const pointer = `${at}/surcharges/${id}`;
    if (valueAt(size, "#/surcharge") === undefined && valueAt(menu, pointer) === undefined) return [];
    return [
      {
        pointer,
        label: `${String(valueAt(size, "#/name") ?? id)} costs more by`,
        unit: String(valueAt(menu, "#/currency") ?? ""),
        takes: "money",
        help: "Empty: as much as on the garment.",
      },
    ];
  });
}

export const offerFields = (menu: Json, at: string): readonly Field[] => [
  { pointer: `${at}/design`, label: "Design", takes: "words", choices: named(menu, "#/designs") },
  { pointer: `${at}/blank`, label: "On", takes: "words", choices: named(menu, "#/blanks") },
  {
    pointer: `${at}/price`,
    label: "Price",
    unit: String(valueAt(menu, "#/currency") ?? ""),
    takes: "money",
    help:
      valueAt(menu, "#/rules/taxInPrice") === true
        ? "With tax. A change holds for new orders only."
        : "Before tax. A change holds for new orders only.",
  },
  ...surchargeFields(menu, at),
  name(at, "As the menu in texts says it; 14 letters or fewer keep replies in one message."),
  otherName(menu, at),
  onSale(at),
];

function same<const W extends string>(...words: readonly W[]): readonly (readonly [W, W])[] {
  return words.map((word) => [word, word] as const);
}
