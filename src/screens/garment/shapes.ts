/** The outlines that garments are drawn in, on a square of 240 units; drawn for this project. */
import type { Outline } from "../../model/garment/outline.ts";
import type { SpotName } from "../../model/garment/spot.ts";

export type GarmentShape = {
  readonly body: string;
  /** The lines inside: collar, seams, pocket. */
  readonly seams: string;
  /** The body and lines seen from behind, if they differ. */
  readonly back?: { readonly body: string; readonly seams: string };
  /** The number of units for this many inches, unless the size gives its chest's width. */
  readonly width: { readonly units: number; readonly inches: number };
  /** Where inches are measured from: the collar, or the upper edge of a garment without one. */
  readonly collar: number;
  /** Middle of the print for places that are not counted from the collar. */
  readonly middles: Partial<Readonly<Record<SpotName, readonly [x: number, y: number]>>>;
};

const TEE_SIDES =
  "L58 36 L18 90 L48 113 L62 98 L62 218 Q120 226 178 218 L178 98 L192 113 L222 90 L182 36 L148 22";
const LONG_SIDES =
  "L60 34 Q50 40 46 60 L14 192 L40 199 L64 106 L64 218 Q120 226 176 218 L176 106 L200 199 L226 192 L194 60 Q190 40 180 34 L148 22";
const CUFFS = "M16.5 182 L42.5 189 M223.5 182 L197.5 189";
const HEM = "M63 210 Q120 218 177 210";

const LONG_SLEEVE: GarmentShape = {
  body: `M92 22 ${LONG_SIDES} Q120 54 92 22 Z`,
  seams: `M86 24 Q120 66 154 24 ${HEM} ${CUFFS}`,
  back: {
    body: `M92 22 ${LONG_SIDES} Q120 34 92 22 Z`,
    seams: `M86 24 Q120 44 154 24 ${HEM} ${CUFFS}`,
  },
  width: { units: 112, inches: 21 },
  collar: 46,
  middles: { "left-sleeve": [203, 112], "right-sleeve": [37, 112] },
};

const CROWN = "M42 142 Q44 44 120 40 Q196 44 198 142 Q160 130 120 130 Q80 130 42 142 Z";

export const SHAPES: Readonly<Record<Outline, GarmentShape>> = {
  tee: {
    body: `M92 22 ${TEE_SIDES} Q120 54 92 22 Z`,
    seams: `M86 24 Q120 66 154 24 ${HEM} M24 84 L53 107 M216 84 L187 107`,
    back: {
      body: `M92 22 ${TEE_SIDES} Q120 34 92 22 Z`,
      seams: `M86 24 Q120 44 154 24 ${HEM} M24 84 L53 107 M216 84 L187 107`,
    },
    width: { units: 116, inches: 20 },
    collar: 46,
    middles: { "left-sleeve": [193, 82], "right-sleeve": [47, 82] },
  },
  "long-sleeve": LONG_SLEEVE,
  hoodie: {
    ...LONG_SLEEVE,
    body: `M88 26 ${LONG_SIDES} L152 26 Q158 4 120 4 Q82 4 88 26 Z`,
    seams: `M88 26 Q92 62 120 64 Q148 62 152 26 M98 30 Q102 14 120 14 Q138 14 142 30 Q138 52 120 56 Q102 52 98 30 M88 210 L98 172 L142 172 L152 210 M112 64 L110 90 M128 64 L130 90 ${HEM} ${CUFFS}`,
    back: {
      body: `M88 26 ${LONG_SIDES} L152 26 Q158 4 120 4 Q82 4 88 26 Z`,
      seams: `M88 26 Q92 74 120 76 Q148 74 152 26 M120 4 L120 76 ${HEM} ${CUFFS}`,
    },
    collar: 64,
  },
  tank: {
    body: "M84 18 L100 18 Q103 60 120 62 Q137 60 140 18 L156 18 Q156 72 178 90 L178 218 Q120 226 62 218 L62 90 Q84 72 84 18 Z",
    seams: `M95 18 Q98 65 120 67 Q142 65 145 18 ${HEM}`,
    width: { units: 116, inches: 20 },
    collar: 62,
    middles: {},
  },
  cap: {
    body: `${CROWN} M42 142 Q80 130 120 130 Q160 130 198 142 Q226 158 222 176 Q170 152 120 152 Q70 152 18 176 Q14 158 42 142 Z`,
    seams:
      "M120 40 L120 130 M42 142 Q80 130 120 130 Q160 130 198 142 M84 132 Q80 70 108 42 M156 132 Q160 70 132 42",
    width: { units: 156, inches: 7.5 },
    collar: 40,
    middles: { "cap-front": [120, 92] },
  },
  tote: {
    body: "M44 84 L78 84 Q80 10 120 10 Q160 10 162 84 L196 84 L200 226 L40 226 Z M90 84 L150 84 Q148 22 120 22 Q92 22 90 84 Z",
    seams: "M44 92 L196 92 M78 84 L78 102 L90 102 L90 84 M150 84 L150 102 L162 102 L162 84",
    width: { units: 154, inches: 15 },
    collar: 84,
    middles: { middle: [120, 160] },
  },
  bandana: {
    body: "M30 30 L210 30 L210 210 L30 210 Z",
    seams: "M40 40 L200 40 L200 200 L40 200 Z",
    width: { units: 180, inches: 22 },
    collar: 30,
    middles: { middle: [120, 120] },
  },
  other: {
    body: "M52 30 L188 30 Q198 30 198 40 L198 200 Q198 210 188 210 L52 210 Q42 210 42 200 L42 40 Q42 30 52 30 Z",
    seams: "M42 46 L198 46 M42 194 L198 194",
    width: { units: 156, inches: 16 },
    collar: 30,
    middles: { middle: [120, 120] },
  },
};
