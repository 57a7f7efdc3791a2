/** The colour a garment is drawn in: typed by the stall, or guessed from the colour's name. */
import cssColours from "color-name";
import { z } from "zod";
import { channels } from "./luminance.ts";

export const Swatch = z
  .string()
  .regex(/^#[0-9a-f]{6}$/, "must be # and six digits of 0-9 and a-f, such as #1f2a44")
  .meta({ id: "Swatch", examples: ["#1f2a44"], description: "A colour as sRGB, #rrggbb" });
export type Swatch = z.infer<typeof Swatch>;

/** Drawn if nothing of the name is known: a mid grey that is taken for no particular colour. */
const UNKNOWN: Swatch = "#a3a6a8";

/**
 * Dyed cloth by the names shops and crews use, in English and Spanish; chosen by eye for this table. Cloth is duller than
 * a screen's pure colours, so these come before the CSS names.
 */
const CLOTH: Readonly<Record<string, Swatch>> = {
  white: "#ffffff",
  black: "#17181a",
  grey: "#8c8f93",
  gray: "#8c8f93",
  ash: "#d5d6d4",
  heather: "#b3b5b6",
  charcoal: "#44474b",
  graphite: "#3a3d41",
  slate: "#5b6770",
  silver: "#c3c6c8",
  navy: "#1f2a44",
  royal: "#21489b",
  blue: "#2b5cab",
  indigo: "#3b3f73",
  denim: "#46618a",
  sky: "#9cc7e6",
  aqua: "#63c1c9",
  teal: "#19707a",
  turquoise: "#26a3a9",
  red: "#c0272d",
  cardinal: "#8c1d2f",
  cherry: "#a9152f",
  maroon: "#5e1a28",
  burgundy: "#601c30",
  wine: "#5c1d33",
  rust: "#a3492b",
  brick: "#93392f",
  coral: "#f2765f",
  salmon: "#f29580",
  orange: "#e9702a",
  gold: "#eba92b",
  mustard: "#c9952b",
  yellow: "#f6d23c",
  lemon: "#f7e36b",
  cream: "#f5ead0",
  ivory: "#f6efdf",
  natural: "#eee3ca",
  sand: "#dcc9a3",
  oatmeal: "#dcd1bd",
  stone: "#c6bba7",
  khaki: "#b5a27b",
  tan: "#c29d6e",
  camel: "#b98a54",
  brown: "#59402f",
  chocolate: "#46312a",
  olive: "#5d5f3a",
  army: "#5b5c3f",
  moss: "#6f7546",
  sage: "#a2b096",
  mint: "#b2dfc7",
  lime: "#a3cf45",
  green: "#23784a",
  kelly: "#178a4c",
  forest: "#1f4633",
  emerald: "#0f7a58",
  purple: "#563282",
  violet: "#6d4ba0",
  lavender: "#bcaad9",
  lilac: "#c6b1da",
  plum: "#54294b",
  pink: "#f2b2c2",
  fuchsia: "#c9297b",
  rose: "#d77b8c",
  blush: "#efd0c8",
  blanco: "#ffffff",
  negro: "#17181a",
  gris: "#8c8f93",
  azul: "#2b5cab",
  "azul marino": "#1f2a44",
  celeste: "#9cc7e6",
  rojo: "#c0272d",
  granate: "#5e1a28",
  naranja: "#e9702a",
  amarillo: "#f6d23c",
  verde: "#23784a",
  morado: "#563282",
  rosa: "#f2b2c2",
  marron: "#59402f",
  arena: "#dcc9a3",
  crema: "#f5ead0",
};

/** How far a word beside the colour's name moves it: towards white, or towards black if negative. */
const SHADES: Readonly<Record<string, number>> = {
  light: 0.35,
  pale: 0.45,
  pastel: 0.45,
  soft: 0.25,
  heather: 0.2,
  heathered: 0.2,
  dark: -0.35,
  deep: -0.3,
  claro: 0.35,
  oscuro: -0.35,
};

const hex = (values: readonly number[]): Swatch =>
  `#${values.map((value) => value.toString(16).padStart(2, "0")).join("")}`;

/** A swatch moved towards white (share above 0) or black (below 0); 1 and -1 reach them. */
export function shaded(swatch: Swatch, share: number): Swatch {
  const end = share > 0 ? 255 : 0;
  return hex(channels(swatch).map((value) => Math.round(value + (end - value) * Math.abs(share))));
}

const NAMED_IN_CSS: ReadonlyMap<string, readonly number[]> = new Map(Object.entries(cssColours));

/** A name's swatch: cloth first, then the named colours of CSS Color Module Level 4, section 6.1. */
function known(name: string): Swatch | undefined {
  if (Object.hasOwn(CLOTH, name)) return CLOTH[name];
  const values = NAMED_IN_CSS.get(name.replaceAll(" ", ""));
  return values === undefined ? undefined : hex(values);
}

/** The swatch that a colour's name suggests: the whole name, else its last known word, lightened or darkened by the others. */
export function guessedSwatch(name: string): Swatch {
  const plain = name
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/[^a-z]+/g, " ")
    .trim();
  const whole = known(plain);
  if (whole !== undefined) return whole;
  const words = plain.split(" ");
  const at = words.findLastIndex((word) => known(word) !== undefined);
  const found = known(words[at] ?? "");
  if (found === undefined) return UNKNOWN;
  const share = words.reduce((sum, word, index) => sum + (index === at ? 0 : (SHADES[word] ?? 0)), 0);
  return shaded(found, Math.max(-0.7, Math.min(0.7, share)));
}

/** The swatch of a colour: what the stall typed, or else what its name suggests. */
export const swatchOf = (colour: { readonly name: string; readonly swatch?: Swatch | undefined }): Swatch =>
  colour.swatch ?? guessedSwatch(colour.name);
