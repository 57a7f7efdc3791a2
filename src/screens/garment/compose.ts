/**
 * One picture of a garment: its outline in its colour, and the design at true scale in its place. Pure: a tree of SVG
 * elements with attributes only, since pages may hold no inline style.
 */
import type { Look } from "../../model/garment/look.ts";
import { luminance } from "../../model/garment/luminance.ts";
import type { PictureHash } from "../../model/garment/picture.ts";
import type { Swatch } from "../../model/garment/swatch.ts";
import { type GarmentShape, SHAPES } from "./shapes.ts";

export type Drawn = {
  readonly tag: "svg" | "path" | "rect" | "image" | "text";
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (Drawn | string)[];
};

export type GarmentWish = {
  readonly look: Look;
  /** A colour of the look; absent: the first. */
  readonly colour?: string | undefined;
  /** By its size, a print takes more or less of the garment's width. */
  readonly size?: string | undefined;
  /** Where a picture is read from. */
  readonly address: (picture: PictureHash) => string;
  /** Whether a line shows how far below the collar the print begins. */
  readonly measured?: boolean;
};

const UNKNOWN_SWATCH: Swatch = "#a3a6a8";
const UNITS = 240;
const INCHES_BELOW_COLLAR = 3;
/** A chest print is as far from the middle: common practice, no source. */
const INCHES_FROM_MIDDLE = 4;
/**
 * The luminance from which black contrasts better with a colour than white does: where both contrasts (WCAG 2.2) are
 * equal.
 */
const MIDDLE_LUMINANCE = Math.sqrt(1.05 * 0.05) - 0.05;

const draw = (
  tag: Drawn["tag"],
  attributes: Drawn["attributes"],
  ...children: readonly (Drawn | string)[]
): Drawn => ({ tag, attributes, children });

const inkOn = (swatch: Swatch): string => (luminance(swatch) > MIDDLE_LUMINANCE ? "#14181d" : "#ffffff");

type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** Where the print is, in units. */
function printBox({ widthInches, heightInches, spot }: Look, shape: GarmentShape, scale: number): Box {
  const [width, height] = [widthInches * scale, heightInches * scale];
  const middle = shape.middles[spot.at];
  if (middle !== undefined && (spot.inches === undefined || spot.at !== "middle"))
    return { x: middle[0] - width / 2, y: middle[1] - height / 2, width, height };
  const aside = spot.at === "left-chest" ? 1 : spot.at === "right-chest" ? -1 : 0;
  const x = UNITS / 2 + aside * INCHES_FROM_MIDDLE * scale - width / 2;
  return { x, y: shape.collar + (spot.inches ?? INCHES_BELOW_COLLAR) * scale, width, height };
}

/** The first letters of a name's words, three at the most. */
const initials = (name: string): string =>
  name
    .split(/\s+/)
    .map(([first = ""]) => first.toUpperCase())
    .join("")
    .slice(0, 3);

const round = (value: number): number => Math.round(value * 10) / 10;

/** The design itself: its picture, or its initials in a perforated box. */
function print(
  { picture, designName }: Look,
  box: Box,
  ink: string,
  address: GarmentWish["address"],
): Drawn[] {
  const [x, y, width, height] = [box.x, box.y, box.width, box.height].map(round) as [
    number,
    number,
    number,
    number,
  ]; // four in, four out
  if (picture !== null)
    return [
      draw("image", { href: address(picture), x, y, width, height, preserveAspectRatio: "xMidYMid meet" }),
    ];
  const letters = initials(designName);
  const fontSize = round(Math.min(height * 0.6, (width * 1.3) / Math.max(1, letters.length)));
  return [
    draw("rect", {
      x,
      y,
      width,
      height,
      fill: "none",
      stroke: ink,
      "stroke-width": 2,
      "stroke-dasharray": "5 4",
    }),
    draw(
      "text",
      {
        x: round(x + width / 2),
        y: round(y + height / 2),
        fill: ink,
        "font-size": fontSize,
        "font-weight": 800,
        "text-anchor": "middle",
        "dominant-baseline": "central",
      },
      letters,
    ),
  ];
}

/** A line from the collar down to the print, with how long it is. */
function dimension({ spot }: Look, shape: GarmentShape, box: Box, ink: string): Drawn[] {
  if (shape.middles[spot.at] !== undefined) return [];
  const x = round(Math.min(box.x + box.width / 2, UNITS - 60));
  const top = round(box.y);
  const inches = spot.inches ?? INCHES_BELOW_COLLAR;
  const ticks = `M${x - 7} ${shape.collar} H${x + 7} M${x} ${shape.collar} V${top} M${x - 7} ${top} H${x + 7}`;
  return [
    draw("path", { d: ticks, fill: "none", stroke: ink, "stroke-width": 2 }),
    draw(
      "text",
      {
        x: x + 10,
        y: round((shape.collar + top) / 2),
        fill: ink,
        "font-size": 14,
        "font-weight": 800,
        "dominant-baseline": "central",
      },
      `${inches} in`,
    ),
  ];
}

const colourOf = ({ colours }: Look, colour: string | undefined) =>
  colours.find((one) => one.colour === colour) ?? colours[0];

/** A garment in words: "Otter on sand tee". */
function garmentWords(look: Look, colour?: string): string {
  const named = colourOf(look, colour)?.name.toLowerCase() ?? "";
  return `${look.designName} on ${named} ${look.blankName.toLowerCase()}`.replaceAll(/\s+/g, " ");
}

/** One of its colours as a patch of cloth, with its name beside it. */
export function drawSwatch(look: Look, colour: string): Drawn {
  const fill = colourOf(look, colour)?.swatch ?? UNKNOWN_SWATCH;
  const edge = { stroke: "currentColor", "stroke-width": 2 };
  return draw(
    "svg",
    { viewBox: "0 0 48 48", class: "drawn-swatch", "aria-hidden": "true" },
    draw("rect", { x: 1, y: 1, width: 46, height: 46, rx: 6, fill, ...edge }),
  );
}

/** The whole picture. Its edge is in the ink of the page around it, so that black shows on dark and white on paper. */
export function compose({ look, colour, size, address, measured = false }: GarmentWish): Drawn {
  const shape = SHAPES[look.outline];
  const { body, seams } = (look.spot.at === "back" ? shape.back : undefined) ?? shape;
  const swatch = colourOf(look, colour)?.swatch ?? UNKNOWN_SWATCH;
  const ink = inkOn(swatch);
  const inches = (size === undefined ? undefined : look.chestInches[size]) ?? shape.width.inches;
  // Chest widths are only for garments with a chest: a cap that states one is still drawn as wide as a cap.
  const hasChest = shape.middles["cap-front"] === undefined && shape.middles["middle"] === undefined;
  const scale = shape.width.units / (hasChest ? inches : shape.width.inches);
  const box = printBox(look, shape, scale);
  return draw(
    "svg",
    {
      viewBox: `0 0 ${UNITS} ${UNITS}`,
      role: "img",
      class: "drawn-garment",
      "aria-label": garmentWords(look, colour),
    },
    draw("path", {
      d: body,
      fill: swatch,
      "fill-rule": "evenodd",
      stroke: "currentColor",
      "stroke-width": 3,
      "stroke-linejoin": "round",
    }),
    draw("path", { d: seams, fill: "none", stroke: ink, "stroke-opacity": 0.35, "stroke-width": 2 }),
    ...print(look, box, ink, address),
    ...(measured ? dimension(look, shape, box, ink) : []),
  );
}
