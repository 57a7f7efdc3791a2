/** Where on a garment a design goes, as data: beside the words for the operator, or read from them. */
import { z } from "zod";
import type { Outline } from "./outline.ts";

export const SpotName = z
  .enum([
    "centre-front",
    "left-chest",
    "right-chest",
    "back",
    "left-sleeve",
    "right-sleeve",
    "cap-front",
    "middle",
  ])
  .meta({ id: "SpotName", description: "Left and right are the wearer's" });
export type SpotName = z.infer<typeof SpotName>;

export const Spot = z
  .strictObject({
    at: SpotName,
    inches: z
      .number()
      .min(0)
      .max(30)
      .optional()
      .describe("From the collar to the top of the print; on what has no collar, from its upper edge"),
  })
  .meta({ id: "Spot", description: "Where a design goes on a garment" });
export type Spot = z.infer<typeof Spot>;

/** English and Spanish, plain and in lower case; the more particular first. */
const WORDS: readonly (readonly [RegExp, SpotName])[] = [
  [/left sleeve|manga izquierda/, "left-sleeve"],
  [/right sleeve|manga derecha/, "right-sleeve"],
  [/left (?:chest|breast)|pecho izquierdo/, "left-chest"],
  [/right (?:chest|breast)|pecho derecho/, "right-chest"],
  [/cap front|front of the cap|frente de la gorra/, "cap-front"],
  [/\bback\b|espalda/, "back"],
  [/front|chest|frente|pecho/, "centre-front"],
  [/middle|centre|center|centrado|medio/, "middle"],
];

/** A length before in, inch or ": "3 in below", "3.5 inches down". */
const INCHES = /(\d{1,2}(?:\.\d{1,2})?)\s?(?:in\b|inch|")/;

/** The default place of a design: on the front, or in the middle of a garment that has no front. */
const usual = (outline: Outline): SpotName =>
  outline === "cap" ? "cap-front" : /^(?:tote|bandana|other)$/.test(outline) ? "middle" : "centre-front";

/** The spot that words describe: "left chest, 3.5 in below the collar". */
function spotIn(words: string, outline: Outline): Spot {
  const plain = words.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();
  const at = WORDS.find(([named]) => named.test(plain))?.[1] ?? usual(outline);
  const inches = INCHES.exec(plain)?.[1];
  return inches === undefined ? { at } : { at, inches: Number(inches) };
}

/** Places that an outline does not have are drawn at its usual one: "centre front, 3 in below the collar" on a tote. */
function has(outline: Outline, at: SpotName): boolean {
  const flat = outline === "tote" || outline === "bandana" || outline === "other";
  if (outline === "cap") return at === "cap-front";
  if (flat) return at === "middle";
  if (at === "cap-front") return false;
  return outline !== "tank" || !at.endsWith("sleeve");
}

/** The place of a design on a blank of this outline: the stall's choice, else the place that its words suggest. */
export function spotOf(
  design: { readonly placement?: string | undefined; readonly spot?: Spot | undefined },
  outline: Outline,
): Spot {
  const spot = { ...spotIn(design.placement ?? "", outline), ...design.spot };
  return has(outline, spot.at) ? spot : { at: usual(outline) };
}
